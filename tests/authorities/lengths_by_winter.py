"""Drillis and Contini's lengths (1966) as Winter draws them, as public code states his figure.

D. A. Winter, *Biomechanics and Motor Control of Human Movement* (Wiley, 2009), figure 4.1, as
stated by public code of several hands: a module of formulas for body measures whose functions are
named height_from_height_eyes and so on, which cites that book; and a MATLAB function
bodySegLength, which cites Drillis and Contini. Where both state a number they state the same one.
Shares of the stature. The figure's lengths of the arm are not quite the differences of its heights.
"""

HEIGHTS = {
    "eye": 0.936, "chin": 0.870, "shoulder": 0.818, "elbow": 0.630, "hip": 0.530, "wrist": 0.485,
    "fingertip": 0.377, "knee": 0.285, "ankle": 0.039,
}  # fmt: skip
"""Above the floor, a person who stands."""

LENGTHS = {
    "upper arm": 0.186, "forearm": 0.146, "hand": 0.108, "foot": 0.152, "shoulder breadth": 0.259,
    "hip breadth": 0.191,
}  # fmt: skip
