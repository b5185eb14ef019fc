"""How a finding is put: what it is, whether it holds, and what is said where it does not.

A finding is (kind, condition, sentence with a %s for each value, values). `WRONG` is what
cannot be or what no car has; `LOOK` is possible and unlikely. All numbers may be of any kind;
a value that is a length stands as `Length` until its unit is known.
"""

from ..geometry.numbers import absolute, atan2, degrees, where
from . import usual
from .mend import Words, rounded

WRONG = "wrong"
LOOK = "look"

BUT_LOOK = "ok, but look: "
"""How CHECK begins where nothing is wrong and something is unlikely."""


# Decimals of a length in a sentence, by its unit: about a tenth of a millimetre.
_DIGITS = {"mm": 1, "cm": 2, "in": 2, "m": 4, "any": 3}


class Length:
    """A length that a sentence shows."""

    __slots__ = ("value",)

    def __init__(self, value):
        self.value = value

    def rounded(self, unit):
        """The number as a sentence shows it."""
        return rounded(self.value, _DIGITS[unit])


def within(value, low, high):
    """Whether a number lies from one to another."""
    return where(value >= low, where(value <= high, True, False), False)


def level_angle(rise, run):
    """Degrees of a slope, whichever way it runs."""
    return degrees(atan2(rise, absolute(run)))


def not_far(corner, label, most):
    """No farther from the wheel centre than any car's."""
    centre, radius = corner.drawn.wheel_centre, corner.drawn.radius
    away = (corner.block.point(label) - centre).length() / radius
    sentence = " is %s tyre radii from the wheel centre, more than any car's: "
    return (
        WRONG,
        away <= most,
        label + sentence + "is a number in another unit?",
        (rounded(away, 1),),
    )


def heights(corner, label, most):
    """Above the ground on which the tyre stands, and no higher than is usual."""
    ground = corner.drawn.contact_centre().z
    height = (corner.block.point(label).z - ground) / corner.drawn.radius
    above = corner.block.point(label).z - ground
    yield (
        WRONG,
        height > 0.0,
        label + " lies %s below the tyre's lowest point: is a minus too many, or is its z or "
        "that of the wheel centre wrong?",
        (Length(-above),),
    )
    yield (
        LOOK,
        where(height <= 0.0, True, within(height, usual.LOWEST, most)),
        label + ": z is %s above the tyre's lowest point, unusually %s: is a digit, the decimal "
        "point or the unit wrong, or are y and z swapped?",
        (Length(above), where(height < usual.LOWEST, Words("low"), Words("high"))),
    )


def usual_length(sentence, length, radius, limits, asked):
    """A length that is within limits in parts of the tyre's radius."""
    return (
        LOOK,
        within(length / radius, *limits),
        sentence + ", unusual for this tyre radius: " + asked,
        (Length(length),),
    )


def not_past_middle(label, point, half_track, share):
    """On the left of the car's middle, or hardly past it."""
    return (
        LOOK,
        point.y >= -share * half_track,
        label + ": y is %s, right of the car's middle: is a minus too many?",
        (Length(point.y),),
    )
