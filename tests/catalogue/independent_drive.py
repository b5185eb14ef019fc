"""Outside values of the formulas for the drive.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import numpy as np

from tests.authorities import drive_by_scipy as outside
from tests.catalogue.independent import authority


def pairs(rows):
    return [(row[0], row[1]) for row in rows if row[0] != ""]


def gear_that_pulls_most(torques, road_speed, gears, final, radius):
    """(torque at the wheel, motor speed)."""
    found = []
    for (gear,) in gears:
        if gear != "":
            speed = outside.turns(road_speed, gear * final, radius)
            found.append((outside.torque(pairs(torques), speed) * gear * final, speed))
    return max(found)


@authority
def drive_force(torques, road_speed, gears, final, radius, efficiency=1.0):
    return efficiency * gear_that_pulls_most(torques, road_speed, gears, final, radius)[0] / radius


@authority
def drive_motor_speed(torques, road_speed, gears, final, radius):
    return float(gear_that_pulls_most(torques, road_speed, gears, final, radius)[1])


@authority
def variable_drive_force(torques, road_speed, low, high, engages, shifts, final, radius, eff=1.0):
    gear = outside.variable_gear(road_speed, low, high, shifts, final, radius)
    speed = max(engages, outside.turns(road_speed, gear * final, radius))
    return outside.torque(pairs(torques), speed) * gear * final * eff / radius


@authority
def variable_motor_speed(road_speed, low, high, engages, shifts, final, radius):
    gear = outside.variable_gear(road_speed, low, high, shifts, final, radius)
    return float(max(engages, outside.turns(road_speed, gear * final, radius)))


@authority
def drive_grip(driven, friction, weight, cg_height, front_share, wheelbase, slope=0.0, rolling=0.0):
    return weight * outside.most_force(
        driven, friction, cg_height, front_share, wheelbase, slope, rolling
    )


@authority
def road_load(road_speed, weight, rolling, drag, slope=0.0):
    up, along = np.array([np.cos(np.radians(slope)), np.sin(np.radians(slope))]) * weight
    return float(np.dot([rolling, 1.0, drag], [up, along, road_speed**2]))


@authority
def steepest_start(pull, driven, friction, weight, cg_height, front_share, wheelbase, rolling=0.0):
    return outside.steepest(
        pull / weight, driven, friction, cg_height, front_share, wheelbase, rolling
    )


@authority
def top_speed(pulls):
    return outside.top_speed(pairs(pulls))


@authority
def time_to_speed(pulls, speed, weight, gravity, mass_factor=1.0):
    return outside.to_speed(pairs(pulls), speed, mass_factor * weight / gravity)[0]


@authority
def distance_to_speed(pulls, speed, weight, gravity, mass_factor=1.0):
    return outside.to_speed(pairs(pulls), speed, mass_factor * weight / gravity)[1]
