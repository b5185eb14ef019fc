"""What the front wheels' steer must do besides the turn's own geometry, part by part.

Lateral acceleration in g, positive to the left; slip angles with the signs of ISO 8855, below 0
in a left turn. Angles in degrees.
"""

from ..numbers import radians


def share_of_peak(lateral, weight, extra, friction, transfer, sensitivity):
    """Share of their peak force that both tyres of an axle give in a steady turn.

    weight: on both; extra: lateral force besides what carries it round; transfer, sensitivity: as
    for `tyre.lateral_acceleration`, of which this is the inverse. What the inner tyre loses to
    load transfer the outer one gains, but for the sensitivity.
    """
    moved = transfer * lateral
    return (lateral + extra / weight) / (friction * (1.0 - sensitivity * moved * moved))


def roll_steer(bump_steer, track):
    """Mean steer of both front wheels into the turn for each unit of roll against the axle.

    bump_steer: degrees of toe for each unit of travel, the toe-in of the outer wheel, which
    rises, and the toe-out of the inner one. The wheels travel half the track for each radian.
    """
    return bump_steer * radians(0.5 * track)


def lean(camber_gain, track):
    """How far both wheels lean out of the turn for each unit of roll against the axle.

    They lean with the body but for what the linkage gives: camber_gain in degrees for each unit
    of travel, of the outer wheel, which rises.
    """
    return 1.0 + camber_gain * radians(0.5 * track)
