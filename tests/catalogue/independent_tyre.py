"""Outside values of the formulas for a guessed tyre and for feel.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import numpy as np

from tests.authorities.tyre_by_mpmath import Tyre, front_acceleration, peak
from tests.catalogue.independent import authority


@authority
def tyre_force(slip, load, friction, peak_slip, residual, *more):
    # To the left of its heading it is pushed to the right.
    return float(-peak(load, friction, *more) * Tyre(residual).share(slip / peak_slip))


@authority
def tyre_cornering_stiffness(load, friction, peak_slip, residual, *more):
    return float(peak(load, friction, *more) * Tyre(residual).slope() / peak_slip)


@authority
def tyre_slip(force, load, friction, peak_slip, residual, *more):
    return float(-peak_slip * Tyre(residual).slip(force / peak(load, friction, *more)))


@authority
def pneumatic_trail(slip, trail_at_zero, peak_slip, gone_at):
    return float(np.interp(abs(slip), [0.0, gone_at * peak_slip], [trail_at_zero, 0.0]))


@authority
def front_lateral_acceleration(slip, weight, transfer, friction, peak_slip, residual, lost=0.0):
    share = -Tyre(residual).share(slip / peak_slip)
    return float(front_acceleration(share, weight, transfer, friction, lost))


@authority
def camber_thrust(camber, load, camber_coefficient):
    return float(np.polyval([load * camber_coefficient, 0.0], camber))


@authority
def feel_warning(mechanical, pneumatic, residual, gone_at):
    tyre = Tyre(residual)
    return float(100 * (1 - tyre.share(tyre.heaviest(mechanical, pneumatic, gone_at))))


@authority
def feel_lightening(mechanical, pneumatic, residual, gone_at):
    tyre, trails = Tyre(residual), (mechanical, pneumatic, gone_at)
    most = max(tyre.moment(x, *trails) for x in (tyre.heaviest(*trails), 1))
    return float(100 * (1 - tyre.moment(1, *trails) / most))


@authority
def mechanical_share(mechanical, pneumatic):
    return float(100.0 - 100.0 * np.divide(pneumatic, np.sum([mechanical, pneumatic])))
