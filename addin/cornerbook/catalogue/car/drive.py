"""Formulas for the drive: pull of the motor at the ground, what the tyres and the road say.

Speeds are lengths a second, rotation is turns a minute; a torque is force times length, in the
same force and length as all else. Between the rows of a table straight lines are drawn.
"""

from ...cells.arguments import WHEELBASE
from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative, shown
from ...cells.rows import Column
from ...geometry.car import drive
from ...geometry.numbers import degrees, radians, where
from ..corner.movement import CG_HEIGHT
from ..springing.springs import GRAVITY
from .brakes import FRICTION, SLOPE
from .turn import FRONT_SHARE, WEIGHT

GROUP = "Drive"

TORQUES = Argument(
    "torques", "rows",
    "Rows of the motor: turns a minute, torque; before the first row the clutch slips at its "
    "speed, past the last the motor gives nothing.",
    columns=(
        Column("motor speed", "rotation", needed=True, least=0.0, rising=True),
        Column("torque", "moment", needed=True, least=0.0),
    ),
)  # fmt: skip
GEARS = Argument(
    "gears", "rows", "Rows of ratios, one a gear: turns of the motor for one of the final drive.",
    columns=(Column("ratio", "ratio", needed=True, above=0.0),),
)  # fmt: skip
PULLS = Argument(
    "pulls", "rows",
    "Rows of road speed and the force along the road that is left to speed the car up.",
    columns=(
        Column("speed", "speed", needed=True, least=0.0, rising=True),
        Column("spare force", "force", needed=True),
    ),
)  # fmt: skip
ROAD_SPEED = Argument(
    "road_speed", "number", "Speed of the car: length a second, 0 or more.", unit="speed"
)
SPEED = Argument("speed", "number", "Speed to reach: length a second.", unit="speed", above=0.0)
FINAL = Argument(
    "final_ratio", "number",
    "Ratio of the final drive: teeth of its driven wheel over those of its driving one.",
    unit="ratio", above=0.0,
)  # fmt: skip
WHEEL_RADIUS = Argument(
    "wheel_radius", "number", "Radius of a driven wheel under load.", unit="length", above=0.0
)
EFFICIENCY = Argument(
    "efficiency", "number",
    "Share of the motor's work that comes to the wheels, above 0 and at most 1; 1 if left out.",
    unit="share", default=1.0,
)  # fmt: skip
LOW = Argument("low_ratio", "number", "Ratio in the lowest gear.", unit="ratio", above=0.0)
HIGH = Argument("high_ratio", "number", "Ratio in the highest gear.", unit="ratio", above=0.0)
ENGAGES = Argument(
    "engages", "number", "Motor speed at which the clutch has closed: turns a minute.",
    unit="rotation", above=0.0,
)  # fmt: skip
SHIFTS = Argument(
    "shifts", "number", "Motor speed at which the ratio changes: turns a minute.",
    unit="rotation", above=0.0,
)  # fmt: skip
RANGE = (LOW, HIGH, ENGAGES, SHIFTS)
DRIVEN = Argument(
    "driven", "text", "Which wheels are driven: front, rear or both.",
    choices=("front", "rear", "both"),
)  # fmt: skip
ROLLING = Argument(
    "rolling", "number", "Rolling resistance over load; 0 if left out.", unit="ratio", default=0.0
)
GRIP = (
    DRIVEN, FRICTION, WEIGHT.but(help="Weight of the car."), CG_HEIGHT,
    FRONT_SHARE.but(help="Share of the weight on the front axle at rest, between 0 and 1."),
    WHEELBASE,
)  # fmt: skip
MASS_FACTOR = Argument(
    "mass_factor", "number",
    "How many times its mass the car seems to have for what turns in it, 1 or more; 1 if left out.",
    unit="ratio", default=1.0,
)  # fmt: skip

_DRIVEN = {"front": (1.0, 0.0), "rear": (0.0, 1.0), "both": (1.0, 1.0)}
LINES = "Straight lines between the rows"
WONG = "(Gillespie 1992, acceleration performance; Wong, Theory of Ground Vehicles; from memory)"


def _pairs(rows):
    return [(row.numbers[0], row.numbers[1], row.given) for row in rows]


def _gears(rows):
    return [(row.numbers[0], row.given) for row in rows]


def _hold_speed(speed):
    hold(speed >= 0.0, "road_speed: %s given, a speed not below 0 was expected", speed)


def _hold_efficiency(efficiency):
    hold(
        where(efficiency > 0.0, efficiency <= 1.0, False),
        "efficiency: %s given, a share above 0 and at most 1 was expected",
        efficiency,
    )


def _hold_rolling(rolling):
    hold(
        where(rolling >= 0.0, rolling < 1.0, False),
        "rolling: %s given, a ratio from 0 to below 1 was expected",
        rolling,
    )


