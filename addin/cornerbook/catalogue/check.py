"""CHECK: what is wrong with a block, in words."""

from .arguments import CORNER
from .block import POINTS, VALUES
from .declare import Argument, formula
from .mend import Mend, shown

# Lengths of one millimetre in each unit that a sheet may use.
UNITS = {"mm": 1.0, "cm": 0.1, "m": 0.001, "in": 1.0 / 25.4}

# Loaded radii of wheels of small cars, in millimetres; wide on purpose.
# Common practice, no source.
RADII = (120.0, 450.0)

# How far a point may be from the wheel centre, in tyre radii. Wide on purpose: beyond
# it the proportions are those of no car. Common practice, no source.
FARTHEST = {
    "lower ball joint": 1.2,
    "upper ball joint": 1.5,
    "tie rod outer": 1.5,
    "lower front pickup": 5.0,
    "lower rear pickup": 5.0,
    "upper front pickup": 5.0,
    "upper rear pickup": 5.0,
    "tie rod inner": 5.0,
}


@formula(
    name="CHECK",
    group="Tables",
    arguments=(
        CORNER,
        Argument(
            "unit", "text",
            "Unit of the block's lengths: mm, cm, m or in; left out, only proportions "
            "are judged.",
            default="any", choices=(*UNITS, "any"),
        ),
    ),
    help='What is wrong with a corner\'s block, in words, or "ok".',
    source="The rows that the linkage needs; proportions of small cars are common "
    "practice, no source.",
    example="=CORNER.CHECK(Example, \"mm\")",
    check="ok",
    shape="text",
)  # fmt: skip
def check(corner, unit):
    found = _rows(corner.block)
    if not found:
        found = _linkage(corner)
    if not found:
        found = _proportions(corner, unit)
    return "# " + "; ".join(found) if found else "ok"


def _rows(block):
    """Every row that is missing, misspelt, double, or not made of numbers."""
    if block.width < 4:
        return [
            "the block is %d columns wide; a name, x, y and z were expected: "
            "make the range four columns wide" % block.width
        ]
    found = []
    for name, alike in block.misspelt():
        found.append("the row %s is not known; %s was expected" % (shown(name), shown(alike)))
    spoken = {alike for _, alike in block.misspelt()}
    for label, read in [(p, block.point) for p in POINTS] + [(v, block.value) for v in VALUES]:
        if label in spoken:
            continue
        try:
            read(label)
        except Mend as mend:
            found.append(str(mend))
    return found


def _linkage(corner):
    """What keeps the points from making a linkage."""
    try:
        corner.hold_linkage()
        return []
    except Mend as mend:
        return [str(mend)]


def _proportions(corner, unit):
    found = []
    drawn = corner.drawn
    radius = drawn.radius
    centre = drawn.wheel_centre
    if centre.y <= 0.0:
        found.append(
            "wheel centre: y is %s; give the left-hand corner, "
            "with y from the car's middle line, above 0" % shown(centre.y)
        )
    if unit != "any":
        low, high = (limit * UNITS[unit] for limit in RADII)
        if not low <= radius <= high:
            found.append(_unlikely_radius(radius, unit, low, high))
    for label, most in FARTHEST.items():
        away = (corner.block.point(label) - centre).length() / radius
        if away > most:
            found.append(
                "%s is %s tyre radii from the wheel centre, more than any car's: "
                "is a number in another unit?" % (label, shown(round(away, 1)))
            )
    span = (drawn.upper - drawn.lower).length() / radius
    if span < 0.15:
        found.append("the two ball joints are only %s tyre radii apart" % shown(round(span, 2)))
    for label, most in (("static camber", 15.0), ("static toe", 10.0)):
        angle = corner.block.value(label)
        if abs(angle) > most:
            found.append("%s: %s degrees is more than any car's" % (label, shown(angle)))
    return found


def _unlikely_radius(radius, unit, low, high):
    said = "tyre radius: %s %s, from %s to %s was expected" % (
        shown(radius), unit, shown(low), shown(high),
    )  # fmt: skip
    for other, per_mm in UNITS.items():
        if RADII[0] <= radius / per_mm <= RADII[1]:
            return "%s: were %s typed into a sheet in %s?" % (said, _FULL[other], _FULL[unit])
    return said


_FULL = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches"}
