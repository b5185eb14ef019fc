"""The driver's place in a car of few numbers: a person does not grow with it.

The hip joint stands in proportion to the wheelbase. Heel, pedals, hoops and steering wheel are as
far from it as in the demonstration, so that the same persons fit as well; heights and the back's
angle stay.
"""

HIP = "hip_x"
ALONG = ("heel_x", "pedal_x", "pressed_x", "cowl_x", "front_hoop_x", "main_hoop_x")
"""Keys of the table driver that go with the hip joint."""

WORDS = "as far from the hip joint as in the demonstration: a person does not grow with the car"


def dimensions(rows, ratio):
    """The body's rows of dimensions, the car's own length and width in proportion.

    rows: the demonstration's: name, the example body's, this car's, weight. ratio: a `Ratio`.
    """
    factors = {"Length": ratio.wheelbase, "Width": ratio.track}
    return [[*row[:2], _scaled(row[2], factors.get(row[0], 1.0)), *row[3:]] for row in rows]


def _scaled(value, factor):
    return value if isinstance(value, str) or factor == 1.0 else float(round(value * factor))
