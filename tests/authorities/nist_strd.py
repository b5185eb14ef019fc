"""Linear regression through the origin: data and certified values of NIST.

NIST/ITL Statistical Reference Datasets (StRD), linear least squares regression, data sets NoInt1
and NoInt2 (W. Eberhardt and L. Velleman): the model y = B x without an intercept.
"""

NO_INTERCEPT = {
    "NoInt1": (
        tuple(float(x) for x in range(60, 71)), tuple(float(y) for y in range(130, 141)),
        2.07438016528926, 0.165289256198347e-01,
    ),
    "NoInt2": ((4.0, 5.0, 6.0), (3.0, 4.0, 4.0), 0.727272727272727, 0.420827318078432e-01),
}  # fmt: skip
"""Name: (x, y, certified B, its certified standard deviation)."""
