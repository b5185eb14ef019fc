"""Formulas for what each member, joint and point of the frame carries under a load on the wheel."""

from ...cells.arguments import CORNER, RACK, TRAVEL
from ...cells.corner import has_rocker
from ...cells.declare import Argument, formula
from ...cells.mend import Mend
from ...cells.reach import closes
from ...geometry.forces.loads import ACTS, Arm, Carried, load_on_upright
from ...geometry.springing.actuation import MOUNTS
from ...geometry.vec import Vec
from ..springing.actuation import BEYOND, reaches, why_no_spring

GROUP = "Loads"

CAUTION = "no check of strength"

EQUILIBRIUM = (
    "Statics: equilibrium of upright, arms, rod, rocker and rack at the pose, rigid, without "
    "weight and friction; each force on an arm goes to its pickups along the straight lines to them"
)

MEMBERS = (
    "tie rod", "rod", "spring", "lower front", "lower rear", "upper front", "upper rear",
)  # fmt: skip
MEMBER = Argument(
    "member", "text",
    "Which member: tie rod, rod (the push or pull rod; the spring itself where there is no "
    "rocker), spring, or the leg of an arm: lower front, lower rear, upper front or upper rear.",
    choices=MEMBERS,
)  # fmt: skip

JOINTS = (
    "lower front pickup", "lower rear pickup", "upper front pickup", "upper rear pickup",
    "tie rod inner", "rocker pivot", "spring frame",
    "lower ball joint", "upper ball joint", "tie rod outer", "rod outer", "rod inner",
    "spring rocker",
)  # fmt: skip
"""The joints at which a force is asked for: first those on the frame, then the others."""

NOTHING = Vec(0.0, 0.0, 0.0)
SIZE = "size"
COMPONENT = Argument(
    "component", "text",
    "Which part of it: x (forward), y (to the left), z (up), or size, without direction.",
    choices=("x", "y", "z", SIZE),
)  # fmt: skip
LOADED = (
    Argument(
        "longitudinal", "number", "Force of the road on the tyre, forward along its heading.",
        unit="force",
    ),
    Argument(
        "lateral", "number", "Force of the road on the tyre, outboard across its heading.",
        unit="force",
    ),
    Argument("vertical", "number", "Force of the road on the tyre, upward.", unit="force"),
    TRAVEL,
    RACK,
    Argument(
        "acts", "text",
        "Where the load acts: brake, at the contact centre with the wheel held by a brake on the "
        "upright; contact centre, with the wheel free to turn or held through a shaft; or wheel "
        "centre; brake if left out.",
        default="brake", choices=ACTS,
    ),
)  # fmt: skip


NO_LEVER = (
    "tie rod, rod or spring points along a line about which it has no moment at this travel and "
    "rack, and nothing holds the load; another place of one of their ends was expected"
)
NO_FORCE = BEYOND + ", or tie rod, rod or spring has no lever there"


def why_no_lever(corner, travel, rack):
    """Why there are no forces at a pose: it is not reached, or nothing holds the load there."""
    if closes(corner, travel, rack) and reaches(corner, travel, rack):
        return NO_LEVER
    return why_no_spring(corner, travel, rack)


def _why_loaded(corner, *arguments):
    return why_no_lever(corner, *arguments[-3:-1])


def arms_of(corner, pose):
    """The lower and the upper `Arm` of a corner at a pose."""
    block = corner.block
    return [
        Arm(ball, block.point(arm + " front pickup"), block.point(arm + " rear pickup"))
        for arm, ball in (("lower", pose.lower), ("upper", pose.upper))
    ]


def carried(corner, longitudinal, lateral, vertical, travel, rack, acts):
    """The `Carried` of a corner under a load; `Mend` where its rows make no actuation."""
    corner.hold_linkage()
    actuation = corner.actuation
    pose = corner.pose(travel, rack)
    lower, upper = arms_of(corner, pose)
    load = load_on_upright(pose, acts, longitudinal, lateral, vertical)
    mount = corner.block.word("rod mount", MOUNTS)
    return Carried(pose, lower, upper, load, mount, actuation.places(pose))


def _part(vector, component):
    return vector.length() if component == SIZE else getattr(vector, component)


@formula(
    name="MEMBER_FORCE",
    group=GROUP,
    arguments=(CORNER, MEMBER, *LOADED),
    unit="force",
    positive="it is a pull; a push is negative",
    help="Force along a member of the corner under a load on the wheel, " + CAUTION + "; the leg "
    "of an arm that carries the rod bends as well, and its force is that at its pickup.",
    source=EQUILIBRIUM + ".",
    example='=CORNER.MEMBER_FORCE(Example, "tie rod", -400, 650, 1100, 25, 10, "brake")',
    check=92.0598948039,
    why=_why_loaded,
    beyond=NO_FORCE,
)
def member_force(corner, member, longitudinal, lateral, vertical, travel, rack, acts):
    found = carried(corner, longitudinal, lateral, vertical, travel, rack, acts)
    if member == "tie rod":
        return found.tie
    if member in ("rod", "spring"):
        return found.rod if member == "rod" else found.spring
    arm, leg = member.split()
    return found.leg(arm == "upper", leg == "rear")


