"""Formulas for a locked rear axle: two driven wheels on one shaft, without a differential.

Plain numbers: forces in any one unit and lengths in any one. A load below 0, of a wheel in
the air, counts as 0.
"""

from ...cells.arguments import WHEELBASE
from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative
from ...geometry.car import locked
from ...geometry.numbers import absolute
from .turn import LATERAL_ACCELERATION

GROUP = "The locked rear axle"

INNER = Argument(
    "load_inner", "number",
    "Load on the rear wheel on the inside of the turn; one below 0 counts as 0.",
    unit="force",
)  # fmt: skip
OUTER = Argument(
    "load_outer", "number",
    "Load on the rear wheel on the outside of the turn; one below 0 counts as 0.",
    unit="force",
)  # fmt: skip
RADIUS = Argument(
    "radius", "number",
    "Radius of the turn on which the middle of the rear axle runs, such as MID_REAR_RADIUS.",
    unit="length", above=0.0,
)  # fmt: skip
TRACK = Argument("track", "number", "Rear track.", unit="length", above=0.0)
FRICTION = Argument(
    "friction", "number", "Most force on the road, any way, for each force of load.",
    unit="ratio", above=0.0,
)  # fmt: skip
STIFFNESS = Argument(
    "slip_stiffness", "number",
    "Force along the car for each force of load and unit of slip (1 is 100 percent); about 20 "
    "to 26, a guess until measured.",
    unit="ratio", above=0.0,
)  # fmt: skip
DRIVE = Argument(
    "drive", "number",
    "Force that both tyres give forward together, backward negative; 0, coasting, if left out.",
    unit="force", default=0.0,
)  # fmt: skip
LATERAL = LATERAL_ACCELERATION.but(
    help="Lateral acceleration in g that the rear tyres give the weight on them, either way: it is "
    "taken from their grip first; 0, as at a crawl, if left out.",
    default=0.0,
)
SHAFT = (INNER, OUTER, RADIUS, TRACK, FRICTION, STIFFNESS, DRIVE, LATERAL)
"""Arguments of a formula of the axle at one turn."""

MOMENT = Argument(
    "moment", "number",
    "Yaw moment against the turn, such as LOCKED_AXLE_MOMENT: force x length.",
    unit="moment",
)  # fmt: skip

BALANCE = (
    "Both forces add up to the drive, each slip stiffness x load x slip up to what the friction "
    "ellipse leaves beside the side force (Milliken & Milliken 1995, from memory); the wheels' "
    "slips differ by track / radius."
)
RANGE = (
    " The range named for slip_stiffness is that of car tyres (Pacejka, Tire and Vehicle Dynamics; "
    "from memory)."
)


def friction_left(friction, lateral_acceleration):
    """Friction along the car beside a side force, held to be some."""
    hold(
        absolute(lateral_acceleration) < friction,
        "lateral_acceleration: %s given, less than the friction %s was expected: the rear tyres "
        "slide sideways",
        lateral_acceleration,
        friction,
    )
    return locked.friction_along(friction, lateral_acceleration)


def axle_of(
    load_inner, load_outer, radius, track, friction, slip_stiffness, drive, lateral_acceleration
):  # fmt: skip
    """The `LockedAxle`, its drive held to what both tyres give."""
    left = friction_left(friction, lateral_acceleration)
    most = locked.most_drive(load_inner, load_outer, left)
    hold(
        absolute(drive) <= most,
        "drive: %s given, at most %s was expected, the friction left along the car x both loads: "
        "beyond it both wheels slide",
        drive,
        most,
    )
    return locked.LockedAxle(load_inner, load_outer, radius, track, left, slip_stiffness, drive)


@formula(
    name="LOCKED_AXLE_INNER_FORCE",
    group=GROUP,
    arguments=SHAFT,
    unit="force",
    positive="it pushes the car forward, as it does when coasting",
    help="Force along the car of the inner rear tyre, which the shaft turns faster than the "
    "ground goes by.",
    source=BALANCE + RANGE,
    example="=CORNER.LOCKED_AXLE_INNER_FORCE(650, 1250, 9000, 1080, 1.1, 12, 150, 0.7)",
    check=551.543289326,
)
def locked_axle_inner_force(
    load_inner, load_outer, radius, track, friction, slip_stiffness, drive, lateral_acceleration
):  # fmt: skip
    axle = axle_of(
        load_inner, load_outer, radius, track, friction, slip_stiffness, drive,
        lateral_acceleration,
    )  # fmt: skip
    return axle.inner


