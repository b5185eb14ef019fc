"""Formulas for brakes: when an axle locks, the ideal share, the way to stop, the pedal.

Forces are in any one unit, lengths in any one; decelerations are in g. Axles are taken whole.
"""

from ...cells.arguments import WHEELBASE
from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative, shown
from ...geometry.car import brakes
from ...geometry.numbers import NAN, PI, cos, radians, where
from ..corner.movement import BRAKE_SHARE, CG_HEIGHT, hold_brake_share
from ..springing.springs import GRAVITY
from .turn import AXLE, FRONT_SHARE, WEIGHT

GROUP = "Brakes"

FRICTION = Argument(
    "friction", "number", "Most force along the road over load, of the tyres.",
    unit="ratio", above=0.0,
)  # fmt: skip
SLOPE = Argument(
    "slope", "number", "Slope of the road, uphill positive; 0 if left out.",
    unit="angle", default=0.0, above=-45.0, below=45.0,
)  # fmt: skip
LATERAL = Argument(
    "lateral_acceleration", "number", "Lateral acceleration in g while braking; 0 if left out.",
    unit="g", default=0.0, above=-10.0, below=10.0,
)  # fmt: skip
DECELERATION = Argument("deceleration", "number", "Deceleration in g.", unit="g", above=0.0)
PEDAL_RATIO = Argument(
    "pedal_ratio", "number", "Way of the foot over that of the master cylinder's push rods.",
    unit="ratio", above=0.0,
)  # fmt: skip
MASTER = Argument(
    "master_diameter", "number", "Bore of the master cylinder.", unit="length", above=0.0
)
BAR_SHARE = Argument(
    "bar_share", "number",
    "Share of the push rods' force that goes to this master cylinder, above 0 and at most 1; 1 if "
    "left out.",
    unit="share", default=1.0,
)  # fmt: skip
HYDRAULICS = (
    PEDAL_RATIO,
    MASTER,
    Argument(
        "slave_diameter", "number", "Bore of a piston at the wheel.", unit="length", above=0.0
    ),
    Argument(
        "pistons", "number",
        "How many pistons press on one side of the disc, or on one shoe of a drum.",
        unit="count", above=0.0,
    ),
    Argument(
        "brake_factor", "number",
        "Friction force over the force of those pistons: twice the friction of the pads for a "
        "disc, the maker's figure for a drum.",
        unit="ratio", above=0.0,
    ),
    Argument(
        "brake_radius", "number", "Radius at which the pads or shoes rub.",
        unit="length", above=0.0,
    ),
    Argument(
        "wheel_radius", "number", "Radius of the wheel under load.", unit="length", above=0.0
    ),
    BAR_SHARE,
)  # fmt: skip
"""Arguments from the pedal to the ground."""

STATICS = (
    "Statics of a rigid car, its axles whole (Gillespie 1992, braking performance; from memory); "
    "in a turn the friction circle"
)


def _hold_bar(share):
    hold(
        where(share > 0.0, share <= 1.0, False),
        "bar_share: %s given, a share above 0 and at most 1 was expected",
        share,
    )


def _why_lock(axle, share, friction, height, front_share, wheelbase, slope, lateral):
    if abs(lateral) > friction * cos(radians(slope)):
        return (
            f"the tyres slide already at {shown(lateral)} g of lateral acceleration with a "
            f"friction of {shown(friction)}"
        )
    if share > friction * height / wheelbase:
        return "the rear wheels lift before the front ones lock"
    return (
        "the front axle never locks: with this front share of the braking its load grows faster "
        "than its braking"
    )


@formula(
    name="BRAKE_LOCK",
    group=GROUP,
    arguments=(
        AXLE, BRAKE_SHARE, FRICTION, CG_HEIGHT,
        FRONT_SHARE.but(help="Share of the weight on the front axle at rest, between 0 and 1."),
        WHEELBASE, SLOPE, LATERAL,
    ),
    unit="g",
    positive="the car slows down",
    help="Deceleration at which an axle locks its wheels; for a rear axle that hardly brakes, at "
    "which it lifts.",
    source=STATICS + ".",
    example='=CORNER.BRAKE_LOCK("rear", 0.65, 1.1, 320, 0.45, 1600)',
    check=1.06140350877,
    why=_why_lock,
    beyond="this axle slides in the turn already, never locks, or the rear wheels lift before",
)  # fmt: skip
def brake_lock(
    axle, brake_share, friction, cg_height, front_share, wheelbase, slope, lateral_acceleration
):  # fmt: skip
    hold_brake_share(brake_share)
    locks = brakes.front_locks if axle == "front" else brakes.rear_locks
    return locks(
        brake_share, friction, cg_height, front_share, wheelbase, radians(slope),
        lateral_acceleration,
    )  # fmt: skip


def _why_lifts(deceleration, height, front_share, wheelbase):
    return f"the rear wheels lift before {shown(deceleration)} g"


