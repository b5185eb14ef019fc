"""Rod, rocker and spring: placed as in the demonstration, then solved for the motion ratio."""

import numpy as np

from ....cells import usual
from ....cells.block import ACTUATION_POINTS, ROCKER_POINTS
from ....geometry.corner.motion import by_travel
from ....geometry.numbers import absolute, atan2, degrees, sqrt
from ....geometry.springing.actuation import Actuation, Rocker
from ....geometry.vec import Vec, from_frame, in_frame
from . import least, shape
from .corner import INSIDE, WAYS
from .measures import sprung
from .moving import Moving

LABELS = tuple(label.capitalize() for label in ACTUATION_POINTS)
_OF_ROCKER = tuple(label.capitalize() for label in ROCKER_POINTS)

EVALUATIONS = 60

_CLEAR = 8.0
"""Degrees off over centre that are kept over the whole travel. Common practice, no source."""


def start(frame, points, mount):
    """{row: `Vec`} of the points of the spring that are not given, without any rocker where rod
    and spring are given and no row of one is.

    points: of the linkage as solved. mount: what carries the rod's outer end.
    """
    given, theirs, ratio = frame.given, frame.theirs, frame.ratio
    found = {label: given[label] for label in LABELS if label in given}
    if "Rod outer" not in found:
        found["Rod outer"] = _rod_outer(points, theirs, mount)
    bare = {"Rod outer", "Spring frame"} <= set(given) and not set(_OF_ROCKER) & set(given)
    ours, other = found["Rod outer"], theirs["Rod outer"]
    for label in LABELS:
        if label in found or (bare and label in _OF_ROCKER):
            continue
        their = theirs[label]
        # In line with the demonstration's: across the car by how far in the rod's foot stands.
        found[label] = Vec(
            ours.x + (their.x - other.x) * ratio.tyre,
            their.y * ours.y / other.y,
            ours.z + (their.z - other.z) * ratio.tyre,
        )
    return found


def _rod_outer(points, theirs, mount):
    """At the same share of the arm, and as far off it."""
    arm = "Upper" if mount == "upper arm" else "Lower"
    if mount == "upright":
        ball = points["Lower ball joint"]
        return ball + (points["Upper ball joint"] - ball) * 0.1
    axis, foot, reach = _arm(theirs, "Lower")
    along, out, up = in_frame(theirs["Rod outer"] - foot, axis, reach)
    axis, foot, ours = _arm(points, arm)
    size = ours.length() / reach.length()
    return foot + from_frame((along * size, out, up), axis, ours, axis.cross(ours))


def _arm(points, arm):
    """The unit direction of the arm's axis, the ball joint's foot on it, and the way from there to
    the ball joint."""
    front, rear = points[f"{arm} front pickup"], points[f"{arm} rear pickup"]
    axis = (front - rear).unit()
    ball = points[f"{arm} ball joint"]
    foot = front + axis * (ball - front).dot(axis)
    return axis, foot, ball - foot


