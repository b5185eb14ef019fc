"""What an adjuster does to a quantity, and how far to turn several for a wanted change."""

import operator
from functools import reduce

from ...cells.adjusted import AdjustedCorner, adjuster_named
from ...cells.arguments import CORNER, RACK, TRAVEL
from ...cells.declare import Argument, formula
from ...cells.mend import Mend, hold, shown
from ...cells.quantity import QUANTITY, WHEELBASE_OPTIONAL, chosen, number_at, value_at
from ...geometry.numbers import NAN, absolute, sqrt, where
from ...geometry.vec import Vec

GROUP = "Adjusters"

# Columns of a table of effects that differ by less than this part of their size, once the
# others have done what they can, do nothing of their own.
_OWN = 1e-9


def _why(corner, quantity, adjuster, dx, dy, dz, turns, travel, rack, wheelbase):
    return (
        f"the linkage does not close with {shown(adjuster)} adjusted so far; give fewer "
        "turns, or less for each"
    )


@formula(
    name="ADJUSTER_EFFECT",
    group=GROUP,
    arguments=(
        CORNER,
        QUANTITY,
        Argument(
            "adjuster", "text",
            "What is adjusted: a pickup or the tie rod inner (moved on the frame), the tie rod "
            "outer (moved on the upright), lower arm or upper arm (its outer end moved on the "
            "arm), or tie rod (its length, dx alone).",
        ),
        Argument("dx", "number", "Forward for each turn; for the tie rod, longer.", unit="length"),
        Argument("dy", "number", "To the left, outboard, for each turn.", unit="length"),
        Argument("dz", "number", "Up for each turn.", unit="length"),
        Argument("turns", "number", "How many turns, or shims.", unit="count"),
        TRAVEL,
        RACK,
        WHEELBASE_OPTIONAL,
    ),
    unit="that of the quantity",
    positive="the quantity grows",
    help="Change of a quantity when an adjuster is turned, the upright rigid as built and the "
    "wheel centre at the same height; camber and toe as drawn change with it.",
    source="The linkage closed anew with the changed lengths or places; exact, not linearised.",
    example='=CORNER.ADJUSTER_EFFECT(Example, "camber", "upper arm", 0, 1.5, 0, 2)',
    check=0.759068862942,
    why=_why,
    beyond="no solution was found with this adjuster turned so far at this travel and rack; give "
    "fewer turns, or less for each",
)  # fmt: skip
def adjuster_effect(
    corner, quantity, adjuster, dx, dy, dz, turns, travel, rack, wheelbase
):  # fmt: skip
    (entry,) = chosen("quantity", (quantity,))
    adjuster = adjuster_named(adjuster)
    corner.hold_linkage()
    if adjuster == "tie rod":
        for name, amount in (("dy", dy), ("dz", dz)):
            hold(
                amount == 0.0,
                name + ": %s given, but the tie rod has only a length; "
                "how much longer for each turn goes into dx",
                amount,
            )
    before = number_at(entry, corner, wheelbase, travel, rack)
    adjusted = AdjustedCorner(corner, {adjuster: Vec(dx, dy, dz) * turns})
    after = value_at(entry, adjusted, wheelbase, travel, rack)
    return NAN if after is None else after - before


