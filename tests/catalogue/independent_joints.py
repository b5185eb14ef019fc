"""The independent values of the formulas for joints and shafts; `independent.py` says how."""

import numpy as np

from tests.authorities import crosses_in_space, joints_by_rotation, rim_by_distance
from tests.catalogue.independent import authority, measured
from tests.support.corners import Corners


def _at(block, travel, rack):
    return Corners.of_rows(block).one(0), measured(block, travel, rack)


@authority
def lower_ball_joint_angle(corner, travel=0.0, rack=0.0):
    return joints_by_rotation.ball_joint(*_at(corner, travel, rack), "lower")


@authority
def upper_ball_joint_angle(corner, travel=0.0, rack=0.0):
    return joints_by_rotation.ball_joint(*_at(corner, travel, rack), "upper")


@authority
def tie_rod_outer_angle(corner, travel=0.0, rack=0.0):
    return joints_by_rotation.rod_end(*_at(corner, travel, rack), rack)


def _rod(corner, travel, rack):
    return joints_by_rotation.rod(*_at(corner, travel, rack), rack)


@authority
def tie_rod_inner_angle(corner, travel=0.0, rack=0.0):
    return joints_by_rotation.between(_rod(corner, travel, rack), np.array([0.0, 1.0, 0.0]))


@authority
def tie_rod_plan_angle(corner, travel=0.0, rack=0.0):
    x, y, _ = _rod(corner, travel, rack)
    return np.degrees(np.arcsin(x / np.hypot(x, y)))


@authority
def tie_rod_front_angle(corner, travel=0.0, rack=0.0):
    _, y, z = _rod(corner, travel, rack)
    return np.degrees(np.arcsin(z / np.hypot(y, z)))


@authority
def toggle_margin(corner, travel=0.0, rack=0.0):
    return joints_by_rotation.toggle(*_at(corner, travel, rack), rack)


@authority
def rim_clearance(corner, member, radius, width, travel=0.0, rack=0.0, member_radius=0.0,
                  flange_radius=0.0, flange_inboard=0.0):  # fmt: skip
    one, at = _at(corner, travel, rack)
    ends = joints_by_rotation.ends(one, at, member, rack)
    wheel = (radius, width, flange_radius, flange_inboard)
    return rim_by_distance.clearance(at.centre, at.spindle, *ends, wheel, member_radius)


@authority
def ujoint_angle_out(angle_in, joint_angle):
    return crosses_in_space.angle_out(angle_in, joint_angle)


@authority
def ujoint_speed_ratio(angle_in, joint_angle):
    return crosses_in_space.speed_ratio(angle_in, joint_angle)


@authority
def ujoint_ripple(joint_angle):
    ratio = crosses_in_space.speed_ratio
    return 100.0 * crosses_in_space.ripple(lambda angle: ratio(angle, joint_angle))


@authority
def column_speed_ratio(angle_in, upper, lower, error=0.0):
    return crosses_in_space.column_speed_ratio(angle_in, upper, lower, error)


@authority
def column_ripple(upper, lower, error=0.0):
    return 100.0 * crosses_in_space.column_ripple(upper, lower, error)


def _shafts(block):
    cells = {row[0].lower(): np.array(row[1:]) for row in block}
    names = ("steering wheel", "upper joint", "lower joint", "pinion")
    return np.diff(np.array([cells[name] for name in names], dtype=float), axis=0)


@authority
def column_joint_angle(column, joint):
    place = ("upper", "lower").index(joint)
    return joints_by_rotation.between(*_shafts(column)[place : place + 2])


@authority
def column_phase(column):
    return crosses_in_space.phase(*_shafts(column))


@authority
def column_length(column, part):
    return np.linalg.norm(_shafts(column)[("upper", "middle", "lower").index(part)])
