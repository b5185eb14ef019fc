"""Where a corner's points stand before anything is solved: in closed form, from aims.

Points are `Vec`s of floats in mm. What is given stays; what is not goes with it as in the
demonstration.
"""

import math

from ....geometry.corner.linkage import Linkage
from ....geometry.corner.motion import by_travel
from ....geometry.corner.pose import Pose
from ....geometry.corner.wheel import contact_centre, spindle_of
from ....geometry.placing import axis, held_toe, square
from ....geometry.vec import Vec

ARMS = ("Lower", "Upper")
ENDS = ("front", "rear")


class Frame:
    """What points are placed by. given: {row: `Vec`} of what stays; ratio: the `Ratio` of this car
    to the demonstration; aims: {wish: number}; settings: the car's `Settings`; example: the
    demonstration's `Example`.
    """

    def __init__(self, given, ratio, aims, settings, example):
        self.given = given
        self.ratio = ratio
        self.aims = aims
        self.settings = settings
        self.example = example
        self.theirs = example.points


class Example:
    """The demonstration's corner. points: {row: `Vec`} of linkage and spring; settings: its
    `Settings`; lock: its rack's way to full lock; mount: what carries its rod's outer end.
    """

    def __init__(self, points, settings, lock, mount):
        self.points = points
        self.settings = settings
        self.lock = lock
        self.mount = mount


def start(frame):
    """{row: `Vec`} of all points of the linkage."""
    points = {"Wheel centre": wheel_centre(frame)}
    points.update(_ball_joints(frame, points["Wheel centre"]))
    for arm in ARMS:
        points.update(_pickups(frame, points, arm))
    points.update(_tie_rod(frame, points))
    _for_motion(frame, points)
    _for_toe(frame, points)
    return points


def wheel_centre(frame):
    """Where the tyre stands on the ground at half the track, on the front axle line."""
    if "Wheel centre" in frame.given:
        return frame.given["Wheel centre"]
    s = frame.settings
    lowest = contact_centre(Vec(0.0, 0.0, 0.0), spindle_of(s.camber, s.toe), s.radius, s.crown)
    return Vec(-lowest.x, 0.5 * s.track - lowest.y, -lowest.z)


def drawn_pose(frame, points):
    """The `Pose` as drawn, of as many points as there are."""
    s = frame.settings
    found = (points.get(name) for name in (
        "Lower ball joint", "Upper ball joint", "Tie rod outer", "Tie rod inner", "Wheel centre",
    ))  # fmt: skip
    return Pose(*found, spindle_of(s.camber, s.toe), s.radius, s.crown)


def _ball_joints(frame, centre):
    given, aims = frame.given, frame.aims
    names = [f"{arm} ball joint" for arm in ARMS]
    found = {name: given[name] for name in names if name in given}
    pose = drawn_pose(frame, {"Wheel centre": centre})
    for arm in ARMS:
        name, other = f"{arm} ball joint", f"{ARMS[arm == 'Lower']} ball joint"
        if name in found:
            continue
        height = aims[f"{arm.lower()}_height"]
        if other in given:
            # Along the axis from the one that is given.
            least = 0.45 * frame.settings.radius
            rise = height - given[other].z
            rise = max(rise, least) if arm == "Upper" else min(rise, -least)
            way = Vec(-_slope(aims["caster"]), -_slope(aims["inclination"]), 1.0)
            found[name] = given[other] + way * rise
        else:
            found[name] = axis.on_axis(
                pose, aims["caster"], aims["inclination"], aims["trail"], aims["scrub"], height
            )
    return found


def _slope(angle):
    return math.tan(math.radians(angle))


