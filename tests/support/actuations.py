"""Random actuations for random corners: push rods and pull rods, rockers, springs. In mm."""

import numpy as np
from cornerbook.geometry.corner.pose import Pose
from cornerbook.geometry.corner.wheel import spindle_of
from cornerbook.geometry.forces import loads
from cornerbook.geometry.springing.actuation import MOUNTS, Actuation, Rocker
from cornerbook.geometry.vec import Vec

NAMES = ("rod inner", "rocker pivot", "rocker axis", "spring rocker")


def random_actuation(draw, corner, rocker=True):
    """(mount, points by name) for a corner: name to (3,) array.

    draw: a NumPy generator. The rod goes up (push rod) or down (pull rod) and inboard; the
    rocker's axis lies any way within 60 degrees of square to the rod and its arm.
    """
    mount = MOUNTS[draw.integers(3)]
    low, high = corner["lower ball joint"], corner["upper ball joint"]
    ball = {"lower arm": low, "upper arm": high, "upright": low + draw.uniform(0.1, 0.9) * (
        high - low)}[mount]  # fmt: skip
    outer = ball + draw.uniform([-20, -60, 0], [20, -10, 30])
    up = 1.0 if mount == "lower arm" else -1.0 if mount == "upper arm" else draw.choice([-1.0, 1.0])
    way = np.array([draw.uniform(-0.2, 0.2), draw.uniform(-1.2, -0.5), up])
    inner = outer + draw.uniform(230, 380) * way / np.linalg.norm(way)
    points = {"rod outer": outer}
    if rocker:
        arm = _square_to(draw, way) * draw.uniform(40, 90)
        axis = np.cross(way, arm)
        axis = axis / np.linalg.norm(axis) + draw.uniform(-0.8, 0.8, 3)
        pivot = inner - arm
        end = pivot + draw.uniform(-90, 90, 3)
        points["rod inner"] = inner
        points["rocker pivot"] = pivot
        points["rocker axis"] = pivot + axis * draw.choice([-30.0, 50.0])
        points["spring rocker"] = end
        points["spring frame"] = end + draw.uniform(-220, 220, 3)
    else:
        points["spring frame"] = inner
    return mount, points


def random_load(draw, corner):
    """(mount, points, travel, rack, load) of a corner: an actuation at a pose, loaded.

    load: where it acts, and its parts forward, outboard and up.
    """
    mount, points = random_actuation(draw, corner, rocker=bool(draw.integers(4)))
    travel, rack = float(draw.uniform(-25, 25)), float(draw.uniform(-15, 15))
    load = (str(draw.choice(loads.ACTS)), *draw.uniform(-1000.0, 1000.0, 3).tolist())
    return mount, points, travel, rack, load


def arms_at(corner, pose):
    """The package's lower and upper `Arm` of a corner at a pose."""

    def vec(name):
        return Vec(*map(float, corner[name]))

    return [
        loads.Arm(ball, vec(which + " front pickup"), vec(which + " rear pickup"))
        for which, ball in (("lower", pose.lower), ("upper", pose.upper))
    ]


def _square_to(draw, way):
    """A direction within some 50 degrees of square to another one."""
    aside = np.cross(way, draw.normal(size=3))
    along = draw.uniform(-1.2, 1.2) * way / np.linalg.norm(way)
    found = aside / np.linalg.norm(aside) + along
    return found / np.linalg.norm(found)


def drawn_pose(corner):
    """The package's `Pose` as drawn of a corner: name to (3,) array or value."""

    def vec(name):
        return Vec(*map(float, corner[name]))

    return Pose(
        lower=vec("lower ball joint"),
        upper=vec("upper ball joint"),
        tie_outer=vec("tie rod outer"),
        tie_inner=vec("tie rod inner"),
        wheel_centre=vec("wheel centre"),
        spindle=spindle_of(corner["static camber"], corner["static toe"]),
        radius=corner["tyre radius"],
    )


def actuation_of(corner, linkage, mount, points):
    """The package's `Actuation`."""
    vecs = {name: Vec(*map(float, place)) for name, place in points.items()}
    rocker = None
    if "rod inner" in points:
        inner, pivot, axis, end = (vecs[name] for name in NAMES)
        rocker = Rocker(vecs["rod outer"], inner, pivot, axis, end, vecs["spring frame"])
    drawn = drawn_pose(corner)
    return Actuation(linkage, drawn, mount, vecs["rod outer"], vecs["spring frame"], rocker)
