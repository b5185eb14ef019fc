"""How the steering grows heavy, and light again, as the front tyres near their peak.

The moment about the steering axes of both front wheels, lumped into one, is lateral force
times mechanical plus pneumatic trail. The pneumatic part dies before the force does, so the
moment has its highest value first: that is what hands can feel of grip running out. Loads are
held still, and so is the mechanical trail.

Relative slip x as in `tyre.py`. Moments are in shares of peak force x trail at no slip.
"""

from ..numbers import PI, atan2, cos, larger, sin, tan, where
from .tyre import trail_left

STEPS = 6


def pneumatic_share(mechanical, pneumatic):
    """Share of the trail at no slip that is pneumatic; above 1 with negative mechanical trail."""
    return pneumatic / (mechanical + pneumatic)


def moment(slip, shape, lost, gone_at):
    """Moment at a relative slip. lost: the pneumatic share, which is gone from gone_at on."""
    return shape.force(slip) * (1.0 - lost + lost * trail_left(slip, gone_at))


def heaviest(shape, lost, gone_at):
    """Relative slip at which the moment first stops growing; 1 if it grows up to the peak.

    Up to gone_at the moment is f(x) t(x), with f concave and growing up to the peak, and t a
    falling line: (f t)'' = f'' t + 2 f' t' is below 0 while t is above it, so there is one
    highest place at most, where f' t + f t' = 0. With u = atan(B x) and t = 1 - lost x/gone_at
    that reads

        tan(C u) = C (B gone_at (1 + cos 2u) - lost sin 2u) / (2 lost),

    and both sides' arctangents are smooth and bounded in u, which runs from 0 to pi/2/C.
    Newton's steps on their difference need no bracket: from the guess below, `STEPS` reach
    rounding for every tyre with a residual up to `MOST_RESIDUAL`, as a test tries. A tyre whose
    trail does not lessen (lost 0) gives u = pi/2/C, the peak, without an exception made for it.
    Past gone_at the moment goes as the force does.
    """
    bend, steepness = shape.shape_factor, shape.stiffness_factor
    at_peak = 0.5 * PI / bend
    reach = steepness * gone_at
    # Right both for a trail that dies at once (u is half of reach / lost) and for one that stays.
    angle = at_peak / (1.0 + 2.0 * at_peak * lost / reach)
    for _ in range(STEPS):
        doubled = 2.0 * angle
        side = 0.5 * bend * (reach * (1.0 + cos(doubled)) - lost * sin(doubled))
        side_slope = -bend * (reach * sin(doubled) + lost * cos(doubled))
        over = bend * angle - atan2(side, lost)
        slope = bend - side_slope * lost / (side * side + lost * lost)
        angle = angle - over / slope
    place = tan(angle) / steepness
    return where(place < gone_at, place, 1.0)


def warning(shape, lost, gone_at):
    """Percent of the peak force still to come where the steering stops growing heavier."""
    place = heaviest(shape, lost, gone_at)
    return 100.0 * where(place < 1.0, 1.0 - shape.force(place), 0.0)


def lightening(shape, lost, gone_at):
    """Percent of its highest value that the moment has lost at the peak of the force; 0 if none.

    At the peak only the mechanical share 1 - lost is left, whatever gone_at is.
    """
    most = moment(heaviest(shape, lost, gone_at), shape, lost, gone_at)
    return 100.0 * larger(1.0 - (1.0 - lost) / most, 0.0)
