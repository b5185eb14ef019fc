"""What the proportions of a block are judged by: what no car has, and what is worth a look.

Each finding is as `judge.py` says. The corner's points may be any kind of number.
"""

from ..geometry.corner import instant, joints
from ..geometry.numbers import absolute, sqrt, where
from . import spring_findings, usual
from .block import POINTS
from .judge import (
    LOOK,
    WRONG,
    Length,
    heights,
    level_angle,
    not_far,
    not_past_middle,
    usual_length,
    within,
)
from .mend import Words, rounded, shown

UNITS = usual.UNITS

_FULL = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches"}


def findings(corner, unit):
    """Every finding of a corner whose block makes a linkage; unit: of its lengths, or "any".

    A block with rows of the spring must make an actuation too. The values are numbers, rounded
    for the sentence, and words.
    """
    for kind, fine, sentence, values in _all(corner, unit):
        said = tuple(v.rounded(unit) if isinstance(v, Length) else v for v in values)
        yield kind, fine, sentence, said


def _all(corner, unit):
    # Everything is measured by the wheel: with a wheel that is none, only that is said.
    sound = True
    for finding in _wheel(corner, unit):
        kind, fine, *_ = finding
        sound = where(fine, sound, False) if kind == WRONG else sound
        yield finding
    for kind, fine, sentence, values in _others(corner):
        yield kind, where(sound, fine, True), sentence, values


def _others(corner):
    drawn = corner.drawn
    yield from _attitude(corner)
    for label, most in usual.FARTHEST.items():
        yield not_far(corner, label, most)
    yield from _axis(drawn)
    for label in POINTS[1:]:
        yield from heights(corner, label, usual.HIGHEST[label])
    for arm in ("lower", "upper"):
        yield from _arm(corner, arm)
    for end in ("front", "rear"):
        yield _one_above_the_other(corner.block, end)
    yield from _tie_rod(corner)
    yield from _movement(corner)
    if corner.block.spring_points():
        yield from spring_findings.findings(corner)


# The wheel


def _wheel(corner, unit):
    """Whether there is a wheel at all: on the left, and of a size that goes with its place."""
    drawn = corner.drawn
    radius, centre = drawn.radius, drawn.wheel_centre
    yield (
        WRONG,
        centre.y > 0.0,
        "wheel centre: y is %s; give the left-hand corner, "
        "with y from the car's middle line, above 0",
        (Length(centre.y),),
    )
    if unit != "any":
        low, high = (limit * UNITS[unit] for limit in usual.RADII)
        sentence = f"tyre radius: %s {unit}, from {shown(low)} to {shown(high)} was expected%s"
        asked = _other_unit(radius, unit, _is_diameter(drawn))
        yield WRONG, within(radius, low, high), sentence, (rounded(radius, 3), asked)
    yield (
        WRONG,
        where(centre.y <= 0.0, True, within(centre.y / radius, *usual.HALF_TRACK_EVER)),
        "wheel centre: y is %s, which does not go with a tyre radius of %s: is one of the two in "
        "another unit, or a digit or the decimal point wrong?",
        (Length(centre.y), Length(radius)),
    )


def _attitude(corner):
    """The wheel itself, once there is one."""
    drawn = corner.drawn
    radius, centre = drawn.radius, drawn.wheel_centre
    yield (
        LOOK,
        within(centre.y / radius, *usual.HALF_TRACK),
        "wheel centre: y is %s, with a tyre radius of %s unusually %s: is a digit wrong?",
        (
            Length(centre.y),
            Length(radius),
            where(centre.y < usual.HALF_TRACK[0] * radius, Words("little"), Words("much")),
        ),
    )
    yield from _ground(drawn)
    for label, (usually, most), asked in (
        ("static camber", usual.CAMBER, "is the decimal point missing?"),
        ("static toe", usual.TOE, "is the decimal point missing, or is it a length?"),
    ):
        angle = corner.block.value(label)
        yield (
            WRONG,
            absolute(angle) <= most,
            label + ": %s degrees is more than any car's: " + asked,
            (angle,),
        )
        yield (
            LOOK,
            where(absolute(angle) > most, True, absolute(angle) <= usually),
            label + ": %s degrees is unusually much: " + asked,
            (angle,),
        )


