"""A body on two axles' springs: its two free motions along the road, undamped.

z up at the centre of gravity, pitch positive nose down (ISO 8855); a and b from it to the front and
rear axle, k its radius of gyration in pitch. With the body's mass taken out,

    z'' = -alpha z - beta p        p'' = -(beta / k^2) z - gamma p

    alpha = (kf + kr) / m    beta = (kr b - kf a) / m    gamma = (kf a^2 + kr b^2) / (m k^2)

so that the squares of both angular frequencies are (alpha + gamma) / 2 and a root more or less.
Each motion turns about a point that stays where it is; the distances of both from the centre of
gravity have the product -k^2. Pitch is the one whose point is nearer, bounce the other.
"""

from ..numbers import NAN, PI, absolute, ratio, sqrt, where


class Ride:
    """The two motions. rates: of both (front, rear) axles, both wheels together; weight: of the
    body; share: of it on the front axle; pitch_radius: its radius of gyration in pitch.

    alpha, beta and gamma are per weight: gravity comes in with the frequencies.
    """

    __slots__ = ("middle", "radius2", "root", "sign", "slow", "turning")

    def __init__(self, rates, weight, share, wheelbase, pitch_radius):
        front, rear = rates
        ahead, behind = wheelbase * (1.0 - share), wheelbase * share
        self.radius2 = pitch_radius * pitch_radius
        alpha = (front + rear) / weight
        self.turning = (rear * behind - front * ahead) / weight
        gamma = (front * ahead * ahead + rear * behind * behind) / (weight * self.radius2)
        self.middle = 0.5 * (alpha + gamma)
        half = 0.5 * (alpha - gamma)
        self.root = sqrt(half * half + self.turning * self.turning / self.radius2)
        # Pitch is the quicker motion where it alone would be.
        self.sign = where(half > 0.0, -1.0, 1.0)
        self.slow = self.root + absolute(half)

    def frequency(self, pitch, gravity):
        """Natural frequency in Hz of pitch, or else of bounce."""
        way = self.sign * self.root
        square = self.middle + way if pitch else self.middle - way
        return sqrt(square * gravity) / (2.0 * PI)

    def centre(self, pitch):
        """Of pitch, or else of bounce, how far ahead of the centre of gravity its point is.

        NaN for a bounce that is level.
        """
        if pitch:
            return ratio(self.sign * self.turning, self.slow, 0.0)
        return -ratio(self.sign * self.slow * self.radius2, self.turning, NAN)
