"""What every formula's example runs on: a corner and some tables, round figures, made up.

Lengths are in mm, masses in kg.
"""

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
    ("Rod mount", "lower arm", "", ""),
    ("Rod outer", 2.0, 470.0, 172.0),
    ("Rod inner", -12.0, 262.0, 452.0),
    ("Rocker pivot", -8.0, 205.0, 412.0),
    ("Rocker axis", 42.0, 211.0, 418.0),
    ("Spring rocker", -10.0, 232.0, 478.0),
    ("Spring frame", -20.0, 14.0, 470.0),
    ("Steering wheel", -700.0, 10.0, 560.0),
    ("Upper joint", -380.0, 5.0, 430.0),
    ("Lower joint", -210.0, 40.0, 270.0),
    ("Pinion", -105.0, 60.0, 200.0),
)

NAME = "Example"
"""The name by which examples speak of this block."""

PARTS = (
    ("Frame", 60.0, -850.0, 0.0, 300.0, 1700.0, 500.0, 400.0, ""),
    ("Driver", 75.0, -900.0, 0.0, 400.0, 900.0, 450.0, 600.0, ""),
    ("Motor and battery", 60.0, -1200.0, 30.0, 300.0, 400.0, 400.0, 300.0, ""),
    ("Front wheels", 24.0, 0.0, 0.0, 260.0, 520.0, 1200.0, 520.0, 1.0),
    ("Rear axle", 40.0, -1600.0, 0.0, 260.0, "", "", "", 1.0),
    ("Seat", "", "", "", "", "", "", "", ""),
    ("Pedals", 1.0, 100.0, 0.0, 300.0, "", "", "", ""),
)
"""Parts of a car: name, mass, place, size, unsprung share."""

TORQUES = (
    (500.0, 24000.0),
    (2000.0, 30000.0),
    (3500.0, 26000.0),
    ("", ""),
    (5000.0, 12000.0),
)
"""A motor: turns a minute, torque in N mm."""

GEARS = ((2.8,), (1.6,), ("",), (1.0,))
"""Ratios of gears."""

PULLS = (
    (0.0, 1400.0),
    (5000.0, 1300.0),
    (10000.0, 800.0),
    ("", ""),
    (15000.0, 350.0),
    (20000.0, 90.0),
    (25000.0, -160.0),
)
"""Road speed in mm a second, the force in N that is left to speed the car up."""

STIFFNESS = (
    ("Lower front pickup", 9000.0),
    ("Lower rear pickup", 7000.0),
    ("Upper front pickup", 6000.0),
    ("Upper rear pickup", 5000.0),
    ("Lower ball joint", 30000.0),
    ("Upper ball joint", 20000.0),
    ("Tie rod", 12000.0),
    ("Rack", 2000.0),
    ("Rod", 15000.0),
    ("Rocker pivot", 8000.0),
    ("Spring frame", 4000.0),
)
"""How stiff the parts of a corner are, in N per mm."""

STROKE = (
    (-40.0, 241.968, 0.53444),
    (-20.0, 230.734, 0.58935),
    (0.0, 218.376, 0.64702),
    (20.0, 204.827, 0.70852),
    (40.0, 190.013, 0.77326),
)
"""Travel, spring length and motion ratio of the corner above."""

FIGURE = (
    ("Top of head", -1150.0, 0.0, 920.0),
    ("Base of neck", -1190.0, 0.0, 680.0),
    ("Shoulder", -1155.0, 180.0, 610.0),
    ("Elbow", -960.0, 230.0, 350.0),
    ("Grip", -650.0, 130.0, 500.0),
    ("Hip", -900.0, 85.0, 170.0),
    ("Knee", -545.0, 110.0, 410.0),
    ("Ankle", -190.0, 100.0, 165.0),
    ("Heel", -150.0, 100.0, 90.0),
    ("Toe", -40.0, 105.0, 330.0),
)
"""A person at the wheel: the points of the left side."""

DIMENSIONS = (
    ("Wheelbase", 1800.0, 1600.0, 2.0),
    ("Track", 1240.0, 1110.0, ""),
    ("Tyre radius", 300.0, 262.0, 0.5),
    ("Height", "", "", ""),
    ("Length", 2900.0, 2700.0, 1.0),
)
"""An example body's dimensions and the car's, and their weights."""

STATIONS = (
    (-2200.0, 150.0, 180.0, 620.0),
    (-1300.0, 330.0, 80.0, 780.0),
    (-600.0, 340.0, 70.0, 680.0),
    ("", "", "", ""),
    (0.0, 240.0, 90.0, 560.0),
    (550.0, 60.0, 170.0, 320.0),
)
"""A body's stations: x, half width, underside, top."""

STEPS = ((4.0,), (-6.0,), ("",), (8.0,), (3.0,))
"""Steps by which an adjuster was turned."""

CHANGES = ((-0.4,), (0.65,), ("",), (-0.8,), ("",))
"""By how much a measure changed then, in degrees; the last is not measured yet."""

TABLES = {
    "SomeParts": PARTS,
    "SomeTorques": TORQUES,
    "SomeGears": GEARS,
    "SomePulls": PULLS,
    "SomeStiffness": STIFFNESS,
    "SomeStroke": STROKE,
    "SomeFigure": FIGURE,
    "SomeDimensions": DIMENSIONS,
    "SomeStations": STATIONS,
    "SomeSteps": STEPS,
    "SomeChanges": CHANGES,
}
"""The tables of examples by the names by which these speak of them."""