def force_at(found, block, joint):
    """The force at a joint, of the part nearer to the wheel on the part nearer to the frame."""
    if joint == "rocker pivot" and not has_rocker(block):
        return NOTHING
    if joint in ("rod inner", "spring rocker") and not has_rocker(block):
        raise Mend(
            "the block has no rocker: the spring stands on the row rod outer; of it, rod outer and "
            "spring frame were expected"
        )
    if joint.endswith("pickup"):
        arm, leg, _ = joint.split()
        return found.on_pickups(arm == "upper")[0 if leg == "front" else 1]
    if joint.endswith("ball joint"):
        return found.at_lower if joint.startswith("lower") else found.at_upper
    if joint.startswith("tie rod"):
        return found.on_rack()
    if joint in ("rod outer", "rod inner"):
        return -found.rod_on_mount()
    return found.on_bearing().force if joint == "rocker pivot" else found.on_spring_frame()


@formula(
    name="JOINT_FORCE",
    group=GROUP,
    arguments=(
        CORNER,
        Argument(
            "joint", "text",
            "Which joint, by the name of its row in the block: a pickup, a ball joint, tie rod "
            "outer or inner, rod outer or inner, rocker pivot, spring rocker or spring frame.",
            choices=JOINTS,
        ),
        COMPONENT,
        *LOADED,
    ),
    unit="force",
    positive="it points forward (x), to the left (y) or up (z)",
    help="Force at a joint under a load on the wheel, of the part nearer to the wheel on the part "
    "nearer to the frame, at a pickup on the frame, and 0 at the "
    "pivot of a rocker that is not there; " + CAUTION + ".",
    source=EQUILIBRIUM + ".",
    example='=CORNER.JOINT_FORCE(Example, "lower front pickup", "y", -400, 650, 1100, 25, 10, '
    '"brake")',
    check=1864.56540164,
    why=_why_loaded,
    beyond=NO_FORCE,
)  # fmt: skip
def joint_force(corner, joint, component, longitudinal, lateral, vertical, travel, rack, acts):
    found = carried(corner, longitudinal, lateral, vertical, travel, rack, acts)
    return _part(force_at(found, corner.block, joint), component)


@formula(
    name="ROCKER_COUPLE",
    group=GROUP,
    arguments=(CORNER, COMPONENT, *LOADED),
    unit="force x length",
    positive="it turns counter-clockwise, seen against the axis x, y or z",
    help="Couple with which the rocker tilts its bearing, beside the force of JOINT_FORCE at "
    "rocker pivot: 0 where rod and spring lie in one plane with that point, square to the axis.",
    source=EQUILIBRIUM + "; moments of rod and spring about the row rocker pivot.",
    example='=CORNER.ROCKER_COUPLE(Example, "size", -400, 650, 1100, 25, 10, "brake")',
    check=10160.3857521,
    why=_why_loaded,
    beyond=NO_FORCE,
)
def rocker_couple(corner, component, longitudinal, lateral, vertical, travel, rack, acts):
    found = carried(corner, longitudinal, lateral, vertical, travel, rack, acts)
    if not has_rocker(corner.block):
        return 0.0
    return _part(found.on_bearing().moment, component)


@formula(
    name="ARM_BENDING",
    group=GROUP,
    arguments=(CORNER, *LOADED),
    unit="force x length",
    positive="it bends the arm's ball joint upward against the rod",
    help="Bending moment at the rod's eye of the arm that carries the rod or the spring, both legs "
    "together, 0 where the upright carries it; " + CAUTION + ".",
    source=EQUILIBRIUM + "; moment of the ball joint's force about the line through the eye along "
    "the arm's hinge.",
    example='=CORNER.ARM_BENDING(Example, -400, 650, 1100, 25, 10, "brake")',
    check=76290.0480499,
    why=_why_loaded,
    beyond=NO_FORCE,
)
def arm_bending(corner, longitudinal, lateral, vertical, travel, rack, acts):
    return carried(corner, longitudinal, lateral, vertical, travel, rack, acts).bending()


@formula(
    name="MEMBER_LENGTH",
    group=GROUP,
    arguments=(CORNER, MEMBER, TRAVEL, RACK),
    unit="length",
    help="Length of a member between the centres of its joints, as far as it may buckle where both "
    "ends turn freely.",
    source="Distance of two points of the pose; a strut hinged at both ends (Euler) is as long as "
    "its buckling length.",
    example='=CORNER.MEMBER_LENGTH(Example, "rod", 25, 10)',
    check=349.084516987,
    why=lambda corner, member, travel, rack: why_no_spring(corner, travel, rack),
    beyond=BEYOND,
)
def member_length(corner, member, travel, rack):
    corner.hold_linkage()
    pose = corner.pose(travel, rack)
    if member == "tie rod":
        return (pose.tie_outer - pose.tie_inner).length()
    if member in ("rod", "spring"):
        places = corner.actuation.places(pose)
        if member == "rod":
            return (places.outer - places.inner).length()
        return (places.end - places.frame).length()
    arm, leg = member.split()
    ball = pose.upper if arm == "upper" else pose.lower
    return (ball - corner.block.point(f"{arm} {leg} pickup")).length()
