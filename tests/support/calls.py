"""Random calls of any formula: blocks with every row, and arguments near good ones."""

import numpy as np
from cornerbook.catalogue import FORMULAS
from cornerbook.catalogue.front_axle.roll import quantities as quantities_in_roll
from cornerbook.cells.adjusted import ADJUSTERS
from cornerbook.cells.block import POINTS
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.quantity import chosen, name_of, of_axle, quantities

from tests.support.actuations import random_actuation
from tests.support.corners import random_corners

COLUMN = EXAMPLE[-4:]

QUANTITIES = [name_of(entry) for entry in quantities().values()]
"""Every quantity by the name that AT takes."""

IN_ROLL = [name for name, _ in quantities_in_roll().values()]

PLACES = (*POINTS, "contact centre", "axis at ground", "instant centre", "side instant centre")

OVER = ("travel", "rack", "upper ball joint z", "upper ball joint y", "lower rear pickup y",
        "tie rod inner y", "tie rod inner z", "static camber", "tyre radius")  # fmt: skip
"""What TWO_WAY is asked over: a few of all that it takes."""

# Numbers that take either sign, and those whose good value is none to vary.
_BETWEEN = {
    "travel": (-30, 30), "rack": (-20, 20), "roll": (-4, 4), "heave": (-15, 15),
    "from_travel": (-30, -5), "to_travel": (5, 30), "steer": (-40, 40), "inner": (-70, 70),
    "caster": (-3, 12), "inclination": (-4, 18), "camber": (-5, 5), "trail": (-5, 40),
    "scrub": (-20, 60), "hub_ahead": (-20, 20), "hub_outboard": (-20, 90),
    "slip": (-14, 14), "force": (-900, 900), "lateral": (-900, 900), "longitudinal": (-900, 900),
    "lateral_acceleration": (-1.5, 1.5), "moment_left": (-2e4, 2e4), "moment_right": (-2e4, 2e4),
    "moment": (-3e5, 3e5), "rack_force": (-600, 600), "torque": (-4000, 4000),
    "angle": (-40, 40), "angle_in": (-400, 400), "phase_error": (-40, 40),
    "axle_end_lateral": (150, 450), "body_end_lateral": (-450, -100), "apex_ahead": (-80, 80),
    "link_slope": (-8, 8), "overhang": (-300, 800), "drive": (-800, 800), "rise": (-200, 200),
    "pneumatic_trail": (0, 30), "camber_gain": (-0.06, -0.01), "roll_centre": (0, 70),
    "ackermann": (-20, 100), "dx": (-2, 2), "dy": (-2, 2), "dz": (-2, 2), "turns": (-3, 3),
    "from": (-25, -5), "to": (5, 25), "held": (-15, 15), "efficiency": (0.5, 1.0),
    "brake_share": (0.0, 1.0), "front_share": (0.3, 0.7), "residual": (0.7, 0.95),
    "gone_at": (0.5, 1.0), "sensitivity": (0.0, 0.3), "height": (100, 420),
    "free_length": (240, 420), "tyre_width": (0, 200), "unsprung_height": (200, 300),
    "roll_centre_front": (-20, 80), "roll_centre_rear": (-20, 120),
    "camber_in": (-4, 0), "camber_straight": (-2, 0), "camber_out": (-1, 4),
    "perch_rise": (-5, 5), "cross_change": (-3, 3), "toe": (-3, 3), "string_angle": (-1, 1),
    "wheelbase": (1100, 2600), "cg_lateral": (-60, 60), "slope": (-10, 10),
    "rolling": (0.0, 0.05), "bar_share": (0.2, 1.0),
    "datum_x": (-300, 300), "datum_y": (-300, 300), "datum_z": (-100, 300),
    "turned": (-30, 30), "raised": (-15, 15), "load_inner": (0, 900), "load_outer": (300, 1500),
    "shoulder_y": (120, 220), "hand_y": (60, 180), "elbow_out": (-30, 60), "tilt": (-10, 60),
    "wheel_y": (-20, 20), "wheel_turned": (-150, 150), "knee_y": (-150, 150),
    "hold": (40, 110), "extra_force": (-100, 100), "bump_steer": (-0.02, 0.02),
    "forward": (-900, 900), "sideways": (-900, 900), "pull_lateral": (-400, 400),
    "pull_angle": (-90, 270), "axle_load": (-600, 600), "anti": (-40, 90),
    "sink_front": (-30, 30), "sink_rear": (-30, 30),
}  # fmt: skip


def random_blocks(seed, n):
    """n plausible corners as blocks with every row: spring, rocker and steering column too."""
    draw = np.random.default_rng(seed)
    corners = random_corners(seed + 1, n)
    blocks = []
    for i in range(n):
        mount, points = random_actuation(draw, corners.one(i), rocker=bool(draw.integers(4)))
        rows = [*corners.rows(i), ("Rod mount", mount, "", "")]
        rows += [(name.capitalize(), *map(float, at)) for name, at in points.items()]
        rows += [(row[0], *(cell + draw.uniform(-30, 30) for cell in row[1:])) for row in COLUMN]
        blocks.append(tuple(rows))
    return blocks


def near_call(draw, good, name, block):
    """Raw arguments of a formula near good ones, as a list in the formula's own order.

    draw: a NumPy generator. good: the formula's good arguments. block: a corner's rows.
    """
    found = []
    for argument, value in zip(FORMULAS[name].arguments, good, strict=True):
        if argument.kind == "block":
            found.append(block)
        elif argument.kind == "number":
            found.append(_number(draw, argument, value))
        elif argument.kind == "rows":
            found.append(_rows(draw, argument, value))
        elif argument.kind == "cells":
            table = tuple(tuple(float(draw.normal()) for _ in row) for row in value)
            found.append(table)
        elif argument.choices:
            found.append(str(draw.choice(argument.choices)))
        else:
            found.append(_other(draw, name, argument, value))
    return found


def _number(draw, argument, value):
    if argument.name in ("band_from", "band_to"):
        # Wide, so that some quantity is within it.
        return float(value * draw.uniform(5.0, 9.0))
    if argument.name in _BETWEEN:
        return float(draw.uniform(*_BETWEEN[argument.name]))
    if argument.name.startswith(("rows_", "columns_")):
        return value
    return float(value * draw.uniform(0.8, 1.25))


def _rows(draw, argument, rows):
    """Rows whose numbers are near good ones, which rise where they must."""
    found = []
    for row in rows:
        cells = list(row)
        for place, column in enumerate(argument.columns, argument.named):
            if place < len(cells) and isinstance(cells[place], float) and not column.rising:
                most = 1.0 if column.unit == "share" else 1.25
                cells[place] *= float(draw.uniform(0.8, most))
        found.append(tuple(cells))
    return tuple(found)


def _other(draw, formula, argument, value):
    if argument.name == "quantity":
        return str(draw.choice(IN_ROLL if formula == "IN_ROLL" else QUANTITIES))
    if argument.name == "quantities":
        return ", ".join(draw.choice(QUANTITIES, 2, replace=False))
    if argument.name == "point":
        return str(draw.choice(PLACES if formula != "SENSITIVITY" else POINTS))
    if argument.name == "adjuster":
        return str(draw.choice(ADJUSTERS))
    return value


def entry_of(quantity):
    """A quantity's `Formula` by the name that AT takes."""
    return chosen("quantity", (quantity,))[0]


def needs_both_wheels(quantity):
    """Whether a quantity is one of the steered axle."""
    return of_axle(entry_of(quantity))
