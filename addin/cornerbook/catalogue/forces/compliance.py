"""Formulas for what gives: toe, camber and the steering axis under a load, by compliance."""

from ...cells.arguments import CORNER
from ...cells.block import key_of
from ...cells.declare import Argument, formula
from ...cells.mend import Mend, hold
from ...cells.rows import Column
from ...geometry.forces import compliance
from ...geometry.forces.loads import Wrench, load_on_upright
from ...geometry.springing.actuation import MOUNTS
from ...geometry.vec import Vec
from ..steering.moments import PNEUMATIC_TRAIL
from .loads import LOADED, NO_FORCE, arms_of, why_no_lever

GROUP = "What gives"

STIFFNESS = Argument(
    "stiffness", "rows",
    "Rows of a name and a stiffness, force per length, blank or 0 for rigid; in this order: "
    + ", ".join(compliance.PLACES) + ".",
    named=True, columns=(Column("stiffness", "force per length", least=0.0),), blank=True,
)  # fmt: skip

PART = Argument(
    "part", "text",
    "Which row's part of it; all together if left out.",
    default="all", choices=("all", *compliance.PLACES),
)  # fmt: skip


def _stiffness_of(rows):
    """The stiffness of each place; `Mend` for rows that are not those of the places."""
    if len(rows) != len(compliance.PLACES):
        raise Mend(
            f"stiffness: {len(rows)} rows given, {len(compliance.PLACES)} were expected: "
            + ", ".join(compliance.PLACES)
        )
    for number, row in enumerate(rows, 1):
        place = compliance.PLACES[number - 1]
        written = isinstance(row.label, str)
        same = key_of(row.label) == key_of(place) if written else row.label == place
        hold(same, f"stiffness: row {number} is named %s, where {place} was expected", row.label)
    return [row.numbers[0] for row in rows]


@formula(
    name="COMPLIANCE",
    group=GROUP,
    arguments=(
        CORNER,
        Argument(
            "quantity", "text",
            "Which angle: toe, camber, caster or inclination.", choices=compliance.ANGLES,
        ),
        STIFFNESS,
        *LOADED,
        PNEUMATIC_TRAIL,
        PART,
    ),
    unit="degrees",
    positive="the angle grows",
    help="By how much an angle changes under a load on the wheel as pickups, joints and rods give, "
    "the spring and the steering held.",
    source="Unit-load theorem of linear elastic structures (Maxwell and Mohr; from memory) on the "
    "forces of MEMBER_FORCE and JOINT_FORCE; arms, upright and rocker rigid.",
    example='=CORNER.COMPLIANCE(Example, "toe", SomeStiffness, -400, 650, 1100, 25, 10, "brake", '
    "15)",
    check=-0.0226019981125,
    why=lambda corner, quantity, stiffness, *load: why_no_lever(corner, *load[3:5]),
    beyond=NO_FORCE,
)  # fmt: skip
def compliance_of(
    corner, quantity, stiffness, longitudinal, lateral, vertical, travel, rack, acts,
    pneumatic_trail, part,
):  # fmt: skip
    stiffness = _stiffness_of(stiffness)
    corner.hold_linkage()
    actuation, pose = corner.actuation, corner.pose(travel, rack)
    load = load_on_upright(pose, acts, longitudinal, lateral, vertical)
    behind = Vec(0.0, 0.0, -(lateral * pneumatic_trail))
    load = Wrench(load.about, load.force, load.moment + behind)
    carrying = (
        arms_of(corner, pose), corner.block.word("rod mount", MOUNTS), actuation.places(pose),
    )  # fmt: skip

    def make(*_):
        return tuple(compliance.change_of(quantity, pose, load, stiffness, *carrying))

    # Each part of the change is a call of its own.
    numbers = (longitudinal, lateral, vertical, travel, rack, pneumatic_trail, *stiffness)
    parts = corner.once(("compliance", quantity, acts), numbers, make)
    return sum(parts) if part == "all" else parts[compliance.PLACES.index(part)]
