"""Two wheels on one shaft in a turn: the shaft's speed by scipy.optimize.brentq.

Each wheel has its own ground speed, from the yaw rate, and the shaft turns both at one. The
speed is looked for at which the tyres' forces, each of its own slip, add up to the drive.
Nothing is solved in closed form.
"""

import math

from scipy.optimize import brentq

SPEED = 1000.0


def tyre(load, slip, friction, stiffness, lateral=0.0):
    """Force along the car: in proportion to slip and load; with the side force on the road at
    most friction x load, whichever way both together point."""
    load = max(load, 0.0)
    grip, side = friction * load, lateral * load
    along = stiffness * load * slip
    if math.hypot(along, side) > grip:
        most = brentq(lambda f: math.hypot(f, side) - grip, 0.0, grip + 1.0, xtol=1e-12)
        along = math.copysign(most, along)
    return along


def forces(inner, outer, radius, track, friction, stiffness, drive=0.0, lateral=0.0):
    """(inner, outer) forces, forward positive; the middle of the axle goes at `SPEED`."""
    yaw_rate = SPEED / radius
    ground = (SPEED - yaw_rate * track / 2.0, SPEED + yaw_rate * track / 2.0)

    def at(rim_speed):
        slips = [(rim_speed - speed) / SPEED for speed in ground]
        return [
            tyre(load, slip, friction, stiffness, lateral)
            for load, slip in zip((inner, outer), slips, strict=True)
        ]

    # By then both tyres slide one way.
    far = SPEED * (track / radius + 2.0 * friction / stiffness)
    settled = brentq(
        lambda rim_speed: sum(at(rim_speed)) - drive, SPEED - far, SPEED + far,
        xtol=1e-13, rtol=1e-15, maxiter=500,
    )  # fmt: skip
    return at(settled)


def moment(inner, outer, radius, track, friction, stiffness, drive=0.0, lateral=0.0):
    """Yaw moment against a left turn: of forces at y = +-track / 2, by the cross product."""
    axle = (inner, outer, radius, track, friction, stiffness, drive, lateral)
    forward_inner, forward_outer = forces(*axle)
    # z of (0, y) x (force, 0) is -y force, anticlockwise; against a left turn is clockwise.
    anticlockwise = -(track / 2.0) * forward_inner + (track / 2.0) * forward_outer
    return -anticlockwise


def radius_to_slide(inner, outer, track, friction, stiffness, lateral=0.0):
    """The turn in which the first tyre of a coasting axle comes to its grip, by bisection."""

    def spare(radius):
        # Grip enough for any slip, to see which force the slip alone would give.
        found = forces(inner, outer, radius, track, 1e6, stiffness)
        return min(
            friction * load - math.hypot(force, lateral * load)
            for load, force in zip((inner, outer), found, strict=True)
            if load > 0.0
        )

    return brentq(spare, 1e-2 * track, 1e4 * track, xtol=1e-11, rtol=1e-15, maxiter=500)
