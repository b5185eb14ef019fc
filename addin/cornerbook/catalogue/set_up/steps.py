"""Several adjusters turned at once, in whole steps: what they do, and which steps bring a wish."""

from ...cells.adjusted import AdjustedCorner
from ...cells.arguments import CORNER, RACK, TRAVEL
from ...cells.declare import Argument, formula
from ...cells.mend import Mend, shown
from ...cells.quantity import (
    QUANTITY,
    WHEELBASE_OPTIONAL,
    chosen,
    name_of,
    number_at,
    of_axle,
    value_at,
)
from ...cells.whole_steps import Band, Steps
from ...geometry.vec import Vec
from .adjust import GROUP, adjuster_named

MOST_STEPS = 1000
"""Steps of an adjuster to either side."""

SIDES = ("each", "both", "left", "right", "none")


def _column(name, words, kind="gaps", unit=""):
    return Argument(name, kind, words, unit=unit)


ADJUSTERS = _column(
    "adjusters",
    "What each adjuster moves, as ADJUSTER_EFFECT has it, one below the other; an empty row is "
    "no adjuster.",
    kind="labels",
)
WAYS = (
    _column("dx", "Forward for each step, likewise; for the tie rod, longer.", unit="length"),
    _column("dy", "To the left, outboard, for each step.", unit="length"),
    _column("dz", "Up for each step.", unit="length"),
)
MORE = _column(
    "more",
    "What a step of each adjuster does more than the linkage says, as a log has taught it: a row "
    "for each of quantities, a column for each adjuster; an empty cell is nothing more.",
    unit="of the input",
).but(default=())


def _more_of(more, results, count):
    """Rows of what a step does more, a number for each adjuster."""
    if not more:
        return [[0.0] * count] * results
    if len(more) != results or len(more[0]) != count:
        raise Mend(
            f"more: {len(more)} rows and {len(more[0])} columns given; a row for each result, "
            f"{results}, and a column for each adjuster, {count}, were expected"
        )
    return [[cell or 0.0 for cell in row] for row in more]


def one_below_the_other(name, cells, count, of="adjusters"):
    """The cells of a column of as many rows as another argument has."""
    if any(len(row) != 1 for row in cells):
        raise Mend(f"{name}: {len(cells[0])} columns given, one was expected")
    if len(cells) != count:
        raise Mend(f"{name}: {len(cells)} rows given, {count} as of {of} were expected")
    return [row[0] for row in cells]


class _Adjuster:
    """One that is there: its row, what it moves, and by what way for each step."""

    def __init__(self, row, name, way):
        self.row = row
        self.name = adjuster_named(name)
        self.way = way
        if self.name == "tie rod" and (way.y != 0.0 or way.z != 0.0):
            raise Mend(
                f"dy and dz in row {row + 1}: the tie rod has only a length; how much longer for "
                "each step goes into dx"
            )


def adjusters_of(adjusters, ways):
    """The adjusters of a table that are there; raises `Mend` for one that is not known."""
    count = len(adjusters)
    names = one_below_the_other("adjusters", adjusters, count)
    parts = [
        one_below_the_other(argument.name, cells, count)
        for argument, cells in ((WAYS[0], ways[0]), (WAYS[1], ways[1]), (WAYS[2], ways[2]))
    ]
    return [
        _Adjuster(row, name, Vec(*(part[row] or 0.0 for part in parts)))
        for row, name in enumerate(names)
        if name
    ]


def turned(corner, adjusters, steps):
    """The corner with adjusters turned by some steps each; as drawn where none is."""
    ways = {}
    for j, adjuster in enumerate(adjusters):
        if steps[j]:
            way = adjuster.way * float(steps[j])
            ways[adjuster.name] = ways[adjuster.name] + way if adjuster.name in ways else way
    return AdjustedCorner(corner, ways) if ways else corner


