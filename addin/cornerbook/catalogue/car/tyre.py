"""Formulas for a tyre that nobody measured: lateral force over slip and load, pneumatic trail.

Forces are in any one unit, lengths in any one, angles in degrees. Every parameter is a guess
with a plausible range, and each text says so.
"""

from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative, shown
from ...geometry.car import tyre
from ...geometry.numbers import NAN, absolute, ratio, where

GROUP = "A guessed tyre"

GUESS = "a guess unless the tyre was measured"
RANGES = "; the ranges named are common practice, no source"

SLIP = Argument(
    "slip", "number",
    "Slip angle of the tyre, positive when it moves to the left of its heading, as SLIP_LEFT "
    "gives it.",
    unit="angle", above=-90.0, below=90.0,
)  # fmt: skip
LOAD = Argument(
    "load", "number", "Vertical load on the wheel; at 0 or below it is in the air.", unit="force"
)
FRICTION = Argument(
    "friction", "number",
    "Most lateral force over load, at the reference load: " + GUESS + ", such as 0.8 to 1.3.",
    unit="ratio", above=0.0,
)  # fmt: skip
PEAK_SLIP = Argument(
    "peak_slip", "number",
    "Slip angle at which the lateral force is highest: " + GUESS + ", such as 5 to 12.",
    unit="angle", above=0.0, below=90.0,
)  # fmt: skip
RESIDUAL = Argument(
    "residual", "number",
    "Share of the peak force left at very large slip, between 0 and 1: " + GUESS
    + ", such as 0.7 to 0.95.",
    unit="share",
)  # fmt: skip
REFERENCE_LOAD = Argument(
    "reference_load", "number",
    "Load at which friction is as given; needed only with a sensitivity.",
    unit="force", default=0.0,
)  # fmt: skip
SENSITIVITY = Argument(
    "sensitivity", "number",
    "Share of friction lost when the load is twice the reference, in a straight line; 0 if left "
    "out: " + GUESS + ", such as 0 to 0.2.",
    unit="share", default=0.0,
)  # fmt: skip
TRAIL_AT_ZERO = Argument(
    "trail_at_zero", "number",
    "Pneumatic trail at no slip: " + GUESS + ", such as a sixth of the contact patch's length.",
    unit="length",
)  # fmt: skip
GONE_AT = Argument(
    "gone_at", "number",
    "Share of the peak slip at which the pneumatic trail is gone, above 0 and at most 1: "
    + GUESS + ", such as 0.5 to 1.",
    unit="share",
)  # fmt: skip
GRIP = (FRICTION, PEAK_SLIP, RESIDUAL, REFERENCE_LOAD, SENSITIVITY)
"""Arguments that describe a tyre's lateral force."""

SHAPE_SOURCE = (
    "Sine of an arctangent, the shape of Pacejka, Tire and Vehicle Dynamics (from memory); "
    "friction that falls with load in a straight line"
)
GUESSES = ". No tyre was measured: the parameters are guesses" + RANGES + "."


def shape_of(residual):
    """The `Shape` of a tyre, its residual held."""
    hold(
        where(residual > 0.0, residual <= tyre.MOST_RESIDUAL, False),
        "residual: %s given, a share above 0 and at most %s was expected: without it this is a "
        "tyre whose peak is nowhere",
        residual,
        tyre.MOST_RESIDUAL,
    )
    return tyre.Shape(residual)


def hold_sensitivity(sensitivity):
    """From 0 to below 1: with more, a wheel that carries its whole axle would have no grip."""
    hold(
        where(sensitivity >= 0.0, sensitivity < 1.0, False),
        "sensitivity: %s given, a share from 0 to below 1 was expected: friction lost with load",
        sensitivity,
    )


def hold_gone_at(gone_at):
    hold(
        where(gone_at > 0.0, gone_at <= 1.0, False),
        "gone_at: %s given, a share above 0 and at most 1 was expected: the pneumatic trail dies "
        "before the peak",
        gone_at,
    )