class Task:
    """What is solved; start: {row: `Vec`}, of which those not given may move.

    posed: the corner's `Posed`, one car. wishes: {name: `Wish`}.
    """

    def __init__(self, start, given, mount, posed, wishes):
        self.mount = mount
        self.wishes = wishes
        self.linkage, self.drawn = posed.linkage, posed.drawn
        self.points = posed.points
        self.radius = posed.settings.radius
        columns = slice(0, WAYS)
        travel, rack = posed.travel[:, columns], posed.rack[:, columns]
        self.pose = self.linkage.pose(travel, rack)
        self.motion = by_travel(self.linkage, self.pose)
        self.moving = Moving(start, [
            (label, axis) for label in start if label not in given for axis in "xyz"
            if not (label == "Rocker axis" and axis in "yz")
        ])  # fmt: skip

    def _actuation(self, at):
        rocker = None
        if "Rocker pivot" in at:
            rocker = Rocker(*(at[label] for label in (
                "Rod outer", "Rod inner", "Rocker pivot", "Rocker axis", "Spring rocker",
                "Spring frame",
            )))  # fmt: skip
        return Actuation(self.linkage, self.drawn, self.mount, at["Rod outer"],
                         at["Spring frame"], rocker)  # fmt: skip

    def measured(self, variables):
        """{measure: array} over the travel; see `measures.sprung`."""
        at = self.moving.places(variables)
        return sprung(self._actuation(at), self.linkage, self.pose, self.motion)

    def _misses(self, variables):
        at = self.moving.places(variables)
        found = sprung(self._actuation(at), self.linkage, self.pose, self.motion)
        ratio, wish = found["motion_ratio"], self.wishes["motion_ratio"]
        room = INSIDE * wish.width
        count, middle = len(variables), WAYS // 2
        misses = [least.BAND * shape.misses(ratio, wish.low + room, wish.high - room, wish.width)]
        aim = 0.5 * (wish.low + wish.high) if wish.aim is None else wish.aim
        if np.isfinite(aim):
            misses.append(least.AIM * (ratio[:, [middle]] - aim) / wish.width)
        if "Rocker pivot" in at:
            margin = self.wishes["rocker_margin"]
            for name in ("rod_margin", "spring_margin"):
                drawn = found[name][:, [middle]]
                misses.append(least.BAND * shape.misses(drawn, margin.low + 1.0, 999.0, 15.0))
                misses.append(least.BAND * shape.misses(found[name], _CLEAR, 999.0, 15.0))
        for values, (low, high) in self._shape(at, found["spring_length"][:, [middle]]):
            room = shape.INSIDE_ANGLE if high > shape.LARGEST else shape.INSIDE
            width = 15.0 if high > shape.LARGEST else min(1.0, high - low)
            misses.append(least.BAND * shape.misses(values, low + room, high - room, width))
        misses += least.kept_near(variables, self.moving.first, self.radius)
        return least.side_by_side(misses, count)

    def _shape(self, at, length):
        """(values, limits) of what CHECK would want a look at, in tyre radii and degrees."""
        radius, half_track = self.radius, self.drawn.wheel_centre.y
        yield length / radius, usual.SPRING
        for label, most in usual.HIGHEST_OF_SPRING.items():
            if label.capitalize() in at:
                place = at[label.capitalize()]
                yield place.z / radius, (usual.LOWEST, most)
                yield place.y / half_track, (0.0, 2.0)
        for arm in ("Lower", "Upper"):
            if self.mount == arm.lower() + " arm":
                ball, front = self.points[f"{arm} ball joint"], self.points[f"{arm} front pickup"]
                rear = self.points[f"{arm} rear pickup"]
                square = (front - rear).cross(ball - front)
                off = absolute((at["Rod outer"] - ball).dot(square)) / square.length()
                yield off / radius, (-1.0, usual.OFF_ARM)
                yield (at["Rod outer"].y - ball.y) / radius, (-9.0, 0.0)
                inner = np.minimum(front.y, rear.y)
                yield (at["Rod outer"].y - inner) / radius, (0.0, 9.0)
        if "Rocker pivot" not in at:
            return
        pivot, inner = at["Rocker pivot"], at["Rod inner"]
        rod = at["Rod outer"] - inner
        way = at["Rocker axis"] - pivot
        axis = way.unit()
        yield way.length() / radius, usual.ROCKER_AXIS
        yield rod.length() / radius, usual.PUSH_ROD
        for point in (inner, at["Spring rocker"]):
            yield axis.cross(point - pivot).length() / radius, usual.ROCKER_ARM
        along = absolute(rod.dot(axis))
        lean = degrees(atan2(along, sqrt(rod.dot(rod) - along * along)))
        yield lean, (-90.0, usual.OUT_OF_PLANE)

    def solved(self):
        """{row: `Vec` of floats} solved."""
        scale = np.full(len(self.moving.first), 0.1 * self.radius)
        with np.errstate(all="ignore"):
            done = least.moved(self._misses, self.moving.first, scale, EVALUATIONS)
        return self.moving.points(done)


def judged(points, mount, posed, wishes):
    """({measure: (least, most)} of points as they are, the spring's length and the motion ratio
    as drawn)."""
    task = Task(points, set(points), mount, posed, wishes)
    with np.errstate(all="ignore"):
        found = task.measured(np.zeros((1, 0)))
    middle = WAYS // 2
    ratio = found["motion_ratio"][0]
    ends = {"motion_ratio": (float(ratio.min()), float(ratio.max()))}
    if "Rocker pivot" in points:
        drawn = min(float(found[name][0, middle]) for name in ("rod_margin", "spring_margin"))
        ends["rocker_margin"] = (drawn, drawn)
    return ends, float(found["spring_length"][0, middle]), float(ratio[middle])