@formula(
    name="LOCKED_AXLE_OUTER_FORCE",
    group=GROUP,
    arguments=SHAFT,
    unit="force",
    positive="it pushes the car forward; coasting it brakes",
    help="Force along the car of the outer rear tyre, which the shaft turns more slowly than the "
    "ground goes by.",
    source=BALANCE + RANGE,
    example="=CORNER.LOCKED_AXLE_OUTER_FORCE(650, 1250, 9000, 1080, 1.1, 12, 150, 0.7)",
    check=-401.543289326,
)
def locked_axle_outer_force(
    load_inner, load_outer, radius, track, friction, slip_stiffness, drive, lateral_acceleration
):  # fmt: skip
    axle = axle_of(
        load_inner, load_outer, radius, track, friction, slip_stiffness, drive,
        lateral_acceleration,
    )  # fmt: skip
    return axle.outer


@formula(
    name="LOCKED_AXLE_MOMENT",
    group=GROUP,
    arguments=SHAFT,
    unit="force x length",
    positive="it turns the car out of the turn, as it does when coasting",
    help="Yaw moment with which a locked rear axle resists a turn; it fades to 0 as the inner "
    "wheel lifts.",
    source=BALANCE + " Moment: half the track x (inner - outer)." + RANGE,
    example="=CORNER.LOCKED_AXLE_MOMENT(250, 1650, 2500, 1080, 1.1, 12, 150, 0.7)",
    check=148102.597104,
)
def locked_axle_moment(
    load_inner, load_outer, radius, track, friction, slip_stiffness, drive, lateral_acceleration
):  # fmt: skip
    axle = axle_of(
        load_inner, load_outer, radius, track, friction, slip_stiffness, drive,
        lateral_acceleration,
    )  # fmt: skip
    return axle.moment()


@formula(
    name="LOCKED_AXLE_RADIUS_TO_SLIDE",
    group=GROUP,
    arguments=(INNER, OUTER, TRACK, FRICTION, STIFFNESS, LATERAL),
    unit="length",
    help="Radius of the turn below which the lighter rear wheel of a coasting locked axle "
    "slides, of the axle's middle.",
    source="The turn in which the force that both wheels share, as LOCKED_AXLE_MOMENT has it, is "
    "what the friction ellipse leaves of friction x the smaller load." + RANGE,
    example="=CORNER.LOCKED_AXLE_RADIUS_TO_SLIDE(650, 1250, 1080, 1.1, 12, 0.7)",
    check=10048.3595221,
)
def locked_axle_radius_to_slide(
    load_inner, load_outer, track, friction, slip_stiffness, lateral_acceleration
):  # fmt: skip
    hold(
        locked.most_drive(load_inner, load_outer, friction) > 0.0,
        "load_inner and load_outer: neither is above 0; a load on one wheel at least was expected",
    )
    left = friction_left(friction, lateral_acceleration)
    return locked.radius_to_slide(load_inner, load_outer, track, left, slip_stiffness)


@formula(
    name="LOCKED_AXLE_FRONT_FORCE",
    group=GROUP,
    arguments=(MOMENT, WHEELBASE),
    unit="force",
    positive="it points to the inside of the turn",
    help="Lateral force that both front tyres give besides, to balance a yaw moment against the "
    "turn; the rear ones give as much less.",
    source="Statics: moments about the rear axle.",
    example="=CORNER.LOCKED_AXLE_FRONT_FORCE(297000, 1600)",
    check=185.625,
)
def locked_axle_front_force(moment, wheelbase):
    return locked.front_force(moment, wheelbase)


@formula(
    name="LOCKED_AXLE_EXTRA_STEER",
    group=GROUP,
    arguments=(
        MOMENT,
        WHEELBASE,
        Argument(
            "cornering_stiffness", "number",
            "Lateral force of both front tyres for each degree of slip angle.",
            unit="force per degree", above=0.0,
        ),
        Argument(
            "cornering_stiffness_rear", "number",
            "The same of both rear tyres, whose slip angle shrinks; left out, or 0, that part of "
            "the steer is left out.",
            unit="force per degree", default=0.0,
        ),
    ),
    unit="degrees",
    positive="the wheels are turned further into the turn",
    help="Extra steer that a yaw moment against the turn asks for: what the front slip angle "
    "grows and, with the rear tyres given, what theirs shrinks.",
    source="Statics, moments about the rear axle and no change of the whole lateral force; "
    "cornering stiffness as in Gillespie 1992, steady-state cornering.",
    example="=CORNER.LOCKED_AXLE_EXTRA_STEER(297000, 1600, 300, 420)",
    check=1.06071428571,
)  # fmt: skip
def locked_axle_extra_steer(moment, wheelbase, cornering_stiffness, cornering_stiffness_rear):
    hold_not_negative(cornering_stiffness_rear, "cornering_stiffness_rear")
    return locked.extra_steer(moment, wheelbase, cornering_stiffness, cornering_stiffness_rear)
