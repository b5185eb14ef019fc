"""Formulas for springs, dampers and bars as plain numbers.

Forces in any one unit and lengths in any one, the same throughout: rates come in force per
length, moments in force x length.
"""

from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative
from ...geometry.numbers import where
from ...geometry.springing import springs
from ..corner.layout import TRACK

GROUP = "Springs"

SPRING_RATE = Argument(
    "spring_rate", "number", "Force per length of the spring itself.",
    unit="force per length", above=0.0,
)  # fmt: skip
FREE_LENGTH = Argument(
    "free_length", "number", "Length at which the spring pushes nothing.",
    unit="length", above=0.0,
)  # fmt: skip
MOTION_RATIO = Argument(
    "motion_ratio", "number",
    "How much the spring, damper or bar end moves per unit of wheel travel; "
    "a mean over the travel in question.",
    unit="ratio", above=0.0,
)  # fmt: skip
RATE = Argument(
    "rate", "number", "Force per length at the wheel: its wheel rate or ride rate.",
    unit="force per length", above=0.0,
)  # fmt: skip
LOAD = Argument(
    "load", "number", "The weight, as a force, that stands on it.", unit="force", above=0.0,
)  # fmt: skip
GRAVITY = Argument(
    "gravity", "number",
    "Acceleration of gravity in the sheet's lengths per second squared: 9806.65 for mm, "
    "386.0886 for inches.",
    unit="acceleration", above=0.0,
)  # fmt: skip
PRELOAD_FORCE = Argument(
    "preload_force", "number",
    "Force of the spring with the damper at its longest; 0 where the seat just touches.",
    unit="force",
)  # fmt: skip
OPEN_LENGTH = Argument(
    "open_length", "number",
    "Length with the damper at its longest, measured between the same two points.",
    unit="length", above=0.0,
)  # fmt: skip
REST_LENGTH = Argument(
    "rest_length", "number", "Length with the car at rest, such as SPRING_LENGTH_AT_REST gives.",
    unit="length", above=0.0,
)  # fmt: skip

HOOKE = "Hooke's law; statics of springs."


@formula(
    name="RIDE_RATE",
    group=GROUP,
    arguments=(
        RATE.but(name="wheel_rate", help="Wheel rate: force per travel of the wheel."),
        RATE.but(name="tyre_rate", help="Force per length by which the tyre gives."),
    ),
    unit="force per length",
    help="Rate of a wheel's suspension on its tyre: force per movement of the body over the road.",
    source="Two springs in series (Milliken & Milliken 1995, ride and roll rates).",
    example="=CORNER.RIDE_RATE(14, 120)",
    check=12.5373134328,
)  # fmt: skip
def ride_rate(wheel_rate, tyre_rate):
    return springs.in_series(wheel_rate, tyre_rate)


@formula(
    name="RIDE_FREQUENCY",
    group=GROUP,
    arguments=(RATE, LOAD, GRAVITY),
    unit="hertz",
    help="Undamped natural frequency of the part of the car that stands on a rate.",
    source="Single mass on a spring (Gillespie 1992, ride, chapter on suspension isolation).",
    example="=CORNER.RIDE_FREQUENCY(12.5, 900, 9806.65)",
    check=1.85743755089,
)
def ride_frequency(rate, load, gravity):
    return springs.frequency(rate, load, gravity)


@formula(
    name="STATIC_DEFLECTION",
    group=GROUP,
    arguments=(RATE, LOAD),
    unit="length",
    help="How far a rate gives under a load.",
    source=HOOKE,
    example="=CORNER.STATIC_DEFLECTION(12.5, 900)",
    check=72.0,
)
def static_deflection(rate, load):
    return load / rate


def _why_damping(*numbers):
    return (
        "damper_rate: the body is damped so heavily that it does not swing by itself on wheel and "
        "tyre, and has no damping ratio of its own; less was expected"
    )


