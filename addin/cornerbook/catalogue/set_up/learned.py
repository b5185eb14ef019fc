"""What a log of set-ups tells: the real effect of a step, and what the linkage says of it."""

import difflib
import operator
from functools import reduce

from ...cells.arguments import CORNER
from ...cells.declare import Argument, formula
from ...cells.mend import Mend, finite, hold, is_number, shown
from ...cells.quantity import chosen, name_of, number_at, of_axle, value_at
from ...cells.rows import Column
from ...geometry.numbers import sqrt, where
from .adjust import GROUP
from .steps import ADJUSTERS, WAYS, adjusters_of, one_below_the_other, turned

STEPS_TURNED = Argument(
    "steps_turned", "rows",
    "How many steps were turned each time, one below the other; a row in which this or the change "
    "is blank is nothing.",
    unit="count", columns=(Column("steps", "count"),), blank=True,
)  # fmt: skip
CHANGE_MEASURED = Argument(
    "change_measured", "rows", "By how much a measure changed each time, likewise.",
    unit="of the input", columns=(Column("change", "of the input"),), blank=True,
)  # fmt: skip
LOG = (STEPS_TURNED, CHANGE_MEASURED)


def _sum(values):
    return reduce(operator.add, values, 0.0)


class Learned:
    """A line through the origin, fitted to changes over steps by least squares.

    entries: how many there are. effect: change of a step. left: sum of the squares left over.
    squares: that of the steps.
    """

    def __init__(self, steps, changes):
        if len(steps) != len(changes):
            raise Mend(
                f"change_measured: {len(changes)} rows given, {len(steps)} as of steps_turned "
                "were expected"
            )
        both = [
            (
                where(steps[i].has[0], changes[i].has[0], False),
                steps[i].numbers[0],
                changes[i].numbers[0],
            )
            for i in range(len(steps))
        ]
        self.entries = _sum([where(there, 1.0, 0.0) for there, _, _ in both])
        hold(self.entries > 0.0, "no row has both steps and a change: nothing is logged yet")
        self.squares = _sum([where(there, n * n, 0.0) for there, n, _ in both])
        hold(self.squares > 0.0, "steps_turned: no step was turned in any row")
        products = _sum([where(there, n * change, 0.0) for there, n, change in both])
        self.effect = products / self.squares
        missed = [
            where(there, change - self.effect * n, 0.0) for there, n, change in both
        ]  # fmt: skip
        self.left = _sum([one * one for one in missed])

    def deviation(self):
        """The standard deviation of the effect; of one entry there is none."""
        spare = self.entries - 1.0
        hold(spare > 0.0, "one entry: no spread")
        return sqrt(self.left / spare / self.squares)


@formula(
    name="LEARNED_EFFECT",
    group=GROUP,
    arguments=LOG,
    unit="that of the change",
    positive="the measure grew with steps turned the positive way",
    help="What one step does by what was measured: the line through the origin nearest to all "
    "changes logged, in least squares.",
    source="Linear regression through the origin: sum of steps times changes over sum of steps "
    "squared (NIST/ITL StRD, linear regression, data set NoInt1).",
    example="=CORNER.LEARNED_EFFECT(SomeSteps, SomeChanges)",
    check=-0.102586206897,
)
def learned_effect(steps_turned, change_measured):
    return Learned(steps_turned, change_measured).effect


@formula(
    name="LEARNED_DEVIATION",
    group=GROUP,
    arguments=LOG,
    unit="that of the change",
    positive="the entries do not agree to all digits",
    help="Standard deviation of LEARNED_EFFECT, from how far the entries miss its line; two at "
    "least are needed.",
    source="Linear regression through the origin: what is left over, squared, over one less than "
    "the entries and over the sum of steps squared (NIST/ITL StRD, data set NoInt1).",
    example="=CORNER.LEARNED_DEVIATION(SomeSteps, SomeChanges)",
    check=0.00272610143118,
)
def learned_deviation(steps_turned, change_measured):
    return Learned(steps_turned, change_measured).deviation()


def _column(name, words, unit=""):
    return Argument(name, "any", words, unit=unit, blank=True)


