"""A beam axle: both wheels on one rigid beam, which tilts when one of them rises alone.

The wheels point straight ahead, or nearly so: a toe of a few degrees changes what is here by
some thousandths. Angles in degrees, camber positive when the top leans away from the car.
"""

from ..numbers import atan2, degrees, sqrt


def camber_in_bump(track, rise):
    """Change of camber of a wheel that stands higher than the other one by `rise`.

    The wheel centres are `track` apart along the beam, so its tilt has the sine rise / track,
    and the raised wheel's top tilts toward the car with it; the other wheel's camber changes
    as much, the other way. Exact for wheel centres that differ by the rise. On a kerb of that
    height it is exact for wheels without static camber, which lean alike; with camber it is
    off by the part 2 x tyre radius x sin(camber) / track. NaN for a rise past the track.
    """
    return -degrees(atan2(rise, sqrt(track * track - rise * rise)))


def camber_gain(track):
    """Change of camber with one wheel's rise, the other held: the slope at no rise."""
    return -degrees(1.0 / track)