def _pickups(frame, points, arm):
    """Across the car by the track, along and up by the tyre."""
    given, theirs, ratio = frame.given, frame.theirs, frame.ratio
    ball, their_ball = points[f"{arm} ball joint"], theirs[f"{arm} ball joint"]
    names = {end: f"{arm} {end} pickup" for end in ENDS}
    found = {}
    for end in ENDS:
        their = theirs[names[end]]
        found[end] = Vec(
            ball.x + (their.x - their_ball.x) * ratio.tyre,
            min(their.y * ratio.track, ball.y - 0.4 * frame.settings.radius),
            ball.z + (their.z - their_ball.z) * ratio.tyre,
        )
    for end, other in (ENDS, ENDS[::-1]):
        if names[other] in given and names[end] not in given:
            apart = found[end] - found[other]
            found[end] = given[names[other]] + Vec(apart.x, 0.0, 0.0)
    return {names[end]: given.get(names[end], found[end]) for end in ENDS}


def _tie_rod(frame, points):
    """Behind the steering axis as in the demonstration, or on the side of the rack given."""
    given, theirs, ratio = frame.given, frame.theirs, frame.ratio
    found = {}
    lower, upper = points["Lower ball joint"], points["Upper ball joint"]

    def on_axis(height, low=lower, high=upper):
        return low + (high - low) * ((height - low.z) / (high.z - low.z))

    outer, inner = theirs["Tie rod outer"], theirs["Tie rod inner"]
    foot = on_axis(outer.z, theirs["Lower ball joint"], theirs["Upper ball joint"])
    lever = outer - foot
    # Toward the middle of the rear axle, as much as the car's proportions have changed.
    turned = ratio.track / ratio.wheelbase
    way = Vec(lever.x, lever.y * turned, 0.0) * ratio.tyre
    height = points["Wheel centre"].z + (outer.z - theirs["Wheel centre"].z) * ratio.tyre
    rack = given.get("Tie rod inner")
    if rack is not None:
        height = min(max(rack.z, lower.z - 0.1 * upper.z), upper.z)
        if rack.x > on_axis(height).x:
            way = way * -1.0
    found["Tie rod outer"] = given.get("Tie rod outer", on_axis(height) + way)
    out = found["Tie rod outer"]
    if rack is None:
        rack = Vec(
            out.x + (inner.x - outer.x) * ratio.tyre,
            min(inner.y * ratio.track, out.y - 0.45 * frame.settings.radius),
            out.z + (inner.z - outer.z) * ratio.tyre,
        )
    found["Tie rod inner"] = rack
    return found


def _linkage(frame, points):
    pose = drawn_pose(frame, points)
    return pose, Linkage(
        pose.lower, points["Lower front pickup"], points["Lower rear pickup"],
        pose.upper, points["Upper front pickup"], points["Upper rear pickup"],
        pose.tie_outer, pose.tie_inner, pose.wheel_centre, pose.spindle, pose.radius,
        pose.crown,
    )  # fmt: skip


def _for_motion(frame, points):
    """Heights of the pickups for camber gain and roll centre, where none of an arm is given."""
    pose, linkage = _linkage(frame, points)
    aims = frame.aims
    wanted = square.wanted_motion(
        pose, by_travel(linkage, pose), aims["camber_gain"], aims["roll_centre"], "toe"
    )
    radius = frame.settings.radius
    for arm, ball in (("Lower", pose.lower), ("Upper", pose.upper)):
        velocity = wanted.velocity_of(ball)
        for end in ENDS:
            name = f"{arm} {end} pickup"
            at = points[name]
            height = square.square_height(ball, at, velocity)
            if name not in frame.given and abs(height - at.z) < 0.5 * radius:
                points[name] = Vec(at.x, at.y, max(height, 0.2 * radius))


def _for_toe(frame, points):
    """The inner end of the tie rod for the same toe over the travel, where it is not given."""
    if "Tie rod inner" in frame.given:
        return
    pose, linkage = _linkage(frame, points)
    held, travel = held_toe.HeldToe(linkage, pose), frame.settings.travel
    y, z = held_toe.inner_for_range(held, pose, -travel, travel)
    at, radius = points["Tie rod inner"], frame.settings.radius
    if 0.0 < y < pose.tie_outer.y - 0.35 * radius and abs(z - at.z) < 0.5 * radius:
        points["Tie rod inner"] = Vec(at.x, y, z)
