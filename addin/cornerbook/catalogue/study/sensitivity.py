"""How much each coordinate of the drawing matters to a quantity: exact derivatives.

A corner is made whose one coordinate is a dual number; every quantity then comes with its
derivative by that coordinate, through the same lines (`geometry/corner/dual.py`).
"""

from ...cells.arguments import CORNER, RACK, TRAVEL
from ...cells.declare import Argument, formula
from ...cells.mend import Mend
from ...cells.moved import AXES, VALUE, coordinate_of, coordinates_of
from ...cells.quantity import (
    QUANTITY,
    WHEELBASE_OPTIONAL,
    chosen,
    number_at,
)
from ...cells.sloped import slope_at, sloped

GROUP = "Sensitivity"

# A derivative smaller than this part of the largest one is a zero that rounding has touched.
ROUNDING = 1e-12

NOTHING = "no coordinate changes any of these quantities"

# Alike to so many digits counts as alike in the ranking.
DIGITS = 9


def _why(corner, quantity, point, coordinate, travel, rack, wheelbase):
    return (
        f"{quantity} has no derivative by that coordinate here: it stands at a kink or at an end "
        "of "
        "its range"
    )


@formula(
    name="SENSITIVITY",
    group=GROUP,
    arguments=(
        CORNER,
        QUANTITY,
        Argument("point", "text", "A row of the block: upper ball joint, tyre radius and so on."),
        Argument(
            "coordinate", "text",
            "x, y or z of a point; value for the tyre radius, static camber or static toe.",
            choices=(*AXES, VALUE),
        ),
        TRAVEL,
        RACK,
        WHEELBASE_OPTIONAL,
    ),
    unit="the quantity's per unit of the coordinate",
    positive="the quantity grows as the coordinate grows",
    help="How much a quantity changes for each unit by which one coordinate of the drawing is "
    "moved, all others staying.",
    source="Exact derivative by dual numbers, which carry a slope through each step by the chain "
    "rule, and the theorem of implicit functions; the formula of the quantity.",
    example='=CORNER.SENSITIVITY(Example, "camber", "upper ball joint", "z", 25, 10)',
    check=-0.0201205473135,
    why=_why,
)  # fmt: skip
def sensitivity(corner, quantity, point, coordinate, travel, rack, wheelbase):
    (entry,) = chosen("quantity", (quantity,))
    corner.hold_linkage()
    asked = coordinate_of(point, coordinate)
    asked.of(corner.block)
    number_at(entry, corner, wheelbase, travel, rack)
    return slope_at(entry, sloped(corner, asked), wheelbase, travel, rack)


@formula(
    name="SENSITIVITIES",
    group=GROUP,
    arguments=(
        CORNER,
        Argument(
            "quantities", "names",
            "Which quantities, as a text with commas or as heading cells; the first one ranks.",
        ),
        TRAVEL,
        RACK,
        WHEELBASE_OPTIONAL,
    ),
    help="Table of what every coordinate of the drawing does to some quantities: its name in the "
    "first column, then for each quantity the change per unit of the coordinate, the largest of "
    "the first quantity on top and those that change nothing left out.",
    source="Exact derivatives, as SENSITIVITY.",
    example='=CORNER.SENSITIVITIES(Example, "trail, caster")',
    check=(
        ("lower ball joint x", 1.66647480617, 0.251292380079),
        ("wheel centre x", -0.999990480721, 0.0),
        ("upper ball joint x", -0.666484325448, -0.251292380079),
        ("static toe", 0.289216368032, 0.0),
        ("lower ball joint z", 0.191439313169, 0.0290382305869),
        ("wheel centre z", -0.11487571855, 0.0),
        ("tyre radius", 0.114858222422, 0.0),
        ("upper ball joint z", -0.0765635946184, -0.0290382305869),
        ("static camber", 0.00909775578946, 0.0),
        ("lower ball joint y", -0.00727141421317, 0.0),
        ("wheel centre y", 0.00436330928475, 0.0),
        ("upper ball joint y", 0.00290810492843, 0.0),
    ),
    shape="table",
)  # fmt: skip
def sensitivities(corner, quantities, travel, rack, wheelbase):
    wanted = chosen("quantities", quantities)
    corner.hold_linkage()
    for entry in wanted:
        number_at(entry, corner, wheelbase, travel, rack)
    rows = []
    for coordinate in numbers_of(corner.block):
        moved = sloped(corner, coordinate)
        slopes = [slope_at(entry, moved, wheelbase, travel, rack) for entry in wanted]
        rows.append((coordinate.name, *slopes))
    rows = _that_matter(rows)
    if not rows:
        raise Mend(NOTHING)
    return tuple(sorted(rows, key=_rank))


def _rank(row):
    """Largest first, alike to nine digits in the order of the block; no derivative last."""
    slope = row[1]
    return (True, 0.0) if slope != slope else (False, -float(f"{abs(slope):.{DIGITS}g}"))


def _that_matter(rows):
    """The rows of which some number is more than rounding beside its column's largest."""
    columns = range(1, len(rows[0]))
    least = [ROUNDING * max(abs(row[i]) for row in rows) for i in columns]
    # Asked this way round, what has no derivative is kept.
    return [row for row in rows if any(not abs(row[i]) <= least[i - 1] for i in columns)]


def numbers_of(block):
    """Coordinates whose rows can be read; rows of the spring may be unfinished."""
    for coordinate in coordinates_of(block):
        try:
            coordinate.of(block)
        except Mend:
            continue
        yield coordinate
