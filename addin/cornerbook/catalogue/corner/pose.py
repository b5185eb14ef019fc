"""Formulas for a corner at a pose: the angles, trail, scrub, and where points are."""

import math

from ...cells.arguments import POSE
from ...cells.block import POINTS, key_of
from ...cells.declare import Argument, formula
from ...cells.mend import Mend, shown
from ...cells.reach import why_not
from ...geometry.corner import instant

GROUP = "A corner at a pose"


@formula(
    name="CASTER",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    positive="the steering axis's top leans rearward",
    help="Caster angle: the steering axis's lean in side view.",
    source="ISO 8855:2011, castor angle; the steering axis through both ball joints.",
    example="=CORNER.CASTER(Example, 25, 10)",
    check=6.49653568557,
    why=why_not,
)
def caster(corner, travel, rack):
    return corner.pose(travel, rack).caster()


@formula(
    name="KPI",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    positive="the steering axis's top leans inward",
    help="Kingpin inclination: the steering axis's lean in front view.",
    source="ISO 8855:2011, kingpin inclination angle.",
    example="=CORNER.KPI(Example, 25, 10)",
    check=9.75851368187,
    why=why_not,
)
def kpi(corner, travel, rack):
    return corner.pose(travel, rack).inclination()


@formula(
    name="TRAIL",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="the axis meets the ground ahead of the contact centre",
    help="Mechanical trail, along the wheel's own heading at ground height.",
    source="ISO 8855:2011, castor offset at ground.",
    example="=CORNER.TRAIL(Example)",
    check=23.4012840449,
    why=why_not,
)
def trail(corner, travel, rack):
    return corner.pose(travel, rack).trail()


@formula(
    name="SCRUB",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="the axis meets the ground inboard of the contact centre",
    help="Scrub radius, across the wheel's own heading at ground height.",
    source="ISO 8855:2011, kingpin offset at ground.",
    example="=CORNER.SCRUB(Example)",
    check=21.108502928,
    why=why_not,
)
def scrub(corner, travel, rack):
    return corner.pose(travel, rack).scrub()


@formula(
    name="CAMBER",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    positive="the top of the wheel leans away from the car",
    help="Camber of the wheel against the body's vertical.",
    source="ISO 8855:2011, camber angle.",
    example="=CORNER.CAMBER(Example, 25, 10)",
    check=-2.5205263257,
    why=why_not,
)
def camber(corner, travel, rack):
    return corner.pose(travel, rack).camber()


@formula(
    name="TOE",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    positive="the leading edge points inward",
    help="Toe of this one wheel; with the rack moved, its steer angle the other way round.",
    source="ISO 8855:2011, toe angle.",
    example="=CORNER.TOE(Example, 25, 10)",
    check=6.07487559846,
    why=why_not,
)
def toe(corner, travel, rack):
    return corner.pose(travel, rack).toe()


_MOVING = {
    "lower ball joint": lambda pose: pose.lower,
    "upper ball joint": lambda pose: pose.upper,
    "tie rod outer": lambda pose: pose.tie_outer,
    "tie rod inner": lambda pose: pose.tie_inner,
    "wheel centre": lambda pose: pose.wheel_centre,
    "contact centre": lambda pose: pose.contact_centre(),
    "axis at ground": lambda pose: pose.axis_at_ground(),
}
_MOVES = {key_of(name): find for name, find in _MOVING.items()}
_BY_MOTION = {
    "instant centre": instant.front_centre,
    "side instant centre": instant.side_centre,
}
_CENTRES = {key_of(name): find for name, find in _BY_MOTION.items()}
_FIXED = {key_of(name): name for name in POINTS if name not in _MOVING}


@formula(
    name="POINT",
    group=GROUP,
    arguments=(
        POSE[0],
        Argument(
            "point", "text",
            "Name of the point: a row of the block, contact centre, axis at ground, instant "
            "centre or side instant centre.",
        ),
        *POSE[1:],
        Argument(
            "coordinate", "text",
            "x, y or z for one number; left out, the three stand side by side.",
            default="all", choices=("x", "y", "z", "all"),
        ),
    ),
    unit="length",
    positive="forward (x), to the left (y), upward (z)",
    help="Where a named point is, in the body's axes.",
    source="Axes of ISO 8855:2011; the pose of the linkage.",
    example='=CORNER.POINT(Example, "contact centre", 25, 10, "y")',
    check=558.525647177,
    shape="table",
    why=lambda corner, point, travel, rack, coordinate: why_not(corner, travel, rack),
)  # fmt: skip
def point(corner, point, travel, rack, coordinate):
    place = _place(corner, point, travel, rack)
    if coordinate == "all":
        if isinstance(place.z, float) and math.isnan(place.z):
            raise Mend(why_not(corner, travel, rack))
        return (tuple(place),)
    return getattr(place, coordinate)


def _place(corner, name, travel, rack):
    key = key_of(name)
    if key in _MOVES:
        pose = corner.pose(travel, rack)
        if key == "tierodinner":
            # Known without a pose, but not shown for one that cannot be.
            return pose.tie_inner + (pose.wheel_centre - pose.wheel_centre)
        return _MOVES[key](pose)
    if key in _CENTRES:
        return _CENTRES[key](corner.motion(travel, rack), corner.pose(travel, rack))
    if key in _FIXED:
        return corner.block.point(_FIXED[key])
    raise Mend(
        f"point: {shown(name)} is not known; one of these was expected: "
        f"{', '.join([*_MOVING, *_BY_MOTION, *_FIXED.values()])}"
    )
