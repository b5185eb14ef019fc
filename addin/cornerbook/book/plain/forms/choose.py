"""From one call of a formula to where its result stands in the workings."""

from ....catalogue import FORMULAS
from ....cells.call import call
from ....cells.mend import Mend
from .check import CheckForm
from .given import guards_of
from .leeway import LeewayForm
from .ordinary import OrdinaryForm
from .places import Constant
from .quantities import AtForm, SweepForm
from .ranked import RankedForm
from .sensitivity import SensitivityForm
from .turns import TurnsForm
from .two_way import TwoWayForm

# Formulas that are for tables: out of reach is #N/A, which a chart skips.
_NOT_AVAILABLE = {"IN_ROLL": float("nan")}


class CallForms:
    """The plain form of every call: which of the forms a formula has, or a constant sentence.

    workings: the `Workings` that the results go into.
    """

    def __init__(self, workings):
        self._results = OrdinaryForm(workings)
        self._two_way = TwoWayForm(workings)
        self._others = {
            "AT": AtForm(self._results),
            "SWEEP": SweepForm(self._results, workings),
            "CHECK": CheckForm(workings),
            "SENSITIVITY": SensitivityForm(workings),
            "SENSITIVITIES": RankedForm(workings),
            "DISTANCE_LEEWAY": LeewayForm(workings, self._results),
            "ADJUSTER_TURNS": TurnsForm(workings),
        }

    def live_of_two_way(self, given):
        """See `TwoWayForm.places`; given: a `Given` for each argument of TWO_WAY."""
        names = [argument.name for argument in FORMULAS["TWO_WAY"].arguments]
        given = [*given, *[None] * (len(names) - len(given))]
        return self._two_way.places(dict(zip(names, given, strict=True)))

    def place(self, name, given):
        """The `Place`, `Range` or `Constant` for a call.

        name: of the formula. given: a `Given` for each argument, None for one left out.
        Raises NotImplementedError where the formula has no plain form.
        """
        entry = FORMULAS[name]
        raw = [None if one is None else one.value for one in given]
        if len(given) > len(entry.arguments):
            return Constant(call(name, *raw))
        given = list(given) + [None] * (len(entry.arguments) - len(given))
        told = list(zip(entry.arguments, given, strict=True))
        # What decides which sentence it is, or that a text is as good as left out.
        choosing = [one for each, one in told if each.kind in _TEXTS or not _fits(each, one)]
        left_out = [one for each, one in told if _is_as_left_out(each, one)]
        by_name = {each.name: None if one in left_out else one for each, one in told}
        if not all(_fits(each, by_name[each.name]) for each, _ in told):
            shown = call(name, *raw)
            shown = shown[0][0] if isinstance(shown, tuple) else shown
            return Constant(shown, guards_of(*choosing))
        try:
            if name in self._others:
                place = self._others[name].place(by_name)
            else:
                place = self._results.place(entry, by_name, _NOT_AVAILABLE.get(name))
        except Mend as mend:
            return Constant(mend.sentence, guards_of(*choosing))
        place.guards += guards_of(*left_out)
        return place


_TEXTS = ("text", "names")


def _is_as_left_out(argument, given):
    """Whether a text is given by a cell that has an empty one, so that its default stands."""
    return (
        argument.kind in _TEXTS
        and not argument.required
        and given is not None
        and given.value == ""
    )


def _fits(argument, given):
    """Whether an argument is of a shape that an edit of numbers can mend."""
    return not argument.required if given is None else given.fits(argument)
