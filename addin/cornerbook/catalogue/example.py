"""The corner on which every formula's example runs: round figures, made up, in mm."""

EXAMPLE = (
    ("Wheel centre", 0.0, 550.0, 260.0),
    ("Tyre radius", 260.0, "", ""),
    ("Static camber", -1.0, "", ""),
    ("Static toe", 0.25, "", ""),
    ("Lower ball joint", 6.0, 510.0, 150.0),
    ("Lower front pickup", 120.0, 210.0, 165.0),
    ("Lower rear pickup", -150.0, 215.0, 155.0),
    ("Upper ball joint", -20.0, 475.0, 375.0),
    ("Upper front pickup", 90.0, 260.0, 355.0),
    ("Upper rear pickup", -130.0, 255.0, 350.0),
    ("Tie rod outer", -95.0, 490.0, 180.0),
    ("Tie rod inner", -100.0, 215.0, 185.0),
)

NAME = "Example"
"""The name by which examples speak of this block."""
