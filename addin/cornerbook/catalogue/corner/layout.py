"""Formulas for plain numbers, before any pickup is drawn."""

from ...cells.arguments import WHEELBASE
from ...cells.declare import Argument, formula
from ...geometry.corner import layout

GROUP = "First layout"

RADIUS = Argument(
    "radius", "number", "Loaded radius of the wheel, centre to ground.",
    unit="length", above=0.0,
)  # fmt: skip
CASTER = Argument(
    "caster", "number", "Caster angle, positive when the axis's top leans rearward.",
    unit="angle", above=-60.0, below=60.0,
)  # fmt: skip
INCLINATION = Argument(
    "inclination", "number",
    "Kingpin inclination, positive when the axis's top leans inward.",
    unit="angle", above=-60.0, below=60.0,
)  # fmt: skip
AHEAD = Argument(
    "hub_ahead", "number",
    "Level distance from the steering axis to the wheel centre, "
    "positive when the wheel centre is ahead; 0 if left out.",
    unit="length", default=0.0,
)  # fmt: skip
OUTBOARD = Argument(
    "hub_outboard", "number",
    "Level distance from the steering axis to the wheel centre, "
    "positive when the wheel centre is outboard.",
    unit="length",
)  # fmt: skip
STEER = Argument(
    "steer", "number",
    "Steer angle of a left-hand wheel, positive to the left; "
    "for the right-hand wheel change its sign.",
    unit="angle", above=-100.0, below=100.0,
)  # fmt: skip
CAMBER = Argument(
    "camber", "number",
    "Camber straight ahead, positive when the top leans away from the car; 0 if left out.",
    unit="angle", default=0.0, above=-45.0, below=45.0,
)  # fmt: skip
TRACK = Argument(
    "track", "number", "Distance between the contact centres of the front wheels.",
    unit="length", above=0.0,
)  # fmt: skip
INNER = Argument(
    "inner", "number", "Angle of the inner wheel.", unit="angle", above=-90.0, below=90.0,
)  # fmt: skip


NO_TURN = "no turn about this steering axis brings the wheel to that steer angle"


def _why_turned(*_):
    return NO_TURN


@formula(
    name="TRAIL_FROM_CASTER",
    group=GROUP,
    arguments=(CASTER, RADIUS, AHEAD, CAMBER),
    unit="length",
    positive="the axis meets the ground ahead of the contact centre",
    help="Mechanical trail of a wheel straight ahead from caster, radius, hub offset and camber.",
    source="Side-view geometry; castor offset at ground and at wheel centre of ISO 8855:2011.",
    example="=CORNER.TRAIL_FROM_CASTER(6, 262, 5, -2)",
    check=22.5205346546,
)
def trail_from_caster(caster, radius, hub_ahead, camber):
    return layout.trail_from_caster(caster, radius, hub_ahead, camber)


@formula(
    name="SCRUB_FROM_INCLINATION",
    group=GROUP,
    arguments=(INCLINATION, RADIUS, OUTBOARD, CAMBER),
    unit="length",
    positive="the axis meets the ground inboard of the contact centre",
    help="Scrub radius of a wheel straight ahead from kingpin inclination, radius, hub offset and "
    "camber.",
    source="Front-view geometry; kingpin offset at ground and at wheel centre of ISO 8855:2011.",
    example="=CORNER.SCRUB_FROM_INCLINATION(9, 262, 60, -2)",
    check=27.6722234537,
)
def scrub_from_inclination(inclination, radius, hub_outboard, camber):
    return layout.scrub_from_inclination(inclination, radius, hub_outboard, camber)


@formula(
    name="OUTER_FROM_INNER",
    group=GROUP,
    arguments=(INNER, TRACK, WHEELBASE),
    unit="degrees",
    positive="in the direction of the inner angle",
    help="Ideal angle of the outer wheel, both wheels square to one turn centre on the "
    "rear axle line.",
    source="Ackermann relation cot(outer) - cot(inner) = track / wheelbase "
    "(Gillespie 1992, steering systems).",
    example="=CORNER.OUTER_FROM_INNER(30, 1120, 1580)",
    check=22.2780789831,
)
def outer_from_inner(inner, track, wheelbase):
    return layout.ideal_outer(inner, track, wheelbase)


@formula(
    name="CAMBER_AT_STEER",
    group=GROUP,
    arguments=(STEER, CASTER, INCLINATION, CAMBER),
    unit="degrees",
    positive="the top of the wheel leans away from the car",
    help="Camber of a wheel turned about its steering axis, the body held still.",
    source="Exact rotation about the axis (Rodrigues' formula); camber of ISO 8855:2011.",
    example="=CORNER.CAMBER_AT_STEER(20, 6, 9, -1)",
    check=1.60835822485,
    why=_why_turned,
    beyond=NO_TURN,
)
def camber_at_steer(steer, caster, inclination, camber):
    return layout.TurnedWheel(steer, caster, inclination, camber).camber()


@formula(
    name="RISE_AT_STEER",
    group=GROUP,
    arguments=(STEER, CASTER, INCLINATION, CAMBER.but(default=None), RADIUS, OUTBOARD, AHEAD),
    unit="length",
    positive="the wheel rises against the body, which lets the body down",
    help="Rise of the contact centre of a wheel turned about its steering axis.",
    source="Exact rotation about the axis (Rodrigues' formula) of a rigid thin disc.",
    example="=CORNER.RISE_AT_STEER(20, 6, 9, -1, 262, 60, 5)",
    check=-2.42696601801,
    why=_why_turned,
    beyond=NO_TURN,
)
def rise_at_steer(steer, caster, inclination, camber, radius, hub_outboard, hub_ahead):
    turned = layout.TurnedWheel(steer, caster, inclination, camber)
    return turned.rise(radius, hub_outboard, hub_ahead)
