"""Formulas for a car on four scales, its springs' perches, and the height of its weight."""

from ...cells.arguments import WHEELBASE
from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...geometry.numbers import PI
from ...geometry.set_up import scales
from ..car.turn import TRACK_FRONT, TRACK_REAR

GROUP = "Set-up: weights and heights"


def _load(name, words):
    return Argument(name, "number", words, unit="force", above=0.0)


LOADS = tuple(
    _load(wheel.replace(" ", "_"), f"Load on the {wheel} wheel, as its scale shows it.")
    for wheel in scales.WHEELS
)
WHEEL = Argument("wheel", "text", "At which wheel: front left and so on.", choices=scales.WHEELS)
PERCH = Argument(
    "perch", "text", "Of which wheel's spring the perch is turned.", choices=scales.WHEELS
)
PERCH_RISE = Argument(
    "perch_rise", "number",
    "By how much the perch would raise the body at its wheel if nothing else held it: the "
    "perch's way over the motion ratio.",
    unit="length",
)  # fmt: skip
RATE_FRONT = Argument(
    "rate_front", "number", "Ride rate of one front wheel: spring at the wheel and tyre in series.",
    unit="force per length", above=0.0,
)  # fmt: skip
RATE_REAR = RATE_FRONT.but(
    name="rate_rear",
    help="Ride rate of one rear wheel; of an axle without springs its tyre's rate.",
)
CAR = (RATE_FRONT, RATE_REAR, TRACK_FRONT, TRACK_REAR)
WEIGHT = _load("weight", "Weight of the whole car.")
LEVEL = _load("load_level", "Load on the axle that stays on the ground, the car level.")
LIFT = Argument(
    "lift", "number", "How high the blocks are under the wheels of the other axle.",
    unit="length", above=0.0,
)  # fmt: skip
RADIUS = Argument(
    "radius", "number", "Loaded radius of the wheels on the ground.", unit="length", above=0.0
)
RADIUS_LIFTED = Argument(
    "radius_lifted", "number",
    "Loaded radius of the wheels on the blocks; 0 or left out: as those on the ground.",
    unit="length", default=0.0,
)  # fmt: skip
FREE_RADIUS = Argument(
    "free_radius", "number", "Radius of the inflated tyre without load.", unit="length", above=0.0
)

SPRINGS = (
    "Statics of a rigid body on four springs, alike on both sides, bars unhooked: the one "
    "pattern of loads that holds neither weight nor moment."
)


@formula(
    name="CROSS_WEIGHT",
    group=GROUP,
    arguments=LOADS,
    unit="percent",
    positive="it has a value",
    help="Cross weight: share of the diagonal from the front right to the rear left wheel in all "
    "four loads.",
    source="Common practice, no source; some take the other diagonal, which is 100 less this.",
    example="=CORNER.CROSS_WEIGHT(620, 640, 760, 740)",
    check=50.7246376812,
)
def cross_weight(front_left, front_right, rear_left, rear_right):
    return scales.cross_weight(front_left, front_right, rear_left, rear_right)


@formula(
    name="PERCH_LOAD_CHANGE",
    group=GROUP,
    arguments=(WHEEL, PERCH, PERCH_RISE, *CAR),
    unit="force",
    positive="the wheel's load grows",
    help="What turning the perch of one spring does to the load of any wheel.",
    source=SPRINGS,
    example='=CORNER.PERCH_LOAD_CHANGE("front right", "front left", 2, 12, 140, 1120, 1080)',
    check=-10.9871891485,
)
def perch_load_change(wheel, perch, perch_rise, rate_front, rate_rear, track_front, track_rear):
    car = scales.Perches((rate_front, rate_rear), (track_front, track_rear))
    return car.load_change(wheel, perch, perch_rise)


@formula(
    name="PERCH_HEIGHT_CHANGE",
    group=GROUP,
    arguments=(WHEEL, PERCH, PERCH_RISE, *CAR),
    unit="length",
    positive="the body rises at that wheel",
    help="What turning the perch of one spring does to the height of the body at any wheel.",
    source=SPRINGS,
    example='=CORNER.PERCH_HEIGHT_CHANGE("front left", "front left", 2, 12, 140, 1120, 1080)',
    check=1.0844009043,
)
def perch_height_change(wheel, perch, perch_rise, rate_front, rate_rear, track_front, track_rear):
    car = scales.Perches((rate_front, rate_rear), (track_front, track_rear))
    return car.height_change(wheel, perch, perch_rise)


@formula(
    name="PERCH_RISE_FOR_CROSS",
    group=GROUP,
    arguments=(
        PERCH,
        Argument(
            "cross_change", "number", "Wanted change of cross weight, in percent of all weight.",
            unit="percent", above=-100.0, below=100.0,
        ),
        WEIGHT,
        *CAR,
    ),
    unit="length",
    positive="the perch pushes the body up",
    help="How far a perch must raise the body at its wheel, were it free, for a wanted change of "
    "cross weight; over the rise for one turn that is turns.",
    source=SPRINGS,
    example='=CORNER.PERCH_RISE_FOR_CROSS("front left", -0.5, 2760, 12, 140, 1120, 1080)',
    check=1.23317171717,
)  # fmt: skip
def perch_rise_for_cross(
    perch, cross_change, weight, rate_front, rate_rear, track_front, track_rear
):
    car = scales.Perches((rate_front, rate_rear), (track_front, track_rear))
    return car.rise_for_cross(perch, 0.01 * cross_change * weight)


