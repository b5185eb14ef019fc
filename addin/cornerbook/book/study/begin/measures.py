"""What a corner measures, as arrays: of many corners at once, over the poses that wishes judge.

Corners are rows, poses are columns. A pose that a linkage cannot reach measures NaN.
"""

from typing import NamedTuple

import numpy as np

from ....geometry.corner import instant, joints, rim
from ....geometry.corner.linkage import Linkage
from ....geometry.corner.motion import by_travel
from ....geometry.corner.pose import Pose
from ....geometry.corner.wheel import spindle_of
from ....geometry.front_axle import turning
from ....geometry.front_axle.axle import Axle
from ....geometry.numbers import degrees
from ....geometry.steering import moments, shafts
from ....geometry.vec import Vec

LINKS = {
    "lower_ball": "Lower ball joint",
    "lower_front": "Lower front pickup",
    "lower_rear": "Lower rear pickup",
    "upper_ball": "Upper ball joint",
    "upper_front": "Upper front pickup",
    "upper_rear": "Upper rear pickup",
    "tie_outer": "Tie rod outer",
    "tie_inner": "Tie rod inner",
    "wheel_centre": "Wheel centre",
}
"""The rows of a corner by the names of a `Linkage`'s arguments."""

_ENDS = ("front", "rear")


class Settings:
    """The numbers of a car, besides its points, by which a corner is measured; mm and degrees."""

    __slots__ = (
        "ball_tilt", "brake_share", "camber", "cg_height", "crown", "flange_inboard",
        "flange_radius", "leg_radius", "radius", "rack_tilt", "rim_radius", "rim_width",
        "rod_radius", "rod_tilt", "toe", "track", "travel", "tyre_width", "wheelbase",
    )  # fmt: skip

    def __init__(self, **fields):
        for name in self.__slots__:
            setattr(self, name, fields[name])