@formula(
    name="DAMPING_RATIO",
    group=GROUP,
    arguments=(
        Argument(
            "damper_rate", "number",
            "Force per speed of the damper itself, in the sheet's force and lengths per second.",
            unit="force per speed",
        ),
        MOTION_RATIO,
        RATE.but(
            name="wheel_rate",
            help="Wheel rate: force per travel of the wheel, its tyre left out.",
        ),
        LOAD,
        GRAVITY,
        Argument(
            "tyre_rate", "number",
            "Force per length by which the tyre gives; left out, or 0, it is rigid.",
            unit="force per length", default=0.0,
        ),
        Argument(
            "unsprung_weight", "number",
            "Weight of the wheel and what moves with it; needed with a tyre rate.",
            unit="force", default=0.0,
        ),
    ),
    unit="share of critical damping",
    help="Damping of the body's own mode as a share of critical damping, 1 being critical; a tyre "
    "in series with the damper lowers it.",
    source="Quarter car, two masses and two springs (Gillespie 1992, ride): minus the real part "
    "of the mode's eigenvalue over its size; damping at the wheel by virtual work.",
    example="=CORNER.DAMPING_RATIO(2.4, 0.65, 12.5, 900, 9806.65, 120, 110)",
    check=0.41991863997,
    why=_why_damping,
    beyond="the body is damped so heavily that it does not swing by itself",
)  # fmt: skip
def damping_ratio(
    damper_rate, motion_ratio, wheel_rate, load, gravity, tyre_rate, unsprung_weight
):  # fmt: skip
    hold_not_negative(damper_rate, "damper_rate")
    hold_not_negative(tyre_rate, "tyre_rate")
    hold(
        where(tyre_rate > 0.0, unsprung_weight > 0.0, True),
        "unsprung_weight: %s given, a weight above 0 was expected with a tyre rate",
        unsprung_weight,
    )
    damping = springs.damping_at_wheel(damper_rate, motion_ratio)
    mass = load / gravity
    # Without a tyre any good numbers stand in for it, and what comes of them is left.
    tyre = where(tyre_rate > 0.0, tyre_rate, wheel_rate)
    unsprung = where(tyre_rate > 0.0, unsprung_weight, load) / gravity
    on_tyre = springs.quarter_car_damping(damping, wheel_rate, mass, tyre, unsprung)
    return where(tyre_rate > 0.0, on_tyre, springs.damping_ratio(damping, wheel_rate, mass))


@formula(
    name="PRELOAD",
    group=GROUP,
    arguments=(
        FREE_LENGTH,
        Argument(
            "installed_length", "number",
            "Length of the spring between its seats with the damper at its longest.",
            unit="length", above=0.0,
        ),
        SPRING_RATE,
    ),
    unit="force",
    help="Force with which a spring presses on its seats with the damper at its longest.",
    source=HOOKE,
    example="=CORNER.PRELOAD(200, 194, 25)",
    check=150.0,
)  # fmt: skip
def preload(free_length, installed_length, spring_rate):
    hold(
        installed_length <= free_length,
        "installed_length: %s given, no more than the free length %s was expected: "
        "the spring would be loose",
        installed_length,
        free_length,
    )
    return spring_rate * springs.squeeze(free_length, installed_length)


@formula(
    name="SPRING_FREE_LENGTH",
    group=GROUP,
    arguments=(OPEN_LENGTH, PRELOAD_FORCE, SPRING_RATE),
    unit="length",
    help="Length between an installed spring's ends at which it would push nothing, as "
    "WHEEL_RATE and WHEEL_FORCE ask for it.",
    source=HOOKE,
    example="=CORNER.SPRING_FREE_LENGTH(250, 150, 25)",
    check=256.0,
)
def spring_free_length(open_length, preload_force, spring_rate):
    hold_not_negative(preload_force, "preload_force")
    return open_length + preload_force / spring_rate


@formula(
    name="SPRING_LOAD",
    group=GROUP,
    arguments=(LOAD.but(help="Force that the wheel carries."), MOTION_RATIO),
    unit="force",
    help="Force in the spring that holds a load at the wheel.",
    source="Virtual work: spring force x motion ratio = force at the wheel.",
    example="=CORNER.SPRING_LOAD(780, 0.65)",
    check=1200.0,
)
def spring_load(load, motion_ratio):
    return load / motion_ratio


@formula(
    name="SPRING_LENGTH_AT_REST",
    group=GROUP,
    arguments=(
        FREE_LENGTH.but(
            help="Length at which the spring pushes nothing, between the same two points as the "
            "result, such as SPRING_FREE_LENGTH gives."
        ),
        PRELOAD_FORCE,
        SPRING_RATE,
        Argument("spring_load", "number", "Force on the spring with the car at rest.",
                 unit="force"),
    ),
    unit="length",
    help="Length of the spring with the car at rest; a load below the preload leaves the "
    "damper at its longest.",
    source=HOOKE,
    example="=CORNER.SPRING_LENGTH_AT_REST(256, 150, 25, 1200)",
    check=208.0,
)  # fmt: skip
def spring_length_at_rest(free_length, preload_force, spring_rate, spring_load):
    hold_not_negative(preload_force, "preload_force")
    hold_not_negative(spring_load, "spring_load")
    length = springs.length_at_rest(free_length, preload_force, spring_rate, spring_load)
    hold(
        length > 0.0,
        "spring_load: %s given, more than a spring of this rate and length can carry",
        spring_load,
    )
    return length