def _other_unit(radius, unit, diameter):
    """What to ask of a radius that is out of its range."""
    asked = where(diameter, Words(": is it the diameter?"), Words(""))
    for other in reversed(list(UNITS)):
        words = Words(f": were {_FULL[other]} typed into a sheet in {_FULL[unit]}?")
        low, high = (limit * UNITS[other] for limit in usual.RADII)
        asked = where(within(radius, low, high), words, asked)
    return asked


def _is_diameter(drawn):
    radius = drawn.radius
    return absolute(radius - 2.0 * drawn.wheel_centre.z) <= usual.DIAMETER * radius


def _ground(drawn):
    lowest = drawn.contact_centre().z
    asked = where(
        _is_diameter(drawn),
        Words("is the tyre radius a diameter?"),
        Words("is the wheel centre's z or the tyre radius wrong, or is z from elsewhere?"),
    )
    yield (
        LOOK,
        absolute(lowest) <= usual.OFF_GROUND * drawn.radius,
        "the tyre's lowest point is at z %s, where the ground at 0 was expected: %s",
        (Length(lowest), asked),
    )


# The steering axis


def _axis(drawn):
    radius = drawn.radius
    span = (drawn.upper - drawn.lower).length() / radius
    yield (
        WRONG,
        span >= usual.CLOSEST,
        "the two ball joints are only %s tyre radii apart",
        (rounded(span, 2),),
    )
    yield (
        LOOK,
        where(span < usual.CLOSEST, True, within(span, *usual.SPAN)),
        "the two ball joints are %s tyre radii apart, unusually %s: is a z of theirs wrong?",
        (rounded(span, 2), where(span < usual.SPAN[0], Words("little"), Words("much"))),
    )
    caster, inclination = drawn.caster(), drawn.inclination()
    yield (
        LOOK,
        within(caster, *usual.CASTER),
        "caster is %s degrees: %s",
        (
            rounded(caster, 1),
            where(
                caster < 0.0,
                Words(
                    "the axis leans forward; do x count backward, or is the minus of one missing?"
                ),
                Words("is an x of a ball joint wrong?"),
            ),
        ),
    )
    yield (
        LOOK,
        within(inclination, *usual.INCLINATION),
        "kingpin inclination is %s degrees: is a ball joint's y wrong, or are its y and z swapped?",
        (rounded(inclination, 1),),
    )
    for name, length, limits, asked in (
        ("mechanical trail", drawn.trail(), usual.TRAIL, "is an x of a ball joint or wheel centre"),
        ("scrub radius", drawn.scrub(), usual.SCRUB, "is a y of a ball joint or wheel centre"),
    ):
        yield usual_length(name + " is %s", length, radius, limits, asked + " wrong?")


# The arms


def _arm(corner, arm):
    block, radius = corner.block, corner.drawn.radius
    ball, front, rear = (
        block.point(arm + end) for end in (" ball joint", " front pickup", " rear pickup")
    )
    line = front - rear
    base = line.x / radius
    yield (
        WRONG,
        base >= 0.0,
        arm + " front pickup: x is %s, behind the rear one's %s: are the two rows swapped, is a "
        "minus missing or does x count backward?",
        (Length(front.x), Length(rear.x)),
    )
    yield (
        LOOK,
        where(base < 0.0, True, within(base, *usual.BASE)),
        arm + " pickups: front and rear are %s apart along the car, unusually %s: is an x wrong, "
        "or a minus?",
        (Length(line.x), where(base < usual.BASE[0], Words("little"), Words("much"))),
    )
    half_track = corner.drawn.wheel_centre.y
    for end, point in (("front", front), ("rear", rear)):
        yield (
            WRONG,
            point.y < ball.y,
            f"{arm} {end} pickup: y is %s, outboard of the {arm} ball joint at %s: are two rows "
            "swapped, or is a digit wrong?",
            (Length(point.y), Length(ball.y)),
        )
        yield not_past_middle(f"{arm} {end} pickup", point, half_track, usual.PAST_MIDDLE)
    for seen, angle, most, axis in (
        ("from above", level_angle(line.y, line.x), usual.IN_PLAN, "a y"),
        ("from the side", level_angle(line.z, line.x), usual.FROM_SIDE, "a z"),
    ):
        yield (
            LOOK,
            absolute(angle) <= most,
            f"{arm} pickups: seen {seen} their line runs %s degrees askew: is {axis} of theirs "
            "wrong, or a unit?",
            (rounded(absolute(angle), 0),),
        )
    yield from _arm_itself(corner, arm, ball, front, rear)