class Posed:
    """Corners over their poses.

    points: {row's name: `Vec`} of arrays of one column; lock: rack from the middle to full lock,
    likewise. ways: how many travels, an odd number, from full droop to full bump.
    """

    def __init__(self, points, lock, settings, ways):
        self.settings = s = settings
        self.points = points
        spindle = spindle_of(s.camber, s.toe)
        given = {name: points[label] for name, label in LINKS.items()}
        self.linkage = Linkage(**given, spindle=spindle, radius=s.radius, crown=s.crown)
        self.drawn = Pose(
            given["lower_ball"], given["upper_ball"], given["tie_outer"], given["tie_inner"],
            given["wheel_centre"], spindle, s.radius, s.crown,
        )  # fmt: skip
        travels = np.linspace(-s.travel, s.travel, ways)[None, :] + 0.0 * lock
        # Beside the travels, the nine poses of the joints, with the rack first of all to the
        # left, then straight ahead, then to the right.
        nine = np.tile(np.linspace(-s.travel, s.travel, 3), 3)[None, :] + 0.0 * lock
        racks = np.repeat(np.array([-1.0, 0.0, 1.0]), 3)[None, :] * lock
        self.ways = ways
        self.travel = np.concatenate([travels, nine], axis=1)
        self.rack = np.concatenate([0.0 * travels, racks], axis=1)
        self.pose = self.linkage.pose(self.travel, self.rack)
        self.motion = by_travel(self.linkage, self.pose)

    def _at(self, columns):
        """The `Pose` at some columns."""
        pose = self.pose

        def cut(vec):
            whole = (part + 0.0 * self.travel for part in vec)
            return Vec(*(part[:, columns] for part in whole))

        return Pose(
            cut(pose.lower), cut(pose.upper), cut(pose.tie_outer), cut(pose.tie_inner),
            cut(pose.wheel_centre), cut(pose.spindle), self.settings.radius, self.settings.crown,
        )  # fmt: skip

    def all(self):
        """{measure: array of corners by values}; see `wishes.MEASURES` for what each is."""
        found = {**self._drawn(), **self._travelled(), **self._steered(), **self._posed()}
        return {name: values + 0.0 * self.travel[:, :1] for name, values in found.items()}

    def _drawn(self):
        s, drawn, moved = self.settings, self.drawn, by_travel(self.linkage, self.drawn)
        return {
            "caster": drawn.caster(),
            "inclination": drawn.inclination(),
            "trail": drawn.trail(),
            "scrub": drawn.scrub(),
            "camber": np.array([[drawn.camber()]]),
            "toe": np.array([[drawn.toe()]]),
            "track_off": 2.0 * drawn.contact_centre().y - s.track,
            "camber_gain": moved.camber_rate(drawn.spindle),
            "bump_steer": moved.toe_rate(drawn.spindle),
            "roll_centre": instant.roll_centre(moved, drawn),
            "swing_arm": instant.front_arm_length(moved, drawn),
            "anti_dive": instant.anti_dive(moved, drawn, s.wheelbase, s.cg_height, s.brake_share),
            "side_angle": instant.side_arm_angle(moved, drawn),
            "load_arm": moments.vertical_load_arm(drawn),
        }

    def _travelled(self):
        ways, pose, motion = self.ways, self.pose, self.motion
        centre = pose.contact_centre().y[:, :ways]
        return {
            "camber_gain_worst": motion.camber_rate(pose.spindle)[:, :ways],
            "toe_change": pose.toe()[:, :ways] - self.drawn.toe(),
            "roll_centre_worst": instant.roll_centre(motion, pose)[:, :ways],
            "track_change": 2.0 * (centre - self.drawn.contact_centre().y),
        }

    def _steered(self):
        s, ways = self.settings, self.ways
        # With the rack to the right a left-hand wheel turns left where its rod is behind the
        # axis: whichever of both is the inner one.
        right, left = self._at([ways + 1]), self._at([ways + 7])
        axle = Axle(left, right, self.points["Wheel centre"].x - s.wheelbase)
        outer = np.where(left.toe() < 0.0, right.camber(), left.camber())
        return {
            "inner_angle": np.maximum(np.abs(left.toe()), np.abs(right.toe())),
            "ackermann": axle.ackermann(),
            "turning_radius": axle.turning_radius(),
            "kerb_to_kerb": turning.kerb_to_kerb(axle, s.tyre_width),
            "camber_lock_outer": outer,
        }

    def _posed(self):
        s, linkage, drawn = self.settings, self.linkage, self.drawn
        pose = self._at(slice(self.ways, None))
        wheel = rim.Wheel(s.rim_radius, s.rim_width, s.flange_radius, s.flange_inboard)
        left = [
            s.ball_tilt - joints.lower_tilt(linkage, pose),
            s.ball_tilt - joints.upper_tilt(linkage, pose),
            s.rod_tilt - joints.rod_end_tilt(linkage, pose, drawn),
            s.rack_tilt - joints.rack_end_angle(pose),
        ]
        # All members side by side, as columns: one call of five is five times as quick.
        members = [
            (pose.tie_outer, pose.tie_inner, s.rod_radius),
            *((pose.lower, self.points[f"Lower {end} pickup"], s.leg_radius) for end in _ENDS),
            *((pose.upper, self.points[f"Upper {end} pickup"], s.leg_radius) for end in _ENDS),
        ]
        outer, inner, radius = zip(*members, strict=True)
        shape = pose.lower.x.shape
        clear = wheel.clearance(
            _Turned(*(_beside([vec] * len(members), shape) for vec in (
                pose.wheel_centre, pose.spindle,
            ))),
            _beside(outer, shape), _beside(inner, shape), np.repeat(radius, shape[1]),
        )  # fmt: skip
        return {
            "joint_left": np.concatenate(left, axis=1),
            "toggle": joints.toggle_margin(pose),
            "rod_clearance": clear[:, : shape[1]],
            "leg_clearance": clear[:, shape[1] :],
        }

    def reached(self):
        """Whether every pose closes, by corner."""
        return np.all(np.isfinite(self.pose.wheel_centre.z + 0.0 * self.travel), axis=1)


class _Turned(NamedTuple):
    """What a wheel's clearance asks of a pose."""

    wheel_centre: Vec
    spindle: Vec


def _beside(vecs, shape):
    """One `Vec` of the columns of several, each brought to a shape."""
    return Vec(*(
        np.concatenate([np.broadcast_to(part, shape) for part in parts], axis=1)
        for parts in zip(*vecs, strict=True)
    ))  # fmt: skip


def sprung(actuation, linkage, pose, motion):
    """{measure: array} of a rod, rocker and spring over poses that are given."""
    found = actuation.at(linkage, pose, motion)
    return {
        "motion_ratio": found.motion_ratio,
        "rod_margin": found.rod_margin,
        "spring_margin": found.spring_margin,
        "spring_length": found.spring_length,
    }


def bends(points):
    """{measure: array} of a steering column's points: bends of both joints, and the ripple."""
    wheel, upper, lower, pinion = points
    first = shafts.bend_between(upper - wheel, lower - upper)
    second = shafts.bend_between(lower - upper, pinion - lower)
    return {
        "upper_bend": degrees(first),
        "lower_bend": degrees(second),
        "ripple": 100.0 * shafts.column_ripple(first, second, 0.0 * first),
    }
