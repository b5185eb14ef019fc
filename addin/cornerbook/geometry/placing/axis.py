"""A steering axis that has the caster, inclination, trail and scrub that are wanted."""

from ..corner.wheel import heading_of, outboard_of
from ..numbers import atan2, degrees, radians, tan
from ..vec import Vec


def on_axis(pose, caster, inclination, trail, scrub, height):
    """The point at a height of the steering axis with this caster, inclination, trail, scrub.

    pose: of which the wheel alone is read. Angles in degrees, with the signs of ISO 8855.
    Trail and scrub lie along and across the wheel's own heading at the contact's height.
    """
    contact = pose.contact_centre()
    ground = contact + heading_of(pose.spindle) * trail - outboard_of(pose.spindle) * scrub
    rise = height - contact.z
    return Vec(
        ground.x - rise * tan(radians(caster)),
        ground.y - rise * tan(radians(inclination)),
        contact.z + rise,
    )


def inclination_for_scrub(scrub, radius, hub_offset):
    """Kingpin inclination in degrees that gives an upright wheel this scrub radius."""
    return degrees(atan2(hub_offset - scrub, radius))


def caster_for_trail(trail, radius, hub_offset):
    """Caster in degrees that gives an upright wheel this mechanical trail."""
    return degrees(atan2(trail + hub_offset, radius))


def hub_outboard_for_scrub(scrub, inclination, radius):
    """How far outboard of the steering axis the wheel centre must lie, level, for a scrub."""
    return scrub + radius * tan(radians(inclination))


def hub_ahead_for_trail(trail, caster, radius):
    """How far ahead of the steering axis the wheel centre must lie, level, for a trail."""
    return radius * tan(radians(caster)) - trail
