"""Formulas for what the steering tells of grip: where it stops growing heavier, how light it gets.

Both front wheels are lumped into one; trails are in any one unit of length.
"""

from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative
from ...geometry.car import feel
from .tyre import GONE_AT, GUESS, GUESSES, RESIDUAL, hold_gone_at, shape_of

GROUP = "Feel"

MECHANICAL = Argument(
    "mechanical_trail", "number", "Mechanical trail of the front wheels, as TRAIL gives it.",
    unit="length",
)  # fmt: skip
PNEUMATIC = Argument(
    "pneumatic_trail_at_zero", "number",
    "Pneumatic trail at no slip: " + GUESS + ", such as a sixth of the contact patch's length.",
    unit="length",
)  # fmt: skip
FRONT = (MECHANICAL, PNEUMATIC, RESIDUAL, GONE_AT)
MOMENT = (
    "Moment about the steering axes as lateral force x (mechanical + pneumatic trail), loads held "
    "still, the force a sine of an arctangent (Pacejka, Tire and Vehicle Dynamics, from memory)"
)


def _pneumatic_share(mechanical_trail, pneumatic_trail_at_zero):
    """The pneumatic share of the trail at no slip, the trails held."""
    hold_not_negative(pneumatic_trail_at_zero, PNEUMATIC.name)
    hold(
        mechanical_trail + pneumatic_trail_at_zero > 0.0,
        "mechanical_trail and pneumatic_trail_at_zero together are %s, more than 0 was expected: "
        "the tyres' force does not turn the wheels back",
        mechanical_trail + pneumatic_trail_at_zero,
    )
    return feel.pneumatic_share(mechanical_trail, pneumatic_trail_at_zero)


@formula(
    name="FEEL_WARNING",
    group=GROUP,
    arguments=FRONT,
    unit="percent",
    positive="the steering stops growing heavier before the front tyres' peak",
    help="How early the steering stops growing heavier: the share of the front tyres' peak force "
    "that is then still to come.",
    source=MOMENT + "; its first highest place below the peak" + GUESSES,
    example="=CORNER.FEEL_WARNING(18, 22, 0.8, 0.8)",
    check=14.6531899728,
)
def feel_warning(mechanical_trail, pneumatic_trail_at_zero, residual, gone_at):
    lost = _pneumatic_share(mechanical_trail, pneumatic_trail_at_zero)
    hold_gone_at(gone_at)
    return feel.warning(shape_of(residual), lost, gone_at)


@formula(
    name="FEEL_LIGHTENING",
    group=GROUP,
    arguments=FRONT,
    unit="percent",
    positive="the rim force has fallen; above 100 the steering pulls the other way",
    help="How much lighter the steering is at the front tyres' peak than at its heaviest before.",
    source=MOMENT + "; its value at the peak against its highest one up to there" + GUESSES,
    example="=CORNER.FEEL_LIGHTENING(18, 22, 0.8, 0.8)",
    check=24.7444890838,
)
def feel_lightening(mechanical_trail, pneumatic_trail_at_zero, residual, gone_at):
    lost = _pneumatic_share(mechanical_trail, pneumatic_trail_at_zero)
    hold_gone_at(gone_at)
    return feel.lightening(shape_of(residual), lost, gone_at)


@formula(
    name="MECHANICAL_SHARE",
    group=GROUP,
    arguments=(MECHANICAL, PNEUMATIC),
    unit="percent",
    positive="the mechanical trail is",
    help="Share of the steering moment near no slip that the mechanical trail gives, the part "
    "that tells nothing of grip.",
    source="Statics: one lateral force at two arms that add up, mechanical and pneumatic trail. "
    "The pneumatic trail is " + GUESS + ".",
    example="=CORNER.MECHANICAL_SHARE(18, 22)",
    check=45.0,
)
def mechanical_share(mechanical_trail, pneumatic_trail_at_zero):
    return 100.0 * (1.0 - _pneumatic_share(mechanical_trail, pneumatic_trail_at_zero))
