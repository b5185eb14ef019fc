"""Outside values of the formulas for a body: NumPy's least squares and interpolation.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import numpy as np

from tests.catalogue.independent import authority


@authority
def body_scale(dimensions):
    rows = [row[1:] for row in dimensions if row[1] != ""]
    root = np.sqrt([1.0 if weight == "" else weight for _, _, weight in rows])
    example, ours = (np.array([row[i] for row in rows], float) for i in (0, 1))
    (scale,), *_ = np.linalg.lstsq((root * example)[:, None], root * ours, rcond=None)
    return float(scale)


@authority
def body_at(measure, body_x, stations, scale):
    rows = np.array([row for row in stations if row[0] != ""], float) * scale
    values = rows[:, 1 + ("half width", "underside", "top").index(measure)]
    return float(np.interp(body_x, rows[:, 0], values, left=0.0, right=0.0))