def _hold_range(low, high, engages, shifts):
    hold(
        high <= low,
        "high_ratio: %s given, which is more than the low_ratio %s; the highest gear has the "
        "smaller ratio",
        high,
        low,
    )
    hold(
        engages <= shifts,
        "engages: %s given, which is more than shifts, %s; the clutch closes before the ratio "
        "changes",
        engages,
        shifts,
    )


@formula(
    name="DRIVE_FORCE",
    group=GROUP,
    arguments=(TORQUES, ROAD_SPEED, GEARS, FINAL, WHEEL_RADIUS, EFFICIENCY),
    unit="force",
    positive="the car is pushed forward",
    help="Force of the motor at the ground at a road speed, in the gear that pulls most.",
    source=LINES + "; torque times gearing over the wheel's radius " + WONG + ".",
    example="=CORNER.DRIVE_FORCE(SomeTorques, 9000, SomeGears, 3, 260, 0.92)",
    check=830.134497855,
)
def drive_force(torques, road_speed, gears, final_ratio, wheel_radius, efficiency):
    _hold_speed(road_speed)
    _hold_efficiency(efficiency)
    pull, _ = drive.best_gear(_pairs(torques), _gears(gears), road_speed, final_ratio, wheel_radius)
    return pull * efficiency / wheel_radius


@formula(
    name="DRIVE_MOTOR_SPEED",
    group=GROUP,
    arguments=(TORQUES, ROAD_SPEED, GEARS, FINAL, WHEEL_RADIUS),
    unit="turns a minute",
    positive="the motor turns",
    help="Motor speed at a road speed, in the gear that pulls most, the clutch closed.",
    source="Rolling without slip; the gear as DRIVE_FORCE has it.",
    example="=CORNER.DRIVE_MOTOR_SPEED(SomeTorques, 9000, SomeGears, 3, 260)",
    check=2776.64162256,
)
def drive_motor_speed(torques, road_speed, gears, final_ratio, wheel_radius):
    _hold_speed(road_speed)
    return drive.best_gear(_pairs(torques), _gears(gears), road_speed, final_ratio, wheel_radius)[1]


@formula(
    name="VARIABLE_DRIVE_FORCE",
    group=GROUP,
    arguments=(TORQUES, ROAD_SPEED, *RANGE, FINAL, WHEEL_RADIUS, EFFICIENCY),
    unit="force",
    positive="the car is pushed forward",
    help="Force of the motor at the ground at a road speed, through a drive that varies without "
    "steps.",
    source=LINES + "; the clutch slips to its closing speed, the low ratio holds to the speed of "
    "change, which is kept to the high ratio.",
    example="=CORNER.VARIABLE_DRIVE_FORCE(SomeTorques, 9000, 3, 0.8, 1500, 3200, 3, 260, 0.85)",
    check=806.194413049,
)
def variable_drive_force(
    torques, road_speed, low_ratio, high_ratio, engages, shifts, final_ratio, wheel_radius,
    efficiency,
):  # fmt: skip
    _hold_speed(road_speed)
    _hold_efficiency(efficiency)
    _hold_range(low_ratio, high_ratio, engages, shifts)
    used, turns = drive.variable(
        road_speed, low_ratio, high_ratio, engages, shifts, final_ratio, wheel_radius
    )
    return drive.along(_pairs(torques), turns) * used * final_ratio * efficiency / wheel_radius


@formula(
    name="VARIABLE_MOTOR_SPEED",
    group=GROUP,
    arguments=(ROAD_SPEED, *RANGE, FINAL, WHEEL_RADIUS),
    unit="turns a minute",
    positive="the motor turns",
    help="Motor speed at a road speed, of a drive that varies without steps.",
    source="Rolling without slip; the ratio as VARIABLE_DRIVE_FORCE has it.",
    example="=CORNER.VARIABLE_MOTOR_SPEED(9000, 3, 0.8, 1500, 3200, 3, 260)",
    check=2974.97316703,
)
def variable_motor_speed(
    road_speed, low_ratio, high_ratio, engages, shifts, final_ratio, wheel_radius
):  # fmt: skip
    _hold_speed(road_speed)
    _hold_range(low_ratio, high_ratio, engages, shifts)
    return drive.variable(
        road_speed, low_ratio, high_ratio, engages, shifts, final_ratio, wheel_radius
    )[1]


@formula(
    name="DRIVE_GRIP",
    group=GROUP,
    arguments=(*GRIP, SLOPE, ROLLING),
    unit="force",
    positive="the car is pushed forward",
    help="Most force that the driven wheels can put on the road, or that lifts the front axle.",
    source="Statics of a rigid car, its axles whole, the air's drag at the height of the centre "
    "of gravity " + WONG + ".",
    example='=CORNER.DRIVE_GRIP("rear", 1.1, 2700, 320, 0.45, 1600, 0, 0.02)',
    check=2079.0,
)
def drive_grip(
    driven, friction, weight, cg_height, front_share, wheelbase, slope, rolling
):  # fmt: skip
    _hold_rolling(rolling)
    return drive.traction(
        _DRIVEN[driven], friction, weight, cg_height, front_share, wheelbase, radians(slope),
        rolling,
    )  # fmt: skip