@formula(
    name="ADJUSTER_TURNS",
    group=GROUP,
    arguments=(
        Argument(
            "effects",
            "cells",
            "What one turn of each adjuster does: a row for each result, a column for each "
            "adjuster.",
        ),
        Argument("wanted", "cells", "The wanted change of each result, one below the other."),
    ),
    help="How many turns to give each adjuster for the wanted changes, as a column in the order "
    "of the effects' columns: nearest in least squares where there are more results than "
    "adjusters, and the fewest turns (least sum of squares) where there are more adjusters.",
    source="Linear least squares and the solution of minimum norm, by orthogonal columns: what is "
    "left of the wanted changes is square to every column.",
    example="=CORNER.ADJUSTER_TURNS(0.4, 0.1)",
    check=((0.25,),),
    shape="table",
)
def adjuster_turns(effects, wanted):
    if len(wanted) > 1 and len(wanted[0]) > 1:
        raise Mend(f"wanted: {len(wanted[0])} columns given, one column was expected")
    asked = [cell for row in wanted for cell in row]
    if len(asked) != len(effects):
        raise Mend(f"wanted: {len(asked)} results given, where effects has {len(effects)} rows")
    columns = [[row[j] for row in effects] for j in range(len(effects[0]))]
    if len(columns) <= len(effects):
        made, shares = _orthogonal(columns, "adjuster")
        return tuple((turn,) for turn in _back(shares, [_dot(one, asked) for one in made]))
    rows = [list(row) for row in effects]
    made, shares = _orthogonal(rows, "result")
    weights = _forward(shares, asked)
    turns = [_dot(weights, [one[i] for one in made]) for i in range(len(columns))]
    return tuple((turn,) for turn in turns)


def _dot(one, other):
    return reduce(operator.add, map(operator.mul, one, other), 0.0)


def _largest(cells):
    """The size of the largest of some numbers."""
    return reduce(lambda one, other: where(other > one, other, one), map(absolute, cells))


def _orthogonal(vectors, what):
    """Unit vectors square to each other, and the shares of them that make up each vector.

    Gram and Schmidt's way, done twice for each vector so that rounding does not matter.
    Raises `Mend` for a vector that the ones before it make up. what: a vector's name.
    """
    made, shares = [], []
    for number, vector in enumerate(vectors, 1):
        size = _largest(vector)
        hold(size > 0.0, _NOTHING[what] % number)
        rest = [cell / size for cell in vector]
        start = sqrt(_dot(rest, rest))
        own = [0.0] * len(made)
        for _ in range(2):
            for i, unit in enumerate(made):
                part = _dot(unit, rest)
                own[i] += part
                rest = [rest[j] - part * unit[j] for j in range(len(rest))]
        left = sqrt(_dot(rest, rest))
        of_its_own = left > _OWN * start
        if of_its_own is False:
            raise Mend(_SAME[what] % (number, f"{what} {_listed(_makers(shares, own))}"))
        # Numbers that only record what is done cannot tell here which ones make it up.
        hold(of_its_own, _SAME[what] % (number, "those before it"))
        made.append([cell / left for cell in rest])
        shares.append([*(part * size for part in own), left * size])
    return made, shares


_NOTHING = {
    "adjuster": "effects: adjuster %d (its column) changes none of the results",
    "result": "effects: result %d (its row) is changed by none of the adjusters",
}
_SAME = {
    "adjuster": "effects: adjuster %d does the same as %s; leave one of them out",
    "result": "effects: result %d follows from %s and cannot be wanted apart; "
    "leave one of them out",
}


def _makers(shares, own):
    """Numbers of the vectors that make up one whose shares of the unit vectors are `own`."""
    parts = _back(shares, own)
    sizes = [abs(parts[i]) * max(map(abs, shares[i])) for i in range(len(parts))]
    return [i for i, size in enumerate(sizes, 1) if size > _OWN * max(sizes)]


def _listed(numbers):
    words = [str(number) for number in numbers]
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]


def _back(shares, wanted):
    """Amounts of the vectors that add up to these shares of the unit vectors."""
    left, amounts = list(wanted), [0.0] * len(wanted)
    for i in reversed(range(len(wanted))):
        amounts[i] = left[i] / shares[i][i]
        for j in range(i):
            left[j] -= amounts[i] * shares[i][j]
    return amounts


def _forward(shares, wanted):
    """Amounts of the unit vectors whose products with the vectors are these."""
    amounts = []
    for i in range(len(wanted)):
        *others, own = shares[i]
        amounts.append((wanted[i] - _dot(others, amounts)) / own)
    return amounts
