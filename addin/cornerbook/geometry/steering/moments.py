"""What forces at a tyre do about the steering axis, and what the rack does against them.

A moment about the steering axis is positive when it turns the wheel toward toe-in. The axis
points up, from the lower to the upper ball joint; seen along it a left-hand wheel turns toward
toe-in clockwise, so with `axis` and a force at a place r from any point of the axis

    moment = -axis . (r x force)

An arm is the moment for each unit of force, a length. Forces lie along the wheel's heading,
across it (outboard) and upward, on level ground. With the axis's parts in those directions,
a_along, a_across and a_up, and the contact centre `trail` behind and `scrub` outboard of the
axis on the ground, the vector product gives

    lateral force, outboard     trail x a_up
    longitudinal force, forward scrub x a_up
    vertical load, upward       -(scrub x a_along) - (trail x a_across)
"""

from ..corner.axis import axis_at_height, axis_of
from ..corner.motion import Motion, turning
from ..corner.wheel import heading_of, outboard_of
from ..numbers import NAN, ratio
from ..vec import Vec


def moment(pose, place, force):
    """Moment about the steering axis of a force at a place; positive: toward toe-in."""
    return -axis_of(pose).dot((place - pose.lower).cross(force))


def lateral_force_arm(pose):
    """Of a force at the contact centre, across the heading, outboard."""
    return pose.trail() * axis_of(pose).z


def longitudinal_force_arm(pose):
    """Of a force at the contact centre, along the heading, forward; upright takes its torque."""
    return pose.scrub() * axis_of(pose).z


def wheel_centre_force_arm(pose):
    """Of a forward force whose torque about the spindle leaves through a shaft.

    Seen from the wheel centre, the moment of a force along the heading at the contact centre
    lies along the spindle alone: the way down the disc, the heading and the spindle are square
    to each other. The shaft takes just that, and the force is left, at the wheel centre; of a
    crowned tread beside it on the spindle's line.
    """
    place = pose.rolling_point()
    away = place - axis_at_height(pose.lower, pose.upper, place.z)
    return away.dot(outboard_of(pose.spindle)) * axis_of(pose).z


def caster_load_arm(pose):
    """Of an upward load at the contact centre, the part of the lean along the heading."""
    return -(pose.scrub() * axis_of(pose).dot(heading_of(pose.spindle)))


def inclination_load_arm(pose):
    """Of an upward load at the contact centre, the part of the lean across the heading."""
    return -(pose.trail() * axis_of(pose).dot(outboard_of(pose.spindle)))


def vertical_load_arm(pose):
    """Of an upward load at the contact centre."""
    return caster_load_arm(pose) + inclination_load_arm(pose)


def hub_outboard(pose):
    """How far the wheel centre is outboard of the axis, level, across the heading."""
    return _hub(pose).dot(outboard_of(pose.spindle))


def hub_ahead(pose):
    """How far the wheel centre is ahead of the axis, level, along the heading."""
    return _hub(pose).dot(heading_of(pose.spindle))


def _hub(pose):
    centre = pose.wheel_centre
    return centre - axis_at_height(pose.lower, pose.upper, centre.z)


class Wrench:
    """What pushes on a wheel and its upright from outside: the road, and their own weight.

    longitudinal, lateral, vertical: forces of the road, along the heading, outboard, upward.
    inboard: whether the longitudinal force's torque about the spindle leaves through a shaft.
    pneumatic_trail: how far behind the contact centre, along the heading, the lateral force acts.
    unsprung: weight of wheel and upright, taken at the wheel centre.
    """

    __slots__ = (
        "inboard", "lateral", "longitudinal", "pneumatic_trail", "unsprung", "vertical",
    )  # fmt: skip

    def __init__(
        self, longitudinal, lateral, vertical, inboard=False, pneumatic_trail=0.0, unsprung=0.0
    ):
        self.longitudinal = longitudinal
        self.lateral = lateral
        self.vertical = vertical
        self.inboard = inboard
        self.pneumatic_trail = pneumatic_trail
        self.unsprung = unsprung

    def work(self, pose, motion):
        """Work of all of it for each unit of a `Motion` of the upright."""
        contact = motion.velocity_of(pose.contact_centre())
        centre = motion.velocity_of(pose.wheel_centre)
        heading, outboard = heading_of(pose.spindle), outboard_of(pose.spindle)
        point = motion.velocity_of(pose.rolling_point()) if self.inboard else contact
        ahead = point.dot(heading)
        # The couple of a lateral force behind the contact centre turns to the right from above.
        aside = contact.dot(outboard) - self.pneumatic_trail * motion.spin.z
        return (
            self.longitudinal * ahead
            + self.lateral * aside
            + self.vertical * contact.z
            - self.unsprung * centre.z
        )  # fmt: skip


def steering_moment(pose, wrench):
    """Moment about the steering axis of a `Wrench`: its work for each radian of a turn."""
    return wrench.work(pose, turning(pose))


def spring_moment(pose, by_travel, actuated, wrench):
    """Moment about the steering axis of the spring's force that holds the wrench at the pose.

    by_travel: the upright's `Motion` by travel; actuated: the corner's `Actuated` there. As the
    wheel travels with the rack held, neither arms nor tie rod do work, so the spring's force
    times its shortening is the work of the wrench. As the upright turns with the arms held,
    a rod that stands on the upright shortens the spring too; one on an arm does not.
    """
    force = ratio(wrench.work(pose, by_travel), actuated.motion_ratio, NAN)
    return -(force * actuated.turn_ratio)


def rack_lever(pose):
    """Rack moved to the left for each radian of turn toward toe-in, the arms held.

    By virtual work it is also the moment toward toe-in for each unit of force with which the
    rack pushes to the left. The rod keeps its length: its inner end's movement and its outer
    end's have the same part along it. Zero where the rod points at the steering axis.
    """
    rod = pose.tie_outer - pose.tie_inner
    swing = axis_of(pose).cross(pose.tie_outer - pose.lower)
    return -(rod.dot(swing) / rod.y)


def toe_by_rack(pose, by_travel):
    """Degrees of toe per unit of rack, the wheel centre kept at its height.

    by_travel: the upright's `Motion` per unit of travel there. With the arms held the rack
    turns the upright about its axis, which lifts the wheel centre; the arms undo the lift.
    """
    # The axis points up and the lever counts clockwise.
    spin = axis_of(pose) * ratio(-1.0, rack_lever(pose), NAN)
    rise = spin.cross(pose.wheel_centre - pose.lower).z
    turning = Motion(spin, Vec(0.0, 0.0, 0.0), pose.lower)
    return turning.toe_rate(pose.spindle) - by_travel.toe_rate(pose.spindle) * rise
