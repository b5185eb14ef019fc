"""How a corner's wheel turns as pickups, joints and rods give way under a load.

Linear flexibility about the pose, by the unit-load theorem: an angle changes by the sum, over all
that gives, of its force under the load x its force under a unit couple that works on that angle,
over its stiffness. Arms, upright and rocker are rigid; so is what has no stiffness, or one of 0.
The spring keeps its length: what it does as it gives is travel.

A pickup, a ball joint or the rocker's bearing gives alike every way and turns freely as before. An
arm is rigid, so that along its hinge both pickups give together, as two springs side by side, and
are rigid if one of them is.
"""

from ..numbers import degrees, ratio, sqrt, where
from ..vec import Vec
from .loads import Carried, Wrench

PLACES = (
    "lower front pickup", "lower rear pickup", "upper front pickup", "upper rear pickup",
    "lower ball joint", "upper ball joint", "tie rod", "rack", "rod", "rocker pivot",
    "spring frame",
)  # fmt: skip
"""What gives, in the order in which stiffnesses are taken."""

ANGLES = ("toe", "camber", "caster", "inclination")


def turning_into(angle, pose):
    """The `Vec` whose product with a small rotation vector of the upright is an angle's change.

    Radians, with the signs of `Pose`. angle: one of `ANGLES`.
    """
    if angle in ("toe", "camber"):
        s = pose.spindle
        level2 = s.x * s.x + s.y * s.y
        if angle == "toe":
            return Vec(s.x * s.z, s.y * s.z, -level2) / level2
        return Vec(-s.y, s.x, 0.0) / sqrt(level2)
    axis = pose.upper - pose.lower
    if angle == "caster":
        return axis.cross(Vec(-axis.z, 0.0, axis.x)) / (axis.x * axis.x + axis.z * axis.z)
    return axis.cross(Vec(0.0, -axis.z, axis.y)) / (axis.y * axis.y + axis.z * axis.z)


def couple(about, moment):
    """The `Wrench` of a couple."""
    return Wrench(about, Vec(0.0, 0.0, 0.0), moment)


def given_way(carried, unit, stiffness):
    """For each of `PLACES`, the product of the forces over the stiffness.

    carried, unit: `Carried` of the load and of the unit couple. stiffness: of each place.
    """
    found = []
    for upper in (False, True):
        found += _pickups(carried, unit, upper, stiffness[2 * upper : 2 * upper + 2])
    found.append(_gives(carried.at_lower.dot(unit.at_lower), stiffness[4]))
    found.append(_gives(carried.at_upper.dot(unit.at_upper), stiffness[5]))
    found.append(_gives(carried.tie * unit.tie, stiffness[6]))
    found.append(_gives(carried.on_rack().y * unit.on_rack().y, stiffness[7]))
    found.append(_gives(carried.rod * unit.rod, stiffness[8]))
    on_bearing = 0.0
    if carried.places.axis is not None:
        on_bearing = carried.on_bearing().force.dot(unit.on_bearing().force)
    found.append(_gives(on_bearing, stiffness[9]))
    found.append(_gives(carried.spring * unit.spring, stiffness[10]))
    return found


def _gives(work, stiffness):
    return where(stiffness > 0.0, ratio(work, stiffness, 0.0), 0.0)


def _pickups(carried, unit, upper, stiffness):
    """The parts of an arm's front and rear pickup."""
    hinge = (carried.upper if upper else carried.lower).hinge
    forces, units = carried.on_pickups(upper), unit.on_pickups(upper)
    whole = (forces[0] + forces[1]).dot(hinge) * (units[0] + units[1]).dot(hinge)
    front, rear = stiffness
    both = where(front > 0.0, where(rear > 0.0, front + rear, 0.0), 0.0)
    slid = _gives(whole, both)
    found = []
    for end in (0, 1):
        force, one = forces[end], units[end]
        across = force.dot(one) - force.dot(hinge) * one.dot(hinge)
        share = ratio(stiffness[end], both, 0.0)
        found.append(_gives(across, stiffness[end]) + slid * share)
    return found


def change_of(angle, pose, load, stiffness, arms, mount, places):
    """Change of an angle in degrees by what gives at each of `PLACES`.

    load: a `loads.Wrench` on the upright. arms, mount, places: as `Carried` takes them.
    """
    carried = Carried(pose, *arms, load, mount, places)
    unit = Carried(pose, *arms, couple(pose.lower, turning_into(angle, pose)), mount, places)
    return [degrees(part) for part in given_way(carried, unit, stiffness)]