@formula(
    name="EXPECTED_CHANGES",
    group=GROUP,
    arguments=(
        CORNER,
        Argument("adjuster_names", "labels", "Names of the adjusters, one below the other."),
        ADJUSTERS, *WAYS,
        _column("log_adjusters", "Of each row of the log the name of the adjuster turned."),
        _column("log_quantities", "The measure that is logged there, such as camber."),
        _column("log_steps", "How many steps of it; an empty cell is none yet.", "count"),
        Argument("log_among", "names", "The measures that may be logged; any if left out.",
                 default=()),
    ),
    help="What the linkage as drawn says that each row of a log changes: a column, empty where a "
    "row is, and with a sentence where it names what there is not.",
    source="The linkage closed anew with the changed lengths or places; exact, not linearised.",
    example='=CORNER.EXPECTED_CHANGES(Example, "arm", "upper arm", 0, 1.5, 0, "arm", "camber", 2)',
    check=((0.759068862942,),),
    shape="table",
    plain=False,
)  # fmt: skip
def expected_changes(
    corner, adjuster_names, adjusters, dx, dy, dz, log_adjusters, log_quantities, log_steps,
    log_among,
):  # fmt: skip
    corner.hold_linkage()
    known = {adjuster.row: adjuster for adjuster in adjusters_of(adjusters, (dx, dy, dz))}
    names = one_below_the_other("adjuster_names", adjuster_names, len(adjusters))
    count = len(log_adjusters)
    log = (
        one_below_the_other("log_adjusters", log_adjusters, count),
        one_below_the_other("log_quantities", log_quantities, count, "log_adjusters"),
        one_below_the_other("log_steps", log_steps, count, "log_adjusters"),
    )
    among = chosen("log_among", log_among)
    found = []
    for i in range(count):
        try:
            name, quantity = (_text(what, log[k][i]) for k, what in enumerate(_WORDS))
            steps = _number("steps", log[2][i])
            adjuster = _named(names, known, name) if name else None
            entry = _logged(quantity, among) if quantity else None
            there = adjuster and entry and steps is not None
            found.append(_change(corner, entry, adjuster, steps, name) if there else "")
        except Mend as mend:
            found.append(mend.sentence)
    return tuple((value,) for value in found)


_WORDS = ("adjuster", "result")


def _text(what, cell):
    if cell is None:
        return ""
    if not isinstance(cell, str):
        raise Mend(f"{what}: {shown(cell)} given, a text was expected")
    return cell.strip()


def _number(what, cell):
    if cell is None:
        return None
    number = finite(cell) if is_number(cell) else None
    if number is None:
        raise Mend(f"{what}: {shown(cell)} given, a number was expected")
    return number


def _named(names, known, name):
    """The adjuster of a name."""
    same = [i for i, own in enumerate(names) if own.lower() == name.lower()]
    if not same:
        near = difflib.get_close_matches(name, names, n=1)
        meant = (
            f"did you mean {near[0]}?" if near else f"there are {', '.join(filter(None, names))}"
        )
        raise Mend(f"there is no adjuster {shown(name)}; {meant}")
    if len(same) > 1:
        raise Mend(f"{len(same)} adjusters have the name {shown(name)}; give them different ones")
    if same[0] not in known:
        raise Mend(f"it is not said what the adjuster {shown(name)} moves")
    return known[same[0]]


def _logged(quantity, among):
    """The measure of a name, one of those that may be logged."""
    (entry,) = chosen("result", (quantity,))
    if among and entry not in among:
        raise Mend(f"{shown(quantity)} is not logged here: {', '.join(map(name_of, among))} are")
    if of_axle(entry):
        raise Mend(
            f"result: {name_of(entry)} is of both wheels; one of a single wheel, such as camber, "
            "was expected"
        )
    return entry


def _change(corner, entry, adjuster, steps, name):
    """What the linkage says that so many steps change."""
    before = number_at(entry, corner, 0.0, 0.0, 0.0)
    after = value_at(entry, turned(corner, [adjuster], [steps]), 0.0, 0.0, 0.0)
    if after is None:
        raise Mend(f"the linkage does not close with so many steps of {shown(name)}")
    return after - before
