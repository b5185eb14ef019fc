"""Slip of an axle in a steady turn: the balance of two tyres' forces, solved by mpmath.

Each tyre has the shape of `tyre_by_mpmath` and the friction of its own load; nothing is solved in
closed form.
"""

import mpmath

from tests.authorities.tyre_by_mpmath import Tyre, peak


def axle_slip(lateral, weight, transfer, friction, peak_slip, residual, lost, extra):
    """Slip in degrees, against the sign of the force."""
    tyre, half = Tyre(residual), weight / 2.0
    loads = (half - transfer * lateral, half + transfer * lateral)
    most = sum(peak(load, friction, half, lost) for load in loads)

    def missing(slip):
        return most * tyre.share(slip / peak_slip) - (weight * lateral + extra)

    return -float(mpmath.findroot(missing, (0, peak_slip), solver="anderson"))
