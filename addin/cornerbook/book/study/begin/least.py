"""Variables moved as little as will do so that wishes are met: bounded by nothing but wishes.

`scipy.optimize.least_squares` on misses of bands, of aims, and of the start; the derivative is
taken for all variables at once, for the functions work on many cars side by side.
"""

import numpy as np

STEP = 1e-6
"""For the derivative, in scales of a variable: it is one-sided, of smooth numbers of 1e-14."""

BAND = 100.0
URGENT = 500.0
AIM = 10.0
AIM_GIVEN = 40.0
PULL = 2.0
START = 0.4
"""What a miss counts of a band's whole width, of one that comes before others, of an aim by
that width, of one that was given, of the middle of a band by it, and of a movement by a scale."""

_FAR = 0.25
FARTHEST = 0.4
_LEFT = 0.03
"""Movements in tyre radii: what counts as one, and beyond which a car would be another one than the
demonstration in proportion."""

NOT_A_NUMBER = 1000.0
"""What counts in place of a miss where a linkage does not reach."""


def moved(function, start, scale, evaluations):
    """The variables where the sum of squares of a function is least, from a start.

    function: from an array (cars, variables) to one of (cars, misses).
    """
    from scipy.optimize import least_squares

    start = np.asarray(start, float)
    if not start.size:
        return start

    # Many cars side by side take hardly longer than one, so that the slopes of a trial are taken
    # with it: nearly every trial is a step, whose slopes are asked for next.
    steps = STEP * np.broadcast_to(scale, start.shape)
    last = {}

    def at(x):
        found = _finite(function(np.vstack([x, x + np.diag(steps)])))
        last["x"], last["slopes"] = x.copy(), (found[1:] - found[0]).T / steps
        return found[0]

    def slopes(x):
        if not np.array_equal(x, last["x"]):
            at(x)
        return last["slopes"]

    done = least_squares(at, start, slopes, x_scale=scale, max_nfev=evaluations, xtol=1e-6,
                         ftol=1e-5)  # fmt: skip
    return done.x


def kept_near(variables, start, radius):
    """Misses for a movement from the start, little ones for any and large ones for a large one."""
    moved = (variables - start) / radius
    beyond = np.maximum(np.abs(moved) - FARTHEST, 0.0)
    return [START * moved / _FAR, URGENT * beyond]


def side_by_side(misses, cars):
    """An array (cars, misses) of several, of which some may be the same for all cars."""
    whole = [m if len(m) == cars else np.broadcast_to(m, (cars, m.shape[1])) for m in misses]
    return np.concatenate(whole, axis=1)


def is_near(variables, start, radius):
    """Whether none has moved farther than it may, but for what is left of a miss."""
    return bool(np.all(np.abs(variables - start) <= (FARTHEST + _LEFT) * radius))


def _finite(values):
    return np.nan_to_num(values, nan=NOT_A_NUMBER, posinf=NOT_A_NUMBER, neginf=-NOT_A_NUMBER)
