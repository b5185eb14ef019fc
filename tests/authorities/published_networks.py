"""Networks of measurements as others have published and adjusted them.

LEVELS: sample of a vertical network, levelled there and back along each leg of a loop of four
points, with the listing that GNU Gama 1.5.09 (a general library for geodetic networks) gives of it
(www.vrmapper.com/gama/1doutput.html): adjusted heights and their standard deviations, residuals'
sum of squares, and the largest normalised residual. The readings' own deviation, 5 mm, is that of
the listing before the adjustment; it follows from the deviations after it too.

TRILATERATION: a point from three known ones by distance, the first example of trilateration in
C. D. Ghilani, Adjustment Computations (Wiley); data and first approximation from memory. That the
approximation is where the first two distances cross holds them together; the answer is not
remembered, and is worked out by SciPy where it is used.
"""

LEVELS_READ = (
    ("1a", "4", -1.225), ("4", "3", -0.848), ("3", "2", 1.342), ("2", "1a", 0.720),
    ("1a", "2", -0.724), ("2", "3", -1.335), ("3", "4", 0.842), ("4", "1a", 1.231),
)  # fmt: skip
"""From, to, height difference in m."""

LEVELS_KNOWN = {"1a": 1000.0}
LEVELS_SURE = 0.005
LEVELS_ADJUSTED = {"4": 998.77513, "3": 997.93325, "2": 999.27487}
LEVELS_DEVIATIONS = {"4": 0.0031, "3": 0.0035, "2": 0.0031}
LEVELS_SQUARES = 146.625e-6
"""Sum of the residuals squared, in m2."""
LEVELS_FREEDOM = 5
LEVELS_LARGEST = (5, 1.68)
"""The reading, counted from 0, whose normalised residual is the largest, and that residual."""

TRILATERATION_KNOWN = {
    "A": (865.40, 4527.15), "B": (2432.55, 2047.25), "C": (2865.22, 27.15),
}  # fmt: skip
TRILATERATION_READ = {"A": 6049.00, "B": 4736.83, "C": 5446.49}
TRILATERATION_START = (6861.325, 3727.596)