@formula(
    name="ADJUSTED_CHANGE",
    group=GROUP,
    arguments=(
        CORNER, QUANTITY, ADJUSTERS, *WAYS,
        _column("steps", "How many steps of each; an empty cell is none.", unit="count"),
        TRAVEL, RACK, WHEELBASE_OPTIONAL,
        MORE.but(help="What a step of each adjuster does more than the linkage says, side by "
                 "side; nothing if left out."),
    ),
    unit="that of the quantity",
    positive="the quantity grows",
    help="Change of a quantity when several adjusters are turned at once, the upright rigid as "
    "built and the wheel centre at the same height; camber and toe as drawn change with it.",
    source="The linkage closed anew with the changed lengths or places; exact, not linearised.",
    example='=CORNER.ADJUSTED_CHANGE(Example, "camber", "upper arm", 0, 1.5, 0, 2)',
    check=0.759068862942,
    plain=False,
)  # fmt: skip
def adjusted_change(
    corner, quantity, adjusters, dx, dy, dz, steps, travel, rack, wheelbase, more
):  # fmt: skip
    (entry,) = chosen("quantity", (quantity,))
    corner.hold_linkage()
    known = adjusters_of(adjusters, (dx, dy, dz))
    given = one_below_the_other("steps", steps, len(adjusters))
    before = number_at(entry, corner, wheelbase, travel, rack)
    steps = [given[adjuster.row] or 0.0 for adjuster in known]
    after = value_at(entry, turned(corner, known, steps), wheelbase, travel, rack)
    if after is None:
        raise Mend("the linkage does not close with the adjusters turned so far; give fewer steps")
    (added,) = _more_of(more, 1, len(adjusters))
    return after - before + sum(added[known[i].row] * steps[i] for i in range(len(known)))


def _side(text, row):
    word = text.lower() or "each"
    if word not in SIDES:
        raise Mend(
            f"sides: {shown(text)} in row {row + 1}, one of these was expected: {', '.join(SIDES)}"
        )
    return word


def _limit(name, cell, row, otherwise):
    if cell is None:
        return otherwise
    if cell != int(cell) or abs(cell) > MOST_STEPS:
        raise Mend(
            f"{name}: {shown(cell)} in row {row + 1}, a whole number of steps, at most "
            f"{MOST_STEPS} to either side, was expected"
        )
    return int(cell)


