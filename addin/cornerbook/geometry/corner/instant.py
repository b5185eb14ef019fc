"""Instant centres of a corner, and what front and side view read off them.

The upright moves against the body as a rigid body; `motion.by_travel` gives its velocity for
each unit of travel, the rack held. In front view its instant centre is the point of the
plane across the car, through the contact centre, that has no velocity in that plane; in side
view likewise with the plane along the car. Angles come from the velocity of the contact
point itself, so they stay finite where the arms are parallel and no centre exists.
"""

from ..numbers import atan2, degrees, sqrt
from ..vec import Vec
from .wheel import outboard_of


def front_centre(motion, pose):
    """The front-view instant centre, in the plane across the car through the contact."""
    contact = pose.contact_centre()
    v = motion.velocity_of(contact)
    return Vec(contact.x, contact.y - v.z / motion.spin.x, contact.z + v.y / motion.spin.x)


def side_centre(motion, pose):
    """The side-view instant centre, in the plane along the car through the contact."""
    contact = pose.contact_centre()
    v = motion.velocity_of(contact)
    return Vec(contact.x + v.z / motion.spin.y, contact.y, contact.z - v.x / motion.spin.y)


def front_arm_length(motion, pose):
    """Virtual swing arm in front view: level distance from contact to centre, inboard."""
    return motion.velocity_of(pose.contact_centre()).z / motion.spin.x


def front_arm_angle(motion, pose):
    """Its angle to the ground in degrees; positive: it rises inboard from the contact."""
    v = motion.velocity_of(pose.contact_centre())
    return degrees(atan2(v.y, v.z))


def side_arm_length(motion, pose):
    """Virtual swing arm in side view: level distance from contact to centre, rearward."""
    return -motion.velocity_of(pose.contact_centre()).z / motion.spin.y


def side_arm_angle(motion, pose):
    """Its angle to the ground in degrees; positive: it rises rearward from the contact."""
    v = motion.velocity_of(pose.contact_centre())
    return degrees(atan2(v.x, v.z))


def roll_centre(motion, pose):
    """Height above ground where the swing arms of both wheels, alike, cross mid-car."""
    contact = pose.contact_centre()
    v = motion.velocity_of(contact)
    return contact.y * v.y / v.z


def contact_velocity(motion, pose):
    """Velocity of the contact centre, the lowest point of the tyre, per unit of travel.

    It is no fixed point of the upright: as the wheel leans or turns, another point of the
    rim becomes the lowest.
    """
    n = pose.spindle
    turned = motion.spin.cross(n)
    level = sqrt(n.x * n.x + n.y * n.y)
    level_rate = (n.x * turned.x + n.y * turned.y) / level
    disc = pose.radius - pose.crown
    along = disc / level
    lean = turned.z - n.z * level_rate / level
    centre = motion.velocity_of(pose.wheel_centre)
    return Vec(
        centre.x + along * (turned.x * n.z + n.x * lean),
        centre.y + along * (turned.y * n.z + n.y * lean),
        centre.z - disc * level_rate,
    )


def slope_by_force(motion, pose):
    """Rise inboard of the line along which lateral force passes by the springs.

    The force of the road on a wheel free to roll has no part along its heading, so that with o
    the level direction across the heading a force F o and a load N do the work
    F (o . v) + N v_z as the wheel rises; v is the velocity of the contact as a point of the
    upright. The wheel's own spin adds to it along the heading only, and so does the contact's
    wandering round the disc: neither is in o . v. Where the springs feel nothing of the two,
    N = -F (o . v) / v_z; the force's part across the car is F o_y.
    """
    v = motion.velocity_of(pose.contact_centre())
    o = outboard_of(pose.spindle)
    return (o.x * v.x + o.y * v.y) / (o.y * v.z)


def jacking(motion, pose, lateral):
    """Upward force of the links on the body as a lateral force acts at the contact centre.

    lateral: outboard, across the heading. With o and v as above a force F o and a load N work
    the spring by F (o . v) + N v_z as the wheel rises by one, so that the spring carries
    N + F (o . v) / v_z and the links what is left of N. It is the force times the slope of the
    way that the contact takes: inboard and up for a wheel whose contact moves outboard in bump.
    """
    v = motion.velocity_of(pose.contact_centre())
    o = outboard_of(pose.spindle)
    return -(lateral * (o.x * v.x + o.y * v.y)) / v.z


def roll_centre_by_force(motion, pose):
    """Height above ground of the roll centre by force, both wheels alike and free to roll."""
    return pose.contact_centre().y * slope_by_force(motion, pose)


def anti_dive(motion, pose, wheelbase, cg_height, brake_share):
    """Anti-dive percentage of a braked front wheel whose brake is on the upright.

    Load transfer in braking is force * cg_height / wheelbase; the linkage carries the front
    brake force times the side-view slope of the contact point's path.
    """
    v = motion.velocity_of(pose.contact_centre())
    return 100.0 * brake_share * (v.x / v.z) * wheelbase / cg_height


def anti_lift(brake_share, centre_ahead, centre_height, wheelbase, cg_height):
    """Anti-lift percentage of a braked rear axle from its side-view instant centre.

    The centre lies ahead of the rear contact and above the ground. A rearward force at the
    contact, led through the links along the line to that centre, pulls the body down by its
    slope; the load transfer that lifts the tail is force * cg_height / wheelbase.
    """
    return 100.0 * brake_share * (centre_height / centre_ahead) * wheelbase / cg_height
