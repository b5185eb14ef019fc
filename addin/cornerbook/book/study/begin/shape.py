"""That a corner looks like a car's: what CHECK would want a look at, as numbers with limits.

Lengths are in tyre radii. Arrays as in `measures.py`.
"""

import numpy as np

from ....cells import usual
from ....geometry.corner import joints
from ....geometry.numbers import atan2, degrees, sqrt

INSIDE = 0.02
INSIDE_ANGLE = 1.0
"""How far inside of what is usual a corner is to stay, in tyre radii and in degrees: rounding moves
points, and what is put right by misses is never quite put right."""

_OVER = 0.12
"""How much an arm's upper pickup should stand above the lower one. Common practice, no source."""

LARGEST = 10.0
"""A limit above this is one of degrees; those of lengths are less."""

_BELOW = (0.2, 0.88)
_ABOVE = (1.1, 1.95)
"""Heights of the lower and the upper ball joint in tyre radii: one below the wheel centre, the
other above it. Common practice, no source."""

_BASE = (0.4, 1.5)
_IN_PLAN = 12.0
_FROM_SIDE = 8.0
"""An arm's pickups: how far apart along the car in tyre radii, and degrees that their line may run
askew in plan and from the side. Narrower than what CHECK takes; common practice, no source."""

_STEEP = 25.0
"""Degrees that an arm or rod may slope in front view before it is moved for it."""


def shape(posed):
    """[(values, low, high, room)] of a `Posed`: arrays of one column, the limits to keep to, and by
    how much these are inside of what is usual.
    """
    points, radius = posed.points, posed.settings.radius
    found = []

    def add(values, limits):
        low, high = limits
        room = INSIDE_ANGLE if high > LARGEST else INSIDE
        found.append((values, low + room, high - room, room))

    for arm, circle in (("Lower", posed.linkage.lower), ("Upper", posed.linkage.upper)):
        ball = points[f"{arm} ball joint"]
        front, rear = points[f"{arm} front pickup"], points[f"{arm} rear pickup"]
        line, reach = front - rear, circle.arm
        add(sqrt(circle.radius2) / radius, usual.ARM)
        add(line.x / radius, _BASE)
        for rise, most in ((line.y, _IN_PLAN), (line.z, _FROM_SIDE)):
            add(degrees(atan2(rise, line.x)), (-most, most))
        slope = degrees(atan2(reach.z, sqrt(reach.x * reach.x + reach.y * reach.y)))
        add(slope, (-_STEEP, _STEEP))
        add((ball.x - front.x) / radius, (-9.0, usual.BESIDE))
        add((rear.x - ball.x) / radius, (-9.0, usual.BESIDE))
        for pickup in (front, rear):
            add(pickup.y / radius, (0.0, 9.0))
            add((ball.y - pickup.y) / radius, (0.1, 9.0))
    for end in ("front", "rear"):
        rise = points[f"Upper {end} pickup"].z - points[f"Lower {end} pickup"].z
        add(rise / radius, (_OVER, 3.0))
    for label, most in usual.HIGHEST.items():
        add(points[label.capitalize()].z / radius, (usual.LOWEST, most))
    centre = points["Wheel centre"]
    for label, most in usual.FARTHEST.items():
        add((points[label.capitalize()] - centre).length() / radius, (0.0, most))
    drawn = posed.drawn
    add(drawn.lower.z / radius, _BELOW)
    add(drawn.upper.z / radius, _ABOVE)
    add((drawn.upper - drawn.lower).length() / radius, usual.SPAN)
    rod = drawn.tie_outer - drawn.tie_inner
    add(rod.length() / radius, usual.ROD)
    add(sqrt(posed.linkage.tie_radius2) / radius, usual.LEVER)
    add(joints.plan_angle(drawn), (-usual.ROD_IN_PLAN, usual.ROD_IN_PLAN))
    add(joints.front_angle(drawn), (-usual.ROD_FROM_FRONT, usual.ROD_FROM_FRONT))
    add(joints.toggle_margin(drawn), (usual.TOGGLE, 180.0))
    add(drawn.tie_inner.y / radius, (0.0, 9.0))
    return [(values + 0.0 * posed.points["Wheel centre"].y, *limits) for values, *limits in found]


def is_usual(posed):
    """Whether every corner is within what is usual."""
    return all(
        np.all((low - room <= values) & (values <= high + room))
        for values, low, high, room in shape(posed)
    )


def misses(values, low, high, width):
    """By how much values lie outside of limits, in parts of a width; arrays."""
    over = np.maximum(values - high, 0.0) - np.maximum(low - values, 0.0)
    return over / width
