"""Formulas for understeer by its parts: slip of both axles, roll steer and roll camber in front."""

from ...cells.declare import Argument, formula
from ...cells.mend import hold_not_negative, shown
from ...geometry.car import tyre, understeer
from ...geometry.numbers import NAN, absolute, where
from .turn import LATERAL_ACCELERATION, TRACK_FRONT
from .tyre import (
    FRICTION,
    GUESS,
    GUESSES,
    PEAK_SLIP,
    RESIDUAL,
    SENSITIVITY,
    SHAPE_SOURCE,
    hold_sensitivity,
    shape_of,
)

GROUP = "Understeer"

STEADY = "steady-state cornering (Gillespie 1992)"


def _why_slip(lateral, axle_weight, transfer_per_g, *tyre_numbers):
    lifts = 0.5 * axle_weight / transfer_per_g if transfer_per_g else NAN
    if absolute(lateral) > lifts:
        return f"the inner wheel lifts at {shown(lifts)} g; the slip past that is not known"
    return (
        f"the tyres of this axle slide before {shown(lateral)} g; less lateral acceleration or "
        "more friction was expected"
    )


@formula(
    name="AXLE_SLIP",
    group=GROUP,
    arguments=(
        LATERAL_ACCELERATION,
        Argument("axle_weight", "number", "Weight on both wheels of the axle, standing.",
                 unit="force", above=0.0),
        Argument("transfer_per_g", "number",
                 "Load that moves from the inner to the outer wheel for each g, 0 or more.",
                 unit="force"),
        FRICTION.but(help="Most lateral force over load at half of axle_weight: " + GUESS
                     + ", such as 0.8 to 1.3."),
        PEAK_SLIP,
        RESIDUAL,
        SENSITIVITY.but(help="Share of friction lost when a wheel's load is twice half of "
                        "axle_weight, in a straight line; 0 if left out: " + GUESS + "."),
        Argument("extra_force", "number",
                 "Lateral force that both tyres give besides, to the left positive, such as what "
                 "balances a yaw moment; 0 if left out.",
                 unit="force", default=0.0),
    ),
    unit="degrees",
    positive="the force points to the right, as in a right turn",
    help="Slip angle of both tyres of an axle in a steady turn: front less rear, out of the turn, "
    "is what the driver must steer more.",
    source="Inverse of FRONT_LATERAL_ACCELERATION; " + STEADY + ". " + SHAPE_SOURCE + GUESSES,
    example="=CORNER.AXLE_SLIP(0.6, 1800, 500, 1.3, 8, 0.8, 0.1, 60)",
    check=-1.503185537,
    why=_why_slip,
    beyond="the tyres of this axle slide, or its inner wheel lifts, before this lateral "
    "acceleration",
)  # fmt: skip
def axle_slip(
    lateral_acceleration, axle_weight, transfer_per_g, friction, peak_slip, residual,
    sensitivity, extra_force,
):  # fmt: skip
    hold_not_negative(transfer_per_g, "transfer_per_g")
    hold_sensitivity(sensitivity)
    transfer = transfer_per_g / (0.5 * axle_weight)
    share = understeer.share_of_peak(
        lateral_acceleration, axle_weight, extra_force, friction, transfer, sensitivity
    )
    down = tyre.stays_down(lateral_acceleration, transfer)
    given = where(down, where(absolute(share) <= 1.0, share, NAN), NAN)
    return -(peak_slip * shape_of(residual).slip(given))


@formula(
    name="FRONT_ROLL_STEER",
    group=GROUP,
    arguments=(
        Argument("bump_steer", "number",
                 "Toe for each unit of travel, as BUMP_STEER gives it.",
                 unit="degrees per length"),
        TRACK_FRONT,
    ),
    unit="degrees per degree of roll",
    positive="the front wheels turn into the turn (roll oversteer)",
    help="Mean steer of both front wheels for each degree by which the body rolls out of the turn "
    "against them.",
    source="The wheels travel by half the track for each radian of roll; roll steer of an "
    "independent suspension, " + STEADY + ".",
    example="=CORNER.FRONT_ROLL_STEER(0.004, 1100)",
    check=0.0383972435439,
)  # fmt: skip
def front_roll_steer(bump_steer, track_front):
    return understeer.roll_steer(bump_steer, track_front)


@formula(
    name="ROLL_CAMBER",
    group=GROUP,
    arguments=(
        Argument("camber_gain", "number",
                 "Camber for each unit of travel, as CAMBER_GAIN gives it.",
                 unit="degrees per length"),
        TRACK_FRONT,
    ),
    unit="degrees per degree of roll",
    positive="the wheels lean out of the turn, with the body",
    help="How far both wheels lean out of the turn to the road for each degree by which the body "
    "rolls against them; 1 where they lean with the body, 0 where they stay upright.",
    source="The wheels travel by half the track for each radian of roll; roll camber, " + STEADY
    + ".",
    example="=CORNER.ROLL_CAMBER(-0.035, 1100)",
    check=0.664024118991,
)  # fmt: skip
def roll_camber(camber_gain, track_front):
    return understeer.lean(camber_gain, track_front)
