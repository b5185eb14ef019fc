"""Formulas for the ride of the whole car: pitch and bounce of the body on both axles."""

from ...cells.arguments import WHEELBASE
from ...cells.declare import Argument, formula
from ...geometry.car import ride
from ..springing.springs import GRAVITY, GROUP
from .turn import FRONT_SHARE, WEIGHT

RATE_HELP = (
    "Ride rate of one %s wheel, spring and tyre in series: force per length of the body over the "
    "road; that of the tyre for an axle bolted to the frame."
)
BODY_ON_AXLES = (
    Argument(
        "mode", "text",
        "Which of both free motions: pitch, whose centre is nearer to the centre of gravity, or "
        "bounce.",
        choices=("bounce", "pitch"),
    ),
    WEIGHT.but(help="Weight (a force) of all that the springs carry."),
    FRONT_SHARE.but(help="Share of that weight on the front axle, between 0 and 1."),
    WHEELBASE,
    Argument(
        "pitch_radius", "number",
        "Radius of gyration of what the springs carry, in pitch: the root of its pitch inertia "
        "over its mass.",
        unit="length", above=0.0,
    ),
    Argument("rate_front", "number", RATE_HELP % "front", unit="force per length", above=0.0),
    Argument("rate_rear", "number", RATE_HELP % "rear", unit="force per length", above=0.0),
)  # fmt: skip

TWO_AXLES = "Two degrees of freedom, undamped (Gillespie 1992, ride; from memory)"


def _ride(weight, front_share, wheelbase, pitch_radius, rate_front, rate_rear):
    rates = 2.0 * rate_front, 2.0 * rate_rear
    return ride.Ride(rates, weight, front_share, wheelbase, pitch_radius)


def _why_level(mode, *body):
    return (
        "mode: this bounce is level: the body moves up and down alike at both axles, and its "
        "centre is nowhere"
    )


@formula(
    name="PITCH_BOUNCE_FREQUENCY",
    group=GROUP,
    arguments=(*BODY_ON_AXLES, GRAVITY),
    unit="hertz",
    help="Natural frequency of the body's pitch or bounce on the springs of both axles.",
    source=TWO_AXLES + ".",
    example='=CORNER.PITCH_BOUNCE_FREQUENCY("pitch", 2600, 0.4, 1600, 520, 12, 140, 9806.65)',
    check=8.30427341987,
)
def pitch_bounce_frequency(
    mode, weight, front_share, wheelbase, pitch_radius, rate_front, rate_rear, gravity
):  # fmt: skip
    found = _ride(weight, front_share, wheelbase, pitch_radius, rate_front, rate_rear)
    return found.frequency(mode == "pitch", gravity)


@formula(
    name="PITCH_BOUNCE_CENTRE",
    group=GROUP,
    arguments=BODY_ON_AXLES,
    unit="length",
    positive="it is ahead of the centre of gravity",
    help="Centre about which the body turns in its pitch or bounce: how far ahead of the centre "
    "of gravity of what the springs carry.",
    source=TWO_AXLES + ": the point that stays where it is.",
    example='=CORNER.PITCH_BOUNCE_CENTRE("bounce", 2600, 0.4, 1600, 520, 12, 140)',
    check=-723.441251318,
    why=_why_level,
    beyond="this bounce is level, and its centre is nowhere",
)
def pitch_bounce_centre(
    mode, weight, front_share, wheelbase, pitch_radius, rate_front, rate_rear
):  # fmt: skip
    found = _ride(weight, front_share, wheelbase, pitch_radius, rate_front, rate_rear)
    return found.centre(mode == "pitch")
