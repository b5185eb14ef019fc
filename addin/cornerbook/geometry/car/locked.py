"""A locked rear axle in a turn: two driven wheels on one shaft, without a differential.

In a turn of radius R the ground under the inner wheel goes by more slowly than under the
middle of the axle, by track / (2 R) of its speed, and under the outer one faster by as much.
Both wheels turn at the shaft's one speed, so the inner one slips forward (drives) and the
outer one slips back (brakes). Slip is taken against the ground speed at the axle's middle.

Each tyre's force along the car is slip stiffness x load x slip, up to what its grip has left for
it, and no more: straight up to sliding, without a fall after it. The side force that the turn
asks of the tyre is taken from its grip first, by the friction ellipse, here a circle (Milliken &
Milliken 1995; from memory): both forces together are at most friction x load. Both rear tyres run
at about one slip angle and share the side force as their loads; that the front tyres take some of
it over as they balance the yaw moment is left out, for which more would be left along the car.
The shaft settles at the speed at which both forces add up to the drive. A load below 0, of a
wheel in the air, counts as 0. Forces forward positive.
"""

from ..numbers import NAN, absolute, larger, ratio, sqrt, where


def friction_along(friction, lateral):
    """Friction left along the car for each load; lateral: side force for each load. NaN: none."""
    return sqrt((friction - lateral) * (friction + lateral))


class LockedAxle:
    """Both wheels' forces along the car.

    load_inner, load_outer: loads of the wheels. radius: of the turn, of the axle's middle.
    friction: most force along the car for each load; `friction_along` where the tyres give a
    side force. slip_stiffness: force for each load and unit of slip.
    drive: what both forces add up to; NaN forces where the tyres cannot give it.
    """

    __slots__ = ("inner", "outer", "track")

    def __init__(self, load_inner, load_outer, radius, track, friction, slip_stiffness, drive):
        inner = larger(load_inner, 0.0)
        outer = larger(load_outer, 0.0)
        both = inner + outer
        half_slip = 0.5 * track / radius
        share = ratio(inner, both, 0.5)
        # Were no tyre to slide, the shaft would settle where the inner force is this.
        held = share * drive + 2.0 * slip_stiffness * half_slip * share * outer
        # Neither tyre gives more than its grip. A force rises with the shaft's speed and stays
        # at the grip from there on, so of the forces that both can give, adding up to the
        # drive, the shaft settles at the one nearest to that of tyres that do not slide.
        grip_inner = friction * inner
        grip_outer = friction * outer
        most = where(drive + grip_outer < grip_inner, drive + grip_outer, grip_inner)
        least = where(drive - grip_outer > -grip_inner, drive - grip_outer, -grip_inner)
        settled = where(held > most, most, where(held < least, least, held))
        self.inner = where(absolute(drive) <= friction * both, settled, NAN)
        self.outer = drive - self.inner
        self.track = track

    def moment(self):
        """Yaw moment about the axle's middle, positive against the turn."""
        return 0.5 * self.track * (self.inner - self.outer)


def most_drive(load_inner, load_outer, friction):
    """The most that both tyres give along the car together."""
    return friction * (larger(load_inner, 0.0) + larger(load_outer, 0.0))


def radius_to_slide(load_inner, load_outer, track, friction, slip_stiffness):
    """Radius of the turn below which a coasting axle's lighter wheel slides; NaN without load.

    Both forces are alike, 2 slip_stiffness x (track / 2 R) x inner x outer / (inner + outer),
    and that of the lighter wheel's grip is reached first.
    """
    inner = larger(load_inner, 0.0)
    outer = larger(load_outer, 0.0)
    heavier = where(inner > outer, inner, outer)
    return track * slip_stiffness * ratio(heavier, inner + outer, NAN) / friction


def front_force(moment, wheelbase):
    """Lateral force that the front tyres give besides, toward the inside of the turn.

    It balances a yaw moment against the turn, by moments about the rear axle.
    """
    return moment / wheelbase


def extra_steer(moment, wheelbase, stiffness_front, stiffness_rear):
    """Steer in degrees, into the turn, that keeps the car on its circle under such a moment.

    The force on the front tyres grows by `front_force` and that on the rear ones falls by as
    much, for the two must still add up to what the turn asks. So the front slip angle grows,
    the rear one shrinks, and steer follows the difference. stiffness: cornering stiffness of
    both tyres of an axle, force per degree; a rear one of 0 leaves the rear slip out.
    """
    force = front_force(moment, wheelbase)
    return force / stiffness_front + ratio(force, stiffness_rear, 0.0)
