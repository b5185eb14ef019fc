"""From a call to the place of its result in the workings.

`choose.py` takes one of these forms: `ordinary.py` for most formulas, `quantities.py` for AT
and SWEEP, `sensitivity.py` for SENSITIVITY, `ranked.py` for SENSITIVITIES, `leeway.py` for
DISTANCE_LEEWAY, `turns.py` for ADJUSTER_TURNS, `check.py` for CHECK; `two_way.py` for part of
TWO_WAY.
Arguments come as `given.py` has them, are sorted by `sorted_call.py`, and give the steps of
`answer.py`; results are found as `places.py` has them.
"""
