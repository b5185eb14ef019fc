"""Formulas for parts and what they weigh together: mass, centre, inertia, loads at rest.

Masses are in any one unit, lengths in any one; an inertia is mass times length squared.
"""

from ...cells.arguments import WHEELBASE
from ...cells.declare import Argument, formula
from ...cells.mend import shown
from ...cells.rows import Column
from ...geometry.car import masses
from ...geometry.numbers import NAN, where
from ...geometry.vec import Vec
from .turn import AXLE, FRONT_SHARE, SIDE, TRACK

GROUP = "Masses"

PARTS = Argument(
    "parts", "rows",
    "Rows of parts: name, mass, x, y, z of the centre and, if wanted, the size along x, y, z and "
    "the unsprung share (1 for a wheel, blank for what the springs carry).",
    named=True,
    columns=(
        Column("mass", "mass", needed=True, least=0.0),
        Column("x", "length", needed=True),
        Column("y", "length", needed=True),
        Column("z", "length", needed=True),
        Column("size along x", "length", least=0.0),
        Column("size along y", "length", least=0.0),
        Column("size along z", "length", least=0.0),
        Column("unsprung share", "share", least=0.0, most=1.0),
    ),
)  # fmt: skip
OF = Argument(
    "of", "text", "What of them: all, sprung or unsprung; all if left out.",
    default="all", choices=("all", "sprung", "unsprung"),
)  # fmt: skip
COORDINATE = Argument("coordinate", "text", "Which coordinate: x, y or z.", choices=("x", "y", "z"))
ABOUT = Argument(
    "about", "text", "Which inertia: roll, pitch or yaw.", choices=("roll", "pitch", "yaw")
)
MASS = Argument("mass", "number", "Mass of the car.", unit="mass", above=0.0)
YAW_INERTIA = Argument(
    "yaw_inertia", "number", "Yaw inertia of the car, as PARTS_INERTIA gives it.",
    unit="inertia", above=0.0,
)  # fmt: skip
WEIGHT = Argument("weight", "number", "Weight of the car.", unit="force", above=0.0)
CG_LATERAL = Argument(
    "cg_lateral", "number", "How far the centre of gravity lies to the left; 0 if left out.",
    unit="length", default=0.0,
)  # fmt: skip

_SHARES = {
    "all": lambda part: 1.0,
    "sprung": lambda part: 1.0 - part.unsprung,
    "unsprung": lambda part: part.unsprung,
}


def parts_of(rows, of):
    """The `Part`s of rows, each with that of its mass which is asked for."""
    found = []
    for row in rows:
        mass, x, y, z, long, wide, high, unsprung = row.numbers
        found.append(masses.Part(mass, Vec(x, y, z), Vec(long, wide, high), unsprung))
    return masses.shared(found, _SHARES[of])


_WEIGHTLESS = "parts: they weigh nothing, so they have no centre of gravity"


def _why_nothing(parts, *more):
    return _WEIGHTLESS


@formula(
    name="PARTS_MASS",
    group=GROUP,
    arguments=(PARTS, OF),
    unit="mass",
    help="Mass of all parts in a range of rows together.",
    source="Sum of the masses, or of their sprung or unsprung shares.",
    example="=CORNER.PARTS_MASS(SomeParts)",
    check=260.0,
)
def parts_mass(parts, of):
    return masses.total_mass(parts_of(parts, of))


@formula(
    name="CENTRE_OF_GRAVITY",
    group=GROUP,
    arguments=(PARTS, COORDINATE, OF),
    unit="length",
    positive="it lies forward of the front axle line, left of the middle, or above the ground",
    help="A coordinate of the centre of gravity of all parts in a range of rows.",
    source="Statics: first moments over the mass.",
    example='=CORNER.CENTRE_OF_GRAVITY(SomeParts, "x")',
    check=-978.461538462,
    why=_why_nothing,
    beyond=_WEIGHTLESS,
)
def centre_of_gravity(parts, coordinate, of):
    at = masses.centre_of_gravity(parts_of(parts, of))
    return tuple(at)[COORDINATE.choices.index(coordinate)]


