"""What twists: the tube of an anti-roll bar, and a frame between the axles.

Any one unit of force and of length, the same throughout. Each function takes floats or arrays.
"""

from ..numbers import PI, ratio


def polar_moment(outer, wall):
    """Polar second moment of area of a round tube; a wall of half the outer is a solid bar."""
    inner = outer - 2.0 * wall
    across, hollow = outer * outer, inner * inner
    return PI * (across * across - hollow * hollow) / 32.0


def bar_end_rate(modulus, outer, wall, arm, length):
    """Force per length at one end of a bar, the other end held: G J / (L a^2).

    A force F at the end of an arm a twists the tube by F a L / (G J), and the end moves by that
    times a. The arms and their links count as rigid.
    """
    return modulus * polar_moment(outer, wall) / (length * arm * arm)


class TwistedFrame:
    """A frame that twists between two ends, each of which stands on its axle's roll stiffness.

    levers: (front, rear) weight that rolls times its height over the end's roll centre.
    stiffnesses: of both axles; frame: between the ends; all moment per radian.

    At a lateral acceleration a the rolls f and r balance, for small angles and with the lean kept,

        (kf + k) f - k r = lf (a + f)        (kr + k) r - k f = lr (a + r)

    so that f is to r as lf (kr - lr) + k (lf + lr) to lr (kf - lf) + k (lf + lr), whatever a is.
    Their mean by the levers is the roll of a rigid frame that has the same lean moment; on it the
    axles act with their stiffness times their own roll over the mean.

    front, rear: an end's roll over the mean, 0 where there is none. stands: above 0 where springs
    and frame hold the weight up.
    """

    __slots__ = ("front", "rear", "stands")

    def __init__(self, levers, stiffnesses, frame):
        lever_front, lever_rear = levers
        front, rear = stiffnesses
        both = lever_front + lever_rear
        roll_front = lever_front * (rear - lever_rear) + frame * both
        roll_rear = lever_rear * (front - lever_front) + frame * both
        mean = ratio(lever_front * roll_front + lever_rear * roll_rear, both, 0.0)
        self.front = ratio(roll_front, mean, 0.0)
        self.rear = ratio(roll_rear, mean, 0.0)
        # Both springs and frame together hold the lean: the determinant of the balance.
        over_front, over_rear = front + frame - lever_front, rear + frame - lever_rear
        self.stands = over_front * over_rear - frame * frame
