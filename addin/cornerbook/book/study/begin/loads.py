"""Masses, and spring and damper for what the wheels carry, from what is placed already.

Lengths in mm, masses in kg, forces in N.
"""

WEIGHT = 9.80665
"""Newtons that a kilogram weighs, by definition of the standard acceleration (CGPM 1901)."""

OF_MASS = ("mass", "front_share", "unsprung_front")

LENGTHS = (
    "open_length", "shortest_length", "solid_length", "bump_stop_length", "droop_stop_length",
)  # fmt: skip


def front_load(car):
    """What one front spring holds, by the numbers of a car's table."""
    return 0.5 * WEIGHT * (car["mass"] * car["front_share"] - car["unsprung_front"])


def rear_load(car):
    """What one rear tyre holds up."""
    return 0.5 * WEIGHT * car["mass"] * (1.0 - car["front_share"])


def weigh(ratio, car, theirs):
    """Fill in the masses of a `Ratio`, from the numbers of both cars."""
    ratio.mass = car["mass"] / theirs["mass"]
    # A car whose unsprung mass is more than an axle bears has no spring to be in proportion to.
    loads = front_load(car) / front_load(theirs), rear_load(car) / rear_load(theirs)
    ratio.load, ratio.rear = (load if load > 0.0 else ratio.mass for load in loads)


def lengths(drawn, theirs, their_drawn, ratio):
    """The spring's lengths, as far from that drawn as in the demonstration, by the travel."""
    return {name: drawn + (theirs[name] - their_drawn) * ratio.travel for name in LENGTHS}


def preload(spring, load, drawn, motion_ratio):
    """The preload with which the car rests at the height as drawn, at least none.

    The spring is held at its longest by the preload, and holds the load over the motion ratio
    at the length as drawn; between both its force grows by its rate.
    """
    force = load / motion_ratio
    return max(0.0, force - spring["rate"] * (spring["open_length"] - drawn))