@formula(
    name="ADJUSTER_STEPS",
    group=GROUP,
    arguments=(
        CORNER,
        Argument("quantities", "names", "The results that are wanted, one below the other."),
        _column(
            "change_from",
            "The least change of each result, a column for the left wheel and, if the right is "
            "asked for, one for it; an empty cell is no limit.",
        ),
        _column("change_to", "The largest change of each result, likewise."),
        ADJUSTERS, *WAYS,
        _column("least", "The fewest steps of each adjuster, negative for those the other way; "
                "none if empty.", unit="count"),
        _column("most", "The most steps of each adjuster; none if empty.", unit="count"),
        Argument(
            "sides", "labels",
            "Where it is: each (left and right turned apart), both (alike), left, right, or none; "
            "each if left out.",
            default=(),
        ),
        WHEELBASE_OPTIONAL,
        MORE,
    ),
    help="The fewest whole steps within their limits that bring every result's change into its "
    "band, a row for each adjuster and a column for each side, or where none do, the steps that "
    "come nearest.",
    source="The linkage closed anew for each trial; branch and bound on the tangent plane, laid "
    "again until the steps stay, then single steps and pairs tried.",
    example='=CORNER.ADJUSTER_STEPS(Example, "camber", -0.9, -0.7, "upper arm", 0, 0.5, 0, -8, 8)',
    check=((-6.0,),),
    shape="table",
    plain=False,
)  # fmt: skip
def adjuster_steps(
    corner, quantities, change_from, change_to, adjusters, dx, dy, dz, least, most, sides,
    wheelbase, more,
):  # fmt: skip
    entries = chosen("quantities", quantities)
    corner.hold_linkage()
    known = adjusters_of(adjusters, (dx, dy, dz))
    count = len(adjusters)
    low = one_below_the_other("least", least, count)
    high = one_below_the_other("most", most, count)
    words = one_below_the_other("sides", sides, count) if sides else [""] * count
    columns = len(change_from[0])
    for name, cells in (("change_from", change_from), ("change_to", change_to)):
        if len(cells) != len(entries) or len(cells[0]) != columns or columns > 2:
            raise Mend(
                f"{name}: {len(cells)} rows and {len(cells[0])} columns given; a row for each of "
                "quantities, and a column for the left wheel or for both was expected"
            )
    variables = []
    for adjuster in known:
        row, side = adjuster.row, _side(words[adjuster.row], adjuster.row)
        ends = _limit("least", low[row], row, 0), _limit("most", high[row], row, 0)
        if ends[0] > ends[1]:
            raise Mend(f"least: {shown(ends[0])} in row {row + 1} is above most, {shown(ends[1])}")
        if side in ("both", "none"):
            where = [(0, 1)[:columns]] if side == "both" else []
        else:
            where = [(i,) for i in range(columns) if side in ("each", ("left", "right")[i])]
        variables += [(adjuster, where_it_is, ends) for where_it_is in where]
    bands = [
        [
            _band(change_from[i][side], change_to[i][side], i, quantities)
            for i in range(len(entries))
        ]
        for side in range(columns)
    ]
    results = [[i for i, band in enumerate(bands[side]) if band] for side in range(columns)]
    added = _more_of(more, len(entries), count)
    values = _Values(corner, entries, wheelbase, known, added)
    apart = all(len(where) == 1 for _, where, _ in variables)
    groups = [(side,) for side in range(columns)] if apart else [tuple(range(columns))]
    found = [[0.0] * columns for _ in range(count)]
    for group in groups:
        asked = [(side, i) for side in group for i in results[side]]
        own = [one for one in variables if set(one[1]) & set(group)]
        if not own:
            continue
        search = Steps(
            lambda steps, own=own, asked=asked: values.changes(own, steps, asked),
            [ends for _, _, ends in own],
            [bands[side][i] for side, i in asked],
        )
        for (adjuster, where, _), n in _pairs(own, search.fewest()):
            for side in where:
                found[adjuster.row][side] = float(n)
    there = {adjuster.row for adjuster in known}
    return tuple(
        tuple(cells) if row in there else ("",) * columns for row, cells in enumerate(found)
    )


def _pairs(one, other):
    return [(one[i], other[i]) for i in range(len(one))]


def _band(least, most, row, quantities):
    if least is None and most is None:
        return None
    if least is not None and most is not None and least > most:
        raise Mend(
            f"change_from: {shown(least)} for {quantities[row]} is above change_to, {shown(most)}"
        )
    return Band(least, most)


class _Values:
    """Exact changes of results; a side of the car that is turned alike is worked out once."""

    def __init__(self, corner, entries, wheelbase, known, more):
        self.corner = corner
        self.entries = entries
        self.wheelbase = wheelbase
        self.known = known
        self.more = more
        self._before = {}
        self._after = {}
        for entry in entries:
            if of_axle(entry):
                raise Mend(
                    f"quantities: {name_of(entry)} is one of both wheels; results of one wheel, "
                    "such as camber, were expected"
                )

    def changes(self, variables, steps, asked):
        """The change of each result asked for, or None where the linkage does not close."""
        turns = {}
        for (adjuster, where, _), n in _pairs(variables, steps):
            for side in where:
                turns.setdefault(side, {})[adjuster.row] = n
        found = []
        for side, i in asked:
            steps_of = turns.get(side, {})
            key = tuple(steps_of.get(adjuster.row, 0) for adjuster in self.known)
            after = self._at(key, i)
            if after is None:
                return None
            if i not in self._before:
                self._before[i] = number_at(self.entries[i], self.corner, self.wheelbase, 0.0, 0.0)
            added = sum(self.more[i][row] * n for row, n in steps_of.items())
            found.append(after - self._before[i] + added)
        return found

    def _at(self, key, i):
        if (key, i) not in self._after:
            try:
                if key not in self._after:
                    self._after[key] = turned(self.corner, self.known, key)
                value = value_at(self.entries[i], self._after[key], self.wheelbase, 0.0, 0.0)
            except Mend:
                value = None
            self._after[key, i] = value
        return self._after[key, i]