@formula(
    name="PARTS_INERTIA",
    group=GROUP,
    arguments=(PARTS, ABOUT, OF),
    unit="mass x length squared",
    help="Roll, pitch or yaw inertia of all parts in a range of rows, about their common centre "
    "of gravity.",
    source="Each part a solid box of even density, m (b2 + c2) / 12, and Steiner's relation; "
    "boxes stand along the car's axes.",
    example='=CORNER.PARTS_INERTIA(SomeParts, "yaw")',
    check=71079848.0769,
    why=_why_nothing,
    beyond=_WEIGHTLESS,
)
def parts_inertia(parts, about, of):
    about_each = masses.inertia(parts_of(parts, of))
    return tuple(about_each)[ABOUT.choices.index(about)]


@formula(
    name="PARTS_FRONT_SHARE",
    group=GROUP,
    arguments=(PARTS, WHEELBASE, OF),
    unit="share",
    positive="the front wheels carry that share; above 1, the centre lies ahead of them",
    help="Share of the weight of all parts in a range of rows on the front wheels, at rest.",
    source="Statics: the lever between the axle lines (Gillespie 1992, axle loads).",
    example="=CORNER.PARTS_FRONT_SHARE(SomeParts, 1600)",
    check=0.388461538462,
    why=_why_nothing,
    beyond=_WEIGHTLESS,
)
def parts_front_share(parts, wheelbase, of):
    return masses.front_share(masses.centre_of_gravity(parts_of(parts, of)).x, wheelbase)


@formula(
    name="UNSPRUNG_MASS",
    group=GROUP,
    arguments=(PARTS, AXLE, WHEELBASE),
    unit="mass",
    help="Unsprung mass at an axle: the unsprung shares of all parts nearer to it than to the "
    "other.",
    source="Sum of masses times unsprung shares.",
    example='=CORNER.UNSPRUNG_MASS(SomeParts, "rear", 1600)',
    check=40.0,
)
def unsprung_mass(parts, axle, wheelbase):
    chosen = masses.at_front if axle == "front" else masses.at_rear
    return masses.total_mass(chosen(parts_of(parts, "unsprung"), wheelbase))


def _why_lifted(axle, side, weight, front_share, track, cg_lateral):
    return (
        f"cg_lateral: {shown(cg_lateral)} given, which is not between the wheels of a track of "
        f"{shown(track)}: the car would tip at rest"
    )


@formula(
    name="REST_WHEEL_LOAD",
    group=GROUP,
    arguments=(
        AXLE, SIDE, WEIGHT,
        FRONT_SHARE.but(help="Share of the weight on the front axle, between 0 and 1."),
        TRACK.but(help="Track of this axle."), CG_LATERAL,
    ),
    unit="force",
    positive="the wheel presses on the road",
    help="Load on one wheel at rest on level ground, the springs set so that neither diagonal is "
    "favoured.",
    source="Statics, each axle carrying the moment of its own weight about the car's middle; four "
    "wheels alone leave the diagonals open.",
    example='=CORNER.REST_WHEEL_LOAD("front", "left", 2600, 0.45, 1100, 20)',
    check=606.272727273,
    why=_why_lifted,
    beyond="the centre of gravity lies outside the wheels: the car would tip at rest",
)  # fmt: skip
def rest_wheel_load(axle, side, weight, front_share, track, cg_lateral):
    axle_weight = weight * (front_share if axle == "front" else 1.0 - front_share)
    toward = cg_lateral if side == "left" else -cg_lateral
    load = masses.wheel_load(axle_weight, toward, track)
    other = masses.wheel_load(axle_weight, -toward, track)
    return where(load >= 0.0, where(other >= 0.0, load, NAN), NAN)


@formula(
    name="DYNAMIC_INDEX",
    group=GROUP,
    arguments=(YAW_INERTIA, MASS, FRONT_SHARE, WHEELBASE),
    unit="ratio",
    help="Dynamic index in yaw, k2 / (a b): below 1 the car turns in quicker than two masses on "
    "its axles would.",
    source="Radius of gyration squared over the distances of the axles from the centre of gravity "
    "(Gillespie 1992; from memory).",
    example="=CORNER.DYNAMIC_INDEX(92000000, 260, 0.45, 1600)",
    check=0.558469308469,
)
def dynamic_index(yaw_inertia, mass, front_share, wheelbase):
    return masses.dynamic_index(yaw_inertia, mass, front_share, wheelbase)