@formula(
    name="ROAD_LOAD",
    group=GROUP,
    arguments=(
        ROAD_SPEED, WEIGHT.but(help="Weight of the car."), ROLLING.but(default=None, help="Rolling "
        "resistance over load."),
        Argument(
            "drag", "number",
            "Force of the air over speed squared: half its density times drag coefficient times "
            "frontal area, 0 or more.",
            unit="force per speed squared",
        ),
        SLOPE,
    ),
    unit="force",
    positive="the road and the air hold the car back",
    help="Force that rolling, air and slope take at a speed.",
    source="Road load " + WONG + ".",
    example="=CORNER.ROAD_LOAD(15000, 2700, 0.02, 0.0000004)",
    check=144.0,
)  # fmt: skip
def road_load(road_speed, weight, rolling, drag, slope):
    _hold_speed(road_speed)
    _hold_rolling(rolling)
    hold_not_negative(drag, "drag")
    return drive.road_load(road_speed, weight, rolling, drag, radians(slope))


@formula(
    name="STEEPEST_START",
    group=GROUP,
    arguments=(
        Argument(
            "pull", "number", "Force of the motor at the ground at no speed.",
            unit="force", above=0.0,
        ),
        *GRIP, ROLLING,
    ),
    unit="degrees",
    positive="uphill",
    help="Steepest slope on which the car just starts: the least of what motor, tyres and a front "
    "axle that lifts allow.",
    source="Statics on the slope, the car at rest.",
    example='=CORNER.STEEPEST_START(1400, "rear", 1.1, 2700, 320, 0.45, 1600, 0.02)',
    check=30.0802196007,
)  # fmt: skip
def steepest_start(
    pull, driven, friction, weight, cg_height, front_share, wheelbase, rolling
):  # fmt: skip
    _hold_rolling(rolling)
    motor, tyres, lifts = drive.steepest(
        pull, _DRIVEN[driven], friction, weight, cg_height, front_share, wheelbase, rolling
    )
    return degrees(drive.smaller(drive.smaller(motor, tyres), lifts))


def _why_top(pulls):
    given = [row for row in pulls if row.given]
    if given[0].numbers[1] <= 0.0:
        return "pulls: nothing is left at the first row's speed, so the car does not get away"
    return (
        f"pulls: the car still speeds up at {shown(given[-1].numbers[0])}, the last row's speed; "
        "give rows of higher speeds"
    )


@formula(
    name="TOP_SPEED",
    group=GROUP,
    arguments=(PULLS,),
    unit="length per second",
    positive="forward",
    help="Speed at which nothing is left to speed the car up.",
    source=LINES + ": where they first cross 0.",
    example="=CORNER.TOP_SPEED(SomePulls)",
    check=21800.0,
    why=_why_top,
    beyond="pulls: within these rows the force that is left does not fall to nothing",
)
def top_speed(pulls):
    return drive.top_speed(_pairs(pulls))


def _why_time(pulls, speed, *more):
    if speed > drive.last(_pairs(pulls)):
        return f"pulls: the rows end before the speed {shown(speed)}; give rows of higher speeds"
    return f"the speed {shown(speed)} is not reached: nothing is left of the pull before it"


def _hold_factor(factor):
    hold(factor >= 1.0, "mass_factor: %s given, a number not below 1 was expected", factor)


_TO_SPEED = (PULLS, SPEED, WEIGHT.but(help="Weight of the car."), GRAVITY, MASS_FACTOR)
_UNREACHED = "the speed is not reached within these rows"


@formula(
    name="TIME_TO_SPEED",
    group=GROUP,
    arguments=_TO_SPEED,
    unit="seconds",
    positive="after the first row's speed",
    help="Time from the first row's speed to a speed.",
    source=LINES + ", along which mass over force is summed in closed form.",
    example="=CORNER.TIME_TO_SPEED(SomePulls, 14000, 2700, 9806.65, 1.05)",
    check=4.39506020445,
    why=_why_time,
    beyond=_UNREACHED,
)
def time_to_speed(pulls, speed, weight, gravity, mass_factor):
    _hold_factor(mass_factor)
    return drive.time_and_way(_pairs(pulls), mass_factor * weight / gravity, speed)[0]


@formula(
    name="DISTANCE_TO_SPEED",
    group=GROUP,
    arguments=_TO_SPEED,
    unit="length",
    positive="forward",
    help="Way from the first row's speed to a speed.",
    source=LINES + ", along which mass times speed over force is summed in closed form.",
    example="=CORNER.DISTANCE_TO_SPEED(SomePulls, 14000, 2700, 9806.65, 1.05)",
    check=36944.7270514,
    why=_why_time,
    beyond=_UNREACHED,
)
def distance_to_speed(pulls, speed, weight, gravity, mass_factor):
    _hold_factor(mass_factor)
    return drive.time_and_way(_pairs(pulls), mass_factor * weight / gravity, speed)[1]
