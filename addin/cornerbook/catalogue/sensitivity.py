"""How much each coordinate of the drawing matters to a quantity: exact derivatives.

A corner is made whose one coordinate is a dual number; every quantity then comes with its
derivative by that coordinate, through the same lines (`geometry/dual.py`).
"""

from functools import lru_cache

from ..geometry import dual
from ..geometry.dual import Dual
from ..geometry.numbers import NAN
from .arguments import CORNER, RACK, TRAVEL
from .corner import Corner
from .declare import Argument, formula
from .mend import Mend
from .moved import AXES, VALUE, MovedBlock, coordinate_of, coordinates_of
from .sweep import WHEELBASE_OPTIONAL, chosen, name_of, of_axle, value_at

GROUP = "Sensitivity"

# A derivative smaller than this part of the largest one is a zero that rounding has touched.
_ROUNDING = 1e-12

QUANTITY = Argument(
    "quantity", "text",
    "Which quantity: camber, toe, bump steer, roll centre, ackermann and so on.",
)  # fmt: skip


class SlopedCorner(Corner):
    """A corner of which one coordinate is a dual of slope 1.

    plain: the corner of the values alone; its poses are solved there, once for all.
    """

    def __init__(self, plain, coordinate):
        number = Dual(coordinate.of(plain.block), 1.0)
        super().__init__(MovedBlock(plain.block, {coordinate.key: number}))
        self.plain = plain

    def _solve(self, travel, rack):
        return dual.sloped_pose(self.linkage, self.plain.pose(travel, rack), travel, rack)


sloped = lru_cache(maxsize=256)(SlopedCorner)
"""The same corner and coordinate give the same `SlopedCorner`, solved once."""


def why_not_at(entry, corner, wheelbase, travel, rack):
    """Why a quantity has no value at a pose, in its own formula's words."""
    if entry.why is None:
        return entry.beyond
    if of_axle(entry):
        return entry.why(corner, wheelbase, rack, travel)
    return entry.why(corner, travel, rack)


def number_at(entry, corner, wheelbase, travel, rack):
    """A quantity at a pose; raises `Mend` where it has no value."""
    value = value_at(entry, corner, wheelbase, travel, rack)
    if value is None:
        raise Mend(why_not_at(entry, corner, wheelbase, travel, rack))
    return value


def slope_at(entry, corner, wheelbase, travel, rack):
    """A quantity's derivative by a `SlopedCorner`'s coordinate; NaN where it has none."""
    try:
        found = value_at(entry, corner, wheelbase, travel, rack)
    except (TypeError, AttributeError):
        # Its formula asks for something that only a plain number can do.
        raise Mend("%s has no derivative by a coordinate" % name_of(entry)) from None
    if found is None:
        return NAN
    return float(found.slope) if isinstance(found, Dual) else 0.0


def _why(corner, quantity, point, coordinate, travel, rack, wheelbase):
    return (
        "%s has no derivative by that coordinate here: it stands at a kink or at an end of "
        "its range" % quantity
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
    source="Exact derivative by dual numbers and the theorem of implicit functions (Griewank and "
    "Walther 2008, from memory); the formula of the quantity.",
    example='=CORNER.SENSITIVITY(Example, "camber", "upper ball joint", "z", 25, 10)',
    check=-0.0201205473135,
    why=_why,
    plain=False,
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
    plain=False,
)  # fmt: skip
def sensitivities(corner, quantities, travel, rack, wheelbase):
    wanted = chosen("quantities", quantities)
    corner.hold_linkage()
    for entry in wanted:
        number_at(entry, corner, wheelbase, travel, rack)
    rows = []
    for coordinate in _numbers_of(corner.block):
        moved = sloped(corner, coordinate)
        slopes = [slope_at(entry, moved, wheelbase, travel, rack) for entry in wanted]
        rows.append((coordinate.name, *slopes))
    rows = _that_matter(rows)
    if not rows:
        raise Mend("no coordinate changes any of these quantities")
    return tuple(sorted(rows, key=_rank))


def _rank(row):
    """Largest first, alike to nine digits in the order of the block; no derivative last."""
    slope = row[1]
    return (True, 0.0) if slope != slope else (False, -float("%.9g" % abs(slope)))


def _that_matter(rows):
    """The rows of which some number is more than rounding beside its column's largest."""
    columns = range(1, len(rows[0]))
    least = [_ROUNDING * max(abs(row[i]) for row in rows) for i in columns]
    # Asked this way round, what has no derivative is kept.
    return [row for row in rows if any(not abs(row[i]) <= least[i - 1] for i in columns)]


def _numbers_of(block):
    """Coordinates whose rows can be read; rows of the spring may be unfinished."""
    for coordinate in coordinates_of(block):
        try:
            coordinate.of(block)
        except Mend:
            continue
        yield coordinate
