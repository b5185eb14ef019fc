"""From the moments about the steering axes to the hands on the steering wheel.

Forces on the rack are positive to the left. Angles in degrees, lengths in any one unit.
"""

from ..numbers import NAN, PI, absolute, cos, degrees, radians, ratio, sin, sqrt, where
from .moments import rack_lever, toe_by_rack


def rack_force(left, right, moment_left, moment_right):
    """What both wheels push on the rack, to the left.

    left, right: `Pose`s of left-hand corners, the right-hand wheel mirrored. The moments are
    about each steering axis, toward toe-in. A moment about an axis and the force with which
    the rack holds it do no work together; the right-hand wheel sees the rack mirrored.
    """
    by_left = ratio(moment_left, rack_lever(left), NAN)
    by_right = ratio(moment_right, rack_lever(right), NAN)
    return by_left - by_right


def pinion_radius(rack_per_turn):
    """Pitch radius of a pinion that moves the rack so far in one turn."""
    return rack_per_turn / (2.0 * PI)


def steering_ratio(left, right, left_by_travel, right_by_travel, radius):
    """Degrees of steering wheel for each degree of mean steer; never negative.

    radius: rack moved for each radian of steering wheel. left, right: `Pose`s as for
    `rack_force`, and their `Motion`s per unit of travel.
    """
    both = toe_by_rack(left, left_by_travel) + toe_by_rack(right, right_by_travel)
    return absolute(ratio(degrees(2.0), both * radius, NAN))


def turns_lock_to_lock(rack_lock, radius):
    """Turns of the steering wheel for a rack that moves `rack_lock` to either side."""
    return 2.0 * rack_lock / (2.0 * PI * radius)


class DropLink:
    """A lever on the column that moves a cross slide through a link: a slider and crank.

    angle: turn of the column in degrees from where the link lies along the slide and square
    to the lever; positive as the lever's end pushes the link. `travel` is how far the slide
    has moved and `lever` its change for each radian; NaN where the link does not reach, and
    at or past the toggle, where lever and link lie in one line. `along` is NaN
    where the link does not reach.
    """

    def __init__(self, angle, lever_length, link_length):
        turn = radians(angle)
        # How far the lever's end has come off the line of the slide.
        off = lever_length * (1.0 - cos(turn))
        along = sqrt(link_length * link_length - off * off)
        rise = lever_length * sin(turn)
        lever = lever_length * cos(turn) - ratio(off * rise, along, NAN)
        travel = rise + along - link_length
        self.along = along
        self.lever = where(lever > 0.0, lever, NAN)
        self.travel = where(lever > 0.0, travel, NAN)
