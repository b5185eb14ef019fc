"""How far the body sinks over an axle, and pitches, as load moves along the car.

Forces in any one unit, lengths in any one; an axle's two wheels are alike. The load that comes
onto an axle goes through both tyres, whatever its linkage; through both springs goes what the
links do not carry straight to the body. Angles in degrees.
"""

from ..numbers import atan2, degrees, ratio


def sink(load, anti, wheel_rate, tyre_rate):
    """How far the body sinks over an axle of which each wheel has these rates.

    load: that comes onto both wheels. anti: percent of it that the links carry. wheel_rate: 0
    for an axle bolted to the frame, which has tyres alone.
    """
    through_springs = load * (1.0 - 0.01 * anti)
    return ratio(0.5 * through_springs, wheel_rate, 0.0) + 0.5 * load / tyre_rate


def angle(front, rear, wheelbase):
    """Pitch by what the body sinks at both axles; positive: nose down (ISO 8855)."""
    return degrees(atan2(front - rear, wheelbase))