def _lifted(wheelbase, lift, radius, radius_lifted):
    hold(
        radius_lifted >= 0.0,
        "radius_lifted: %s given, a radius, or 0 for that on the ground, was expected",
        radius_lifted,
    )
    other = scales.wheel_radius(radius_lifted, radius)
    hold(
        lift + (other - radius) < wheelbase,
        "lift: %s given, which would stand the car on end; less than the wheelbase was expected",
        lift,
    )
    return scales.Lifted(wheelbase, lift, radius, other)


def _hold_level(load_level, weight):
    hold(
        load_level < weight,
        "load_level: %s given, a load below the whole weight, %s, was expected",
        load_level,
        weight,
    )


_LIFTED = (
    "Moments of a rigid car, level and tilted, springs locked and wheels free to roll; for equal "
    "radii radius + wheelbase * (lifted - level) / (weight * tan(tilt)), as Reimpell's The "
    "Automotive Chassis and Milliken & Milliken have it (from memory)."
)


@formula(
    name="CG_HEIGHT_FROM_LIFT",
    group=GROUP,
    arguments=(
        WEIGHT, LEVEL,
        _load("load_lifted", "Load on the same axle with the other one lifted."),
        WHEELBASE, LIFT, RADIUS, RADIUS_LIFTED,
    ),
    unit="length",
    positive="above the ground",
    help="Height of the centre of gravity above ground from the load that one axle gains when "
    "the other is lifted on blocks, suspension locked, brakes and gears free.",
    source=_LIFTED,
    example="=CORNER.CG_HEIGHT_FROM_LIFT(2760, 1260, 1278, 1580, 400, 262)",
    check=301.376228579,
)  # fmt: skip
def cg_height_from_lift(
    weight, load_level, load_lifted, wheelbase, lift, radius, radius_lifted
):  # fmt: skip
    _hold_level(load_level, weight)
    height = _lifted(wheelbase, lift, radius, radius_lifted).height(weight, load_level, load_lifted)
    hold(
        height > 0.0,
        "load_lifted: %s given, which would put the weight below the ground; a lifted axle "
        "brings load onto the other one",
        load_lifted,
    )
    return height


@formula(
    name="LOAD_WHEN_LIFTED",
    group=GROUP,
    arguments=(
        WEIGHT, LEVEL,
        Argument("cg_height", "number", "Height of the car's centre of gravity above ground.",
                 unit="length", above=0.0),
        WHEELBASE, LIFT, RADIUS, RADIUS_LIFTED,
    ),
    unit="force",
    positive="it has a value",
    help="Load to expect on the axle that stays on the ground when the other is lifted on "
    "blocks, for a height of the centre of gravity.",
    source=_LIFTED,
    example="=CORNER.LOAD_WHEN_LIFTED(2760, 1260, 310, 1580, 400, 262)",
    check=1281.9421725,
)  # fmt: skip
def load_when_lifted(
    weight, load_level, cg_height, wheelbase, lift, radius, radius_lifted
):  # fmt: skip
    _hold_level(load_level, weight)
    return _lifted(wheelbase, lift, radius, radius_lifted).load(weight, load_level, cg_height)


@formula(
    name="LOADED_RADIUS",
    group=GROUP,
    arguments=(
        FREE_RADIUS,
        _load("load", "Load on the wheel."),
        Argument("tyre_rate", "number", "Vertical rate of the tyre.",
                 unit="force per length", above=0.0),
    ),
    unit="length",
    positive="it has a value",
    help="Loaded radius of a tyre: free radius less what the load presses it in.",
    source="A linear spring; static loaded radius of ISO 8855:2011.",
    example="=CORNER.LOADED_RADIUS(266.5, 618, 130)",
    check=261.746153846,
)  # fmt: skip
def loaded_radius(free_radius, load, tyre_rate):
    hold(
        load < free_radius * tyre_rate,
        "tyre_rate: %s given, at which the load would press the tyre flat",
        tyre_rate,
    )
    return free_radius - load / tyre_rate


@formula(
    name="TYRE_RATE_FROM_RADIUS",
    group=GROUP,
    arguments=(
        FREE_RADIUS,
        Argument("loaded_radius", "number", "Height of the hub above ground under load.",
                 unit="length", above=0.0),
        _load("load", "Load on the wheel when that was measured."),
    ),
    unit="force per length",
    positive="it has a value",
    help="Vertical rate of a tyre, from its radius without load and under one.",
    source="A linear spring between the two; a real tyre is a little softer at first.",
    example="=CORNER.TYRE_RATE_FROM_RADIUS(266.5, 262, 618)",
    check=137.333333333,
)  # fmt: skip
def tyre_rate_from_radius(free_radius, loaded_radius, load):
    hold(
        loaded_radius < free_radius,
        "loaded_radius: %s given, less than free_radius, %s, was expected",
        loaded_radius,
        free_radius,
    )
    return load / (free_radius - loaded_radius)


@formula(
    name="ROLLING_RADIUS",
    group=GROUP,
    arguments=(
        Argument("distance", "number", "Distance that the wheel has rolled.",
                 unit="length", above=0.0),
        Argument("revolutions", "number", "How many times it has turned meanwhile.",
                 unit="count", above=0.0),
    ),
    unit="length",
    positive="it has a value",
    help="Effective rolling radius, from a rollout on the floor; it is a little more than the "
    "loaded radius.",
    source="Circumference of a circle; effective rolling radius of ISO 8855:2011.",
    example="=CORNER.ROLLING_RADIUS(4950, 3)",
    check=262.605656102,
)  # fmt: skip
def rolling_radius(distance, revolutions):
    return distance / (2.0 * PI * revolutions)
