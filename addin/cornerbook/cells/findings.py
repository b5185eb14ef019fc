"""What the proportions of a corner are judged by: no car has such a wheel or such an arm."""

from ..geometry.numbers import absolute, where
from .mend import Words, rounded, shown

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
        sentence = f"tyre radius: %s {unit}, from {shown(low)} to {shown(high)} was expected%s"
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
        words = Words(f": were {_FULL[other]} typed into a sheet in {_FULL[unit]}?")
        low, high = (limit * UNITS[other] for limit in RADII)
        asked = where(_between(radius, low, high), words, asked)
    return asked


_FULL = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches"}
