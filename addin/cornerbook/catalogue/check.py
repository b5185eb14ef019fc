"""CHECK: what is wrong with a block, in words."""

from ..geometry.numbers import absolute, where
from .arguments import CORNER
from .block import POINTS, VALUES
from .declare import Argument, formula
from .mend import Mend, Words, rounded, shown

# Lengths of one millimetre in each unit that a sheet may use.
UNITS = {"mm": 1.0, "cm": 0.1, "m": 0.001, "in": 1.0 / 25.4}

# Loaded radii of wheels of small cars, in millimetres; wide on purpose.
# Common practice, no source.
RADII = (120.0, 450.0)

# Ball joints nearer than this part of the tyre's radius are no upright's. Common practice,
# no source.
CLOSEST = 0.15

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
    return [
        sentence % tuple(shown(value) for value in values)
        for fine, sentence, values in findings(corner, unit)
        if not fine
    ]


def findings(corner, unit):
    """What the proportions are judged by: pairs of a condition and what is wrong without it.

    Yields (condition, sentence with a %s for each value, values); the corner's points may
    be any kind of number.
    """
    drawn = corner.drawn
    radius = drawn.radius
    centre = drawn.wheel_centre
    yield (
        centre.y > 0.0,
        "wheel centre: y is %s; give the left-hand corner, "
        "with y from the car's middle line, above 0",
        (centre.y,),
    )
    if unit != "any":
        low, high = (limit * UNITS[unit] for limit in RADII)
        sentence = "tyre radius: %%s %s, from %s to %s was expected%%s" % (
            unit, shown(low), shown(high),
        )  # fmt: skip
        yield _between(radius, low, high), sentence, (radius, _other_unit(radius, unit))
    for label, most in FARTHEST.items():
        away = (corner.block.point(label) - centre).length() / radius
        yield (
            away <= most,
            label + " is %s tyre radii from the wheel centre, more than any car's: "
            "is a number in another unit?",
            (rounded(away, 1),),
        )
    span = (drawn.upper - drawn.lower).length() / radius
    yield (
        span >= CLOSEST,
        "the two ball joints are only %s tyre radii apart",
        (rounded(span, 2),),
    )
    for label, most in (("static camber", 15.0), ("static toe", 10.0)):
        angle = corner.block.value(label)
        yield absolute(angle) <= most, label + ": %s degrees is more than any car's", (angle,)


def _between(value, low, high):
    return where(value >= low, where(value <= high, True, False), False)


def _other_unit(radius, unit):
    """What to ask where the radius would be a car's in another unit."""
    asked = Words("")
    for other in reversed(list(UNITS)):
        words = Words(": were %s typed into a sheet in %s?" % (_FULL[other], _FULL[unit]))
        low, high = (limit * UNITS[other] for limit in RADII)
        asked = where(_between(radius, low, high), words, asked)
    return asked


_FULL = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches"}
