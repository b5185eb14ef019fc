"""Formulas for dive, squat and lift: the body on both axles as load moves along the car."""

from ...cells.arguments import WHEELBASE
from ...cells.declare import Argument, formula
from ...cells.mend import hold_not_negative
from ...geometry.car import pitch

GROUP = "Dive and squat"

SINKS = "How far the body sinks over the %s axle, as AXLE_SINK gives it."


@formula(
    name="AXLE_SINK",
    group=GROUP,
    arguments=(
        Argument(
            "axle_load", "number",
            "Load that comes onto both wheels of the axle, as BRAKE_LOAD_TRANSFER gives it for "
            "the front axle in braking; negative where load goes.",
            unit="force",
        ),
        Argument(
            "anti", "number",
            "Percent of it that the links carry, as ANTI_DIVE and ANTI_LIFT give it; 0 if none.",
            unit="percent",
        ),
        Argument(
            "wheel_rate", "number",
            "Rate of one wheel on its spring, force per length; 0 for an axle bolted to the "
            "frame, which stands on its tyres alone.",
            unit="force per length",
        ),
        Argument(
            "tyre_rate", "number", "Vertical rate of one tyre: force per length.",
            unit="force per length", above=0.0,
        ),
    ),
    unit="length",
    positive="the body sinks; negative where it rises",
    help="How far the body sinks over an axle under load that comes onto it as the car brakes or "
    "speeds up: dive or squat, and lift where it is negative.",
    source="Statics: the springs carry what the links do not, the tyres all of it (anti-dive and "
    "anti-squat of Gillespie 1992, suspensions; Milliken & Milliken 1995, suspension geometry; "
    "Reimpell et al.; all from memory).",
    example="=CORNER.AXLE_SINK(430, 22, 14, 120)",
    check=13.7702380952,
)  # fmt: skip
def axle_sink(axle_load, anti, wheel_rate, tyre_rate):
    hold_not_negative(wheel_rate, "wheel_rate")
    return pitch.sink(axle_load, anti, wheel_rate, tyre_rate)


@formula(
    name="PITCH_ANGLE",
    group=GROUP,
    arguments=(
        Argument("sink_front", "number", SINKS % "front", unit="length"),
        Argument("sink_rear", "number", SINKS % "rear", unit="length"),
        WHEELBASE,
    ),
    unit="degrees",
    positive="the nose goes down",
    help="Pitch of the body by how far it sinks over each axle.",
    source="Plane geometry; pitch of ISO 8855:2011, positive about y.",
    example="=CORNER.PITCH_ANGLE(13.8, -1.8, 1600)",
    check=0.558616149552,
)  # fmt: skip
def pitch_angle(sink_front, sink_rear, wheelbase):
    return pitch.angle(sink_front, sink_rear, wheelbase)
