"""Formulas for plain numbers, before any pickup is drawn."""

from ..geometry import layout
from .arguments import WHEELBASE
from .declare import Argument, formula

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


@formula(
    name="TRAIL_FROM_CASTER",
    group=GROUP,
    arguments=(
        CASTER,
        RADIUS,
        Argument(
            "hub_offset", "number",
            "Level distance from the steering axis to the wheel centre, "
            "positive when the wheel centre is ahead; 0 if left out.",
            unit="length", default=0.0,
        ),
    ),
    unit="length",
    positive="the axis meets the ground ahead of the contact centre",
    help="Mechanical trail of an upright wheel from caster, radius and hub offset.",
    source="Side-view geometry; terms of ISO 8855 (castor offset at ground and at wheel centre).",
    example="=CORNER.TRAIL_FROM_CASTER(6, 262, 5)",
    check=22.53732,
)  # fmt: skip
def trail_from_caster(caster, radius, hub_offset):
    return layout.trail_from_caster(caster, radius, hub_offset)