def _peak(load, friction, reference_load, sensitivity):
    hold_sensitivity(sensitivity)
    hold(
        where(sensitivity > 0.0, reference_load > 0.0, True),
        "reference_load: %s given, a load above 0 was expected with a sensitivity",
        reference_load,
    )
    return tyre.peak_force(load, friction, reference_load, sensitivity)


@formula(
    name="TYRE_FORCE",
    group=GROUP,
    arguments=(SLIP, LOAD, *GRIP),
    unit="force",
    positive="it pushes to the left, as at a slip angle below 0",
    help="Lateral force of a guessed tyre at a slip angle, against its sign: it rises to a peak "
    "and then falls.",
    source="Signs of ISO 8855:2011. " + SHAPE_SOURCE + GUESSES,
    example="=CORNER.TYRE_FORCE(-4, 900, 1.3, 8, 0.8, 800, 0.1)",
    check=1039.86559492,
)
def tyre_force(slip, load, friction, peak_slip, residual, reference_load, sensitivity):
    shape = shape_of(residual)
    return _peak(load, friction, reference_load, sensitivity) * shape.force(-slip / peak_slip)


@formula(
    name="TYRE_CORNERING_STIFFNESS",
    group=GROUP,
    arguments=(LOAD, *GRIP),
    unit="force per degree",
    positive="the wheel carries load",
    help="Lateral force of a guessed tyre for each degree of slip angle, near no slip.",
    source="Slope at no slip of TYRE_FORCE. " + SHAPE_SOURCE + GUESSES,
    example="=CORNER.TYRE_CORNERING_STIFFNESS(900, 1.3, 8, 0.8, 800, 0.1)",
    check=414.562835964,
)
def tyre_cornering_stiffness(load, friction, peak_slip, residual, reference_load, sensitivity):
    shape = shape_of(residual)
    return _peak(load, friction, reference_load, sensitivity) * shape.stiffness() / peak_slip


@formula(
    name="TYRE_SLIP",
    group=GROUP,
    arguments=(
        Argument("force", "number", "Lateral force on the tyre.", unit="force"), LOAD, *GRIP,
    ),
    unit="degrees",
    positive="the force pushes to the right, below 0",
    help="Slip angle at which a guessed tyre gives a lateral force, below that of its peak and "
    "against the force's sign.",
    source="Inverse of TYRE_FORCE on its rising side. " + SHAPE_SOURCE + GUESSES,
    example="=CORNER.TYRE_SLIP(-600, 900, 1.3, 8, 0.8, 800, 0.1)",
    check=1.60279163031,
)  # fmt: skip
def tyre_slip(force, load, friction, peak_slip, residual, reference_load, sensitivity):
    shape = shape_of(residual)
    peak = _peak(load, friction, reference_load, sensitivity)
    hold(
        absolute(force) <= peak,
        "force: %s given, at most %s to either side was expected: the tyre slides",
        force,
        peak,
    )
    # In the air there is no force, and no slip to tell.
    return peak_slip * shape.slip(ratio(-force, peak, 0.0))


@formula(
    name="PNEUMATIC_TRAIL",
    group=GROUP,
    arguments=(SLIP, TRAIL_AT_ZERO, PEAK_SLIP, GONE_AT),
    unit="length",
    positive="the lateral force acts behind the contact centre; slip to either side is alike",
    help="Pneumatic trail of a guessed tyre: it falls in a straight line as the slip grows.",
    source="A straight line in place of the brush model with a parabolic pressure. There the side "
    "force near no slip grows in a straight line along the contact patch, so that it acts a sixth "
    "of the patch's length behind its middle; the trail falls first as a line gone at half the "
    "slip of full sliding, then more slowly, and is gone there: it lies between the lines for "
    "gone_at 0.5 and 1. Below 0 it is not followed" + GUESSES,
    example="=CORNER.PNEUMATIC_TRAIL(3, 22, 8, 0.8)",
    check=11.6875,
)
def pneumatic_trail(slip, trail_at_zero, peak_slip, gone_at):
    hold_not_negative(trail_at_zero, TRAIL_AT_ZERO.name)
    hold_gone_at(gone_at)
    return trail_at_zero * tyre.trail_left(slip / peak_slip, gone_at)