@formula(
    name="IDEAL_BRAKE_SHARE",
    group=GROUP,
    arguments=(DECELERATION, CG_HEIGHT, FRONT_SHARE, WHEELBASE),
    unit="share",
    positive="the front brakes too; with more than this the front locks first, with less the rear",
    help="Front share of the braking at which both axles use the same friction at a deceleration, "
    "on level road.",
    source=STATICS + ".",
    example="=CORNER.IDEAL_BRAKE_SHARE(0.8, 320, 0.45, 1600)",
    check=0.61,
    why=_why_lifts,
    beyond="the rear wheels lift before this deceleration",
)
def ideal_brake_share(deceleration, cg_height, front_share, wheelbase):
    share = brakes.ideal_share(deceleration, cg_height, front_share, wheelbase)
    return where(share <= 1.0, share, NAN)


@formula(
    name="BRAKE_LOAD_TRANSFER",
    group=GROUP,
    arguments=(DECELERATION, WEIGHT.but(help="Weight of the car."), CG_HEIGHT, WHEELBASE),
    unit="force",
    positive="load moves to the front axle",
    help="Load that moves from the rear to the front axle under braking, on both wheels.",
    source=STATICS + ".",
    example="=CORNER.BRAKE_LOAD_TRANSFER(0.8, 2700, 320, 1600)",
    check=432.0,
)
def brake_load_transfer(deceleration, weight, cg_height, wheelbase):
    return brakes.load_transfer(deceleration, weight, cg_height, wheelbase)


@formula(
    name="STOPPING_DISTANCE",
    group=GROUP,
    arguments=(
        Argument(
            "speed", "number", "Speed at first: length a second.", unit="speed", above=0.0
        ),
        DECELERATION,
        GRAVITY,
        Argument(
            "delay", "number", "Seconds until the brakes bite; 0 if left out.",
            unit="time", default=0.0,
        ),
    ),
    unit="length",
    help="Way from a speed to rest at an even deceleration, with that of a delay before it.",
    source="Even deceleration: speed squared over twice the deceleration.",
    example="=CORNER.STOPPING_DISTANCE(20000, 0.8, 9806.65, 0.5)",
    check=35492.9053244,
)  # fmt: skip
def stopping_distance(speed, deceleration, gravity, delay):
    hold_not_negative(delay, "delay")
    return brakes.stopping_distance(speed, deceleration, gravity, delay)


@formula(
    name="LINE_PRESSURE",
    group=GROUP,
    arguments=(
        Argument("pedal_force", "number", "Force of the foot.", unit="force", above=0.0),
        PEDAL_RATIO, MASTER, BAR_SHARE,
    ),
    unit="force per length squared",
    help="Pressure in a brake line for a force of the foot.",
    source="Statics: lever, and force over the area of the bore.",
    example="=CORNER.LINE_PRESSURE(300, 5, 15.9, 0.5)",
    check=3.777262207,
)  # fmt: skip
def line_pressure(pedal_force, pedal_ratio, master_diameter, bar_share):
    _hold_bar(bar_share)
    area = 0.25 * PI * master_diameter * master_diameter
    return pedal_force * pedal_ratio * bar_share / area


def _ratio(ratio, master, slave, pistons, factor, radius, wheel, bar):
    _hold_bar(bar)
    return brakes.force_ratio(ratio, bar, master, slave, pistons, factor, radius, wheel)


@formula(
    name="BRAKE_FORCE",
    group=GROUP,
    arguments=(
        Argument("pedal_force", "number", "Force of the foot.", unit="force", above=0.0),
        *HYDRAULICS,
    ),
    unit="force",
    positive="the ground holds the car back",
    help="Force at the ground of one brake for a force of the foot, the wheel rolling.",
    source="Statics: lever, equal pressure, friction at the brake's radius over the wheel's.",
    example="=CORNER.BRAKE_FORCE(300, 5, 15.9, 31.8, 1, 0.8, 95, 262, 0.5)",
    check=870.229007634,
)  # fmt: skip
def brake_force(
    pedal_force, pedal_ratio, master_diameter, slave_diameter, pistons, brake_factor,
    brake_radius, wheel_radius, bar_share,
):  # fmt: skip
    return pedal_force * _ratio(
        pedal_ratio, master_diameter, slave_diameter, pistons, brake_factor, brake_radius,
        wheel_radius, bar_share,
    )  # fmt: skip


@formula(
    name="PEDAL_FORCE",
    group=GROUP,
    arguments=(
        Argument(
            "brake_force", "number", "Force wanted at the ground, of one brake.",
            unit="force", above=0.0,
        ),
        *HYDRAULICS,
    ),
    unit="force",
    help="Force of the foot for a force at the ground of one brake, such as that at which its "
    "wheel locks.",
    source="BRAKE_FORCE the other way round.",
    example="=CORNER.PEDAL_FORCE(900, 5, 15.9, 31.8, 1, 0.8, 95, 262, 0.5)",
    check=310.263157895,
)  # fmt: skip
def pedal_force(
    brake_force, pedal_ratio, master_diameter, slave_diameter, pistons, brake_factor,
    brake_radius, wheel_radius, bar_share,
):  # fmt: skip
    return brake_force / _ratio(
        pedal_ratio, master_diameter, slave_diameter, pistons, brake_factor, brake_radius,
        wheel_radius, bar_share,
    )  # fmt: skip