def _arm_itself(corner, arm, ball, front, rear):
    radius = corner.drawn.radius
    reach = getattr(corner.linkage, arm).arm
    asked = "is a y of its points wrong?"
    yield usual_length(arm + " arm is %s long", reach.length(), radius, usual.ARM, asked)
    slope = level_angle(reach.z, sqrt(reach.x * reach.x + reach.y * reach.y))
    yield (
        LOOK,
        absolute(slope) <= usual.FROM_FRONT,
        arm + " arm slopes by %s degrees: is a z of its points wrong?",
        (rounded(slope, 0),),
    )
    most = usual.BESIDE * radius
    yield (
        LOOK,
        where(ball.x <= front.x + most, ball.x >= rear.x - most, False),
        arm + " ball joint: x is %s, far from both pickups' %s and %s: is one of them wrong, or "
        "a minus?",
        (Length(ball.x), Length(front.x), Length(rear.x)),
    )


def _one_above_the_other(block, end):
    lower, upper = (block.point(f"{arm} {end} pickup") for arm in ("lower", "upper"))
    return (
        WRONG,
        upper.z > lower.z,
        f"upper {end} pickup: z is %s, not above the lower one's %s: are two rows swapped, or is "
        "a digit or unit wrong?",
        (Length(upper.z), Length(lower.z)),
    )


# The tie rod


def _tie_rod(corner):
    drawn = corner.drawn
    radius, outer, inner = drawn.radius, drawn.tie_outer, drawn.tie_inner
    yield (
        WRONG,
        outer.y > inner.y,
        "tie rod outer: y is %s, not outboard of tie rod inner's %s: are the two rows swapped?",
        (Length(outer.y), Length(inner.y)),
    )
    yield not_past_middle("tie rod inner", inner, drawn.wheel_centre.y, usual.PAST_MIDDLE)
    rod = outer - inner
    lever = corner.linkage.tie_radius2
    for what, length, limits in (
        ("tie rod is %s long", rod.length(), usual.ROD),
        ("tie rod outer is %s from the steering axis", sqrt(lever), usual.LEVER),
    ):
        yield usual_length(what, length, radius, limits, "is a number of its rows wrong?")
    for seen, angle, most, axis in (
        ("from above", joints.plan_angle(drawn), usual.ROD_IN_PLAN, "an x"),
        ("from the front", joints.front_angle(drawn), usual.ROD_FROM_FRONT, "a z"),
    ):
        yield (
            LOOK,
            absolute(angle) <= most,
            f"tie rod: seen {seen} it runs %s degrees askew: is {axis} of its ends wrong, or a "
            "minus?",
            (rounded(absolute(angle), 0),),
        )
    margin = joints.toggle_margin(drawn)
    yield (
        LOOK,
        margin >= usual.TOGGLE,
        "tie rod and steering arm are %s degrees off one line, where they are at toggle: is an "
        "end of the tie rod wrong?",
        (rounded(margin, 0),),
    )


# What they do together


def _movement(corner):
    drawn, moved = corner.drawn, corner.motion(0.0, 0.0)
    radius = drawn.radius
    camber, toe = moved.camber_rate(drawn.spindle), moved.toe_rate(drawn.spindle)
    for name, rate, limits, asked in (
        ("camber gain", camber, usual.CAMBER_GAIN, "is a z of an arm's points"),
        ("bump steer", toe, (-usual.BUMP_STEER, usual.BUMP_STEER), "is a z of the tie rod's ends"),
    ):
        yield (
            LOOK,
            within(rate * radius, *limits),
            name
            + " is %s degrees for a travel of one tyre radius, very much: "
            + asked
            + " wrong?",
            (rounded(rate * radius, 0),),
        )
    height = instant.roll_centre(moved, drawn)
    asked = "is a z of an arm's points wrong?"
    sentence = "roll centre is %s above the ground"
    yield usual_length(sentence, height, radius, usual.ROLL_CENTRE, asked)