@formula(
    name="CAMBER_THRUST",
    group=GROUP,
    arguments=(
        Argument(
            "camber", "number",
            "Camber of the wheel to the road, as IN_ROLL gives it; positive when its top leans "
            "outboard.",
            unit="angle", above=-60.0, below=60.0,
        ),
        LOAD,
        Argument(
            "camber_coefficient", "number",
            "Lateral force over load for each degree of camber: " + GUESS + ", such as 0.005 to "
            "0.01 for a flat tread and 0.015 to 0.02 for a round one; 0 or more.",
            unit="ratio",
        ),
    ),
    unit="force",
    positive="it acts outboard, as on a wheel whose top leans outboard",
    help="Lateral force of a leaning tyre without any slip, toward the side to which it leans.",
    source="A straight line over camber and load (camber stiffness of Gillespie 1992, tires; of "
    "Milliken & Milliken 1995, tire behavior; from memory). A motorcycle's tyre that turns without "
    "slip needs the load times the tangent of its lean, 0.0175 for each degree" + GUESSES,
    example="=CORNER.CAMBER_THRUST(-2.5, 1200, 0.008)",
    check=-24.0,
)  # fmt: skip
def camber_thrust(camber, load, camber_coefficient):
    hold_not_negative(camber_coefficient, "camber_coefficient")
    return tyre.camber_thrust(camber, load, camber_coefficient)


def _why_lifted(slip, front_weight, transfer_per_g, *tyre_numbers):
    return (
        f"the inner front wheel lifts at {shown(0.5 * front_weight / transfer_per_g)} g, and "
        "this slip asks for more; less friction, slip "
        "or transfer_per_g was expected"
    )


@formula(
    name="FRONT_LATERAL_ACCELERATION",
    group=GROUP,
    arguments=(
        SLIP,
        Argument("front_weight", "number", "Weight on both front wheels, standing.", unit="force",
                 above=0.0),
        Argument("transfer_per_g", "number",
                 "Load that moves from the inner to the outer front wheel for each g, 0 or more.",
                 unit="force"),
        FRICTION.but(help="Most lateral force over load at half of front_weight: " + GUESS
                     + ", such as 0.8 to 1.3."),
        PEAK_SLIP,
        RESIDUAL,
        SENSITIVITY.but(help="Share of friction lost when a wheel's load is twice half of "
                        "front_weight, in a straight line; 0 if left out: " + GUESS + "."),
    ),
    unit="g",
    positive="it is to the left, as at a slip angle below 0",
    help="Lateral acceleration at which the front tyres, both at one slip angle, carry the "
    "front weight round.",
    source="Statics of the front axle, its load transfer as the lateral acceleration. "
    + SHAPE_SOURCE + GUESSES,
    example="=CORNER.FRONT_LATERAL_ACCELERATION(-4, 1800, 500, 1.3, 8, 0.8, 0.1)",
    check=1.12437779355,
    why=_why_lifted,
    beyond="the inner front wheel lifts before the tyres give this",
)  # fmt: skip
def front_lateral_acceleration(
    slip, front_weight, transfer_per_g, friction, peak_slip, residual, sensitivity
):
    hold_not_negative(transfer_per_g, "transfer_per_g")
    hold_sensitivity(sensitivity)
    share = shape_of(residual).force(-slip / peak_slip)
    transfer = transfer_per_g / (0.5 * front_weight)
    lateral = tyre.lateral_acceleration(share, friction, transfer, sensitivity)
    return where(tyre.stays_down(lateral, transfer), lateral, NAN)
