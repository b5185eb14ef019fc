"""The plain forms of AT and SWEEP, which show what other formulas give, called by name."""

from ....cells.call import call
from ....cells.mend import Mend
from ....cells.quantity import chosen
from ..workings.spread import Spread
from .given import ZERO, Given, guards_of
from .places import Constant, Range

# In tables, out of reach is #N/A, which a chart skips.
_NOT_AVAILABLE = float("nan")


class AtForm:
    """AT: a quantity at one pose. results: the `OrdinaryForm` of the formulas that it names."""

    def __init__(self, results):
        self._results = results

    def place(self, given):
        """The `Place` of a call of AT; see `OrdinaryForm.place`."""
        quantity = given["quantity"]
        (entry,) = chosen("quantity", (str(quantity.value).strip(),))
        inner = _arguments_of(entry, given["corner"], given)
        place = self._results.place(entry, inner, _NOT_AVAILABLE)
        place.guards += quantity.guards()
        return place


class SweepForm:
    """SWEEP: quantities at poses evenly spaced, side by side.

    results: the `OrdinaryForm` of the formulas that it names. workings: the `Workings`.
    """

    def __init__(self, results, workings):
        self._results = results
        self._workings = workings

    def place(self, given):
        """The `Range` of a call of SWEEP, or a `Constant`; see `OrdinaryForm.place`."""
        real = call("SWEEP", *[g and g.value for g in given.values()])
        guards = guards_of(given["quantities"], given["over"], given["points"])
        if isinstance(real, str):
            return Constant(real, guards)
        spreads = self._workings.spreads
        key = ("SWEEP", *(g and g.identity for g in given.values()))
        if key not in spreads:
            self._fill(key, given)
        return Range(spreads[key], guards)

    def _fill(self, key, given):
        names = given["quantities"].names()
        wanted = chosen("quantities", names)
        over = str(given["over"].value).strip().lower()
        block = self._workings.block(given["corner"])
        spread = Spread(f"CORNER.SWEEP of {block.name}", [over, *(n.strip() for n in names)])
        self._workings.spreads[key] = spread
        other = "rack" if over == "travel" else "travel"
        for moved in _steps(given["from"], given["to"], int(given["points"].value)):
            pose = {over: moved, other: given["held"] or ZERO, "wheelbase": given["wheelbase"]}
            row = [moved.asked().cell]
            for entry in wanted:
                inner = _arguments_of(entry, given["corner"], pose)
                row.append(self._results.place(entry, inner, _NOT_AVAILABLE).cell)
            spread.add(row)


def _steps(start, end, count):
    """A `Given` for each of some numbers evenly spaced from one to another."""
    for i in range(count):
        share = f"{i}/{count - 1}"

        def text(share=share):
            return f"{start.text}+(({end.text})-({start.text}))*{share}"

        at = float(start.value) + (float(end.value) - float(start.value)) * i / (count - 1)
        whole = end.identity.minus(start.identity)
        yield Given(text, at, start.identity.plus(whole.times(i / (count - 1))))


def _arguments_of(entry, corner, given):
    """The arguments of a quantity's own formula from those of AT or SWEEP."""
    inner = {"corner": corner, "travel": given["travel"], "rack": given["rack"]}
    if any(argument.name == "wheelbase" for argument in entry.arguments):
        inner["wheelbase"] = given["wheelbase"]
        if inner["wheelbase"] is None:
            name = entry.name.lower().replace("_", " ")
            raise Mend(f"wheelbase is missing; {name} needs it")
    return {argument.name: inner[argument.name] for argument in entry.arguments}