@formula(
    name="DROOP_TRAVEL",
    group=GROUP,
    arguments=(REST_LENGTH, OPEN_LENGTH, MOTION_RATIO),
    unit="length",
    positive="the wheel can fall from rest",
    help="How far the wheel can fall from rest until the damper is at its longest.",
    source="The spring's way over its mean motion ratio.",
    example="=CORNER.DROOP_TRAVEL(208, 250, 0.6)",
    check=70.0,
)
def droop_travel(rest_length, open_length, motion_ratio):
    hold(
        rest_length <= open_length,
        "rest_length: %s given, no more than the open length %s was expected",
        rest_length,
        open_length,
    )
    return (open_length - rest_length) / motion_ratio


@formula(
    name="BUMP_TRAVEL",
    group=GROUP,
    arguments=(
        REST_LENGTH,
        Argument(
            "shortest_length", "number",
            "Length with the damper at its shortest, measured between the same two points.",
            unit="length", above=0.0,
        ),
        Argument(
            "solid_length", "number",
            "Length with the spring coil-bound, measured between the same two points.",
            unit="length", above=0.0,
        ),
        MOTION_RATIO,
    ),
    unit="length",
    positive="the wheel can rise from rest",
    help="How far the wheel can rise from rest until the damper is at its shortest or the "
    "spring is coil-bound, whichever comes first.",
    source="The spring's way over its mean motion ratio.",
    example="=CORNER.BUMP_TRAVEL(208, 165, 170.5, 0.75)",
    check=50.0,
)  # fmt: skip
def bump_travel(rest_length, shortest_length, solid_length, motion_ratio):
    hold(
        rest_length >= solid_length,
        "rest_length: %s given, which is shorter than the spring's solid length %s",
        rest_length,
        solid_length,
    )
    hold(
        rest_length >= shortest_length,
        "rest_length: %s given, which is shorter than the damper's shortest length %s",
        rest_length,
        shortest_length,
    )
    end = where(solid_length > shortest_length, solid_length, shortest_length)
    return (rest_length - end) / motion_ratio


@formula(
    name="RIDE_HEIGHT_CHANGE",
    group=GROUP,
    arguments=(
        Argument(
            "drawn_length", "number",
            "Length of the spring as drawn, such as SPRING_LENGTH gives.",
            unit="length", above=0.0,
        ),
        REST_LENGTH,
        MOTION_RATIO,
    ),
    unit="length",
    positive="the body stands higher than drawn",
    help="How much higher over its wheel the body stands at rest than drawn.",
    source="The spring's way over its mean motion ratio.",
    example="=CORNER.RIDE_HEIGHT_CHANGE(218.4, 208, 0.65)",
    check=-16.0,
)  # fmt: skip
def ride_height_change(drawn_length, rest_length, motion_ratio):
    return (rest_length - drawn_length) / motion_ratio


@formula(
    name="ROLL_STIFFNESS",
    group=GROUP,
    arguments=(
        RATE.but(help="Force per length of each of the two springs."),
        Argument("base", "number", "Distance between the two: a track for rates at the wheels, "
                 "a spring base for springs on an axle.", unit="length", above=0.0),
    ),
    unit="moment per degree",
    help="Roll stiffness of two equal springs a base apart.",
    source="Statics of a couple: rate x base squared / 2 for each radian (Gillespie 1992, "
    "suspensions, roll stiffness).",
    example="=CORNER.ROLL_STIFFNESS(14, 1120)",
    check=153253.870959,
)  # fmt: skip
def roll_stiffness(rate, base):
    return springs.roll_stiffness(rate, base)


@formula(
    name="ANTI_ROLL_RATE",
    group=GROUP,
    arguments=(
        RATE.but(
            name="bar_end_rate",
            help="Force per length at one end of the bar with the other end held.",
        ),
        MOTION_RATIO.but(help="How much a bar end moves per unit of wheel travel."),
        TRACK.but(help="Distance between the contact centres of the axle's wheels."),
    ),
    unit="moment per degree",
    help="Roll stiffness that an anti-roll bar adds to its axle.",
    source="Energy of the twisted bar: in roll its ends move apart by motion ratio x track x "
    "angle, so bar end rate x motion ratio squared x track squared for each radian.",
    example="=CORNER.ANTI_ROLL_RATE(12, 0.6, 1120)",
    check=94579.5317919,
)
def anti_roll_rate(bar_end_rate, motion_ratio, track):
    return springs.bar_roll_stiffness(bar_end_rate, motion_ratio, track)
