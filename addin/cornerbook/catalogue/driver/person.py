"""Formulas for a person: lengths by stature, masses by sex, the whole in a posture."""

from ...cells.declare import Argument, formula
from ...cells.mend import Mend, hold
from ...cells.rows import Column
from ...geometry.driver import person
from ...geometry.vec import Vec
from ..car.masses import ABOUT, COORDINATE

GROUP = "Driver: the person"

LENGTH_OF = Argument(
    "length_of", "text", "Which length: head, neck, trunk, upper arm, forearm, hand, thigh, "
    "shank, foot, ankle height, eye, shoulder breadth or hip breadth.",
    choices=tuple(person.LENGTHS),
)  # fmt: skip
STATURE = Argument(
    "stature", "number", "Height of the person, standing, without shoes.", unit="length", above=0.0
)
SEGMENT = Argument(
    "segment", "text", f"Which segment: {', '.join(person.SEGMENTS)}.", choices=person.SEGMENTS
)
BODY_MASS = Argument(
    "body_mass", "number", "Mass of the person, as dressed for the car.", unit="mass", above=0.0
)
SEX = Argument(
    "sex", "text", "Of which people's table: woman or man.", choices=person.SEXES
)  # fmt: skip
GYRATION_AXIS = Argument(
    "gyration_axis", "text", "About which axis: sagittal, transverse or longitudinal.",
    choices=person.AXES,
)  # fmt: skip
FIGURE = Argument(
    "figure", "rows",
    "Rows of a figure's points in this order, those of the left side: top of head, base of neck, "
    "shoulder, elbow, grip, hip, knee, ankle, heel, toe; a name, then x, y, z.",
    named=True,
    columns=(
        Column("x", "length", needed=True),
        Column("y", "length", needed=True),
        Column("z", "length", needed=True),
    ),
)  # fmt: skip

DRILLIS = "Drillis and Contini (1966), as in Winter's Biomechanics and Motor Control."
DE_LEVA = (
    "de Leva (1996), table 4: after Zatsiorsky and Seluyanov; its numbers as the public repository "
    "BMClab/BMC states them, data/BSP_ZdeLeva.txt."
)


def points_of(figure):
    """A `Vec` for each point of a figure; raises `Mend` where rows are missing."""
    names = person.FIGURE
    if len(figure) < len(names):
        raise Mend(
            f"figure: {len(figure)} rows given, {len(names)} were expected: {', '.join(names)}"
        )
    points = []
    for name, row in zip(names, figure):  # noqa: B905 (Python 3.8; there may be rows below)
        hold(
            row.given,
            f"figure: the row for the {name} is empty; these were expected, in this order: "
            f"{', '.join(names)}",
        )
        points.append(Vec(*row.numbers))
    return points


@formula(
    name="PERSON_LENGTH",
    group=GROUP,
    arguments=(LENGTH_OF, STATURE),
    unit="length",
    positive="it has a value",
    help="A length of a person by stature: neck is from the hip joints to the base of the neck, "
    "head and eye from there to the top and to the eyes, trunk from hip to shoulder joint.",
    source=f"{DRILLIS} Base of the neck: {DE_LEVA}",
    example='=CORNER.PERSON_LENGTH("thigh", 1760)',
    check=431.2,
)
def person_length(length_of, stature):
    return person.length(length_of, stature)


@formula(
    name="PERSON_MASS",
    group=GROUP,
    arguments=(SEGMENT, BODY_MASS, SEX),
    unit="mass",
    positive="it has a value",
    help="Mass of a segment of a person, of one where there are two; head, trunk and both of all "
    "others make up the person.",
    source=DE_LEVA,
    example='=CORNER.PERSON_MASS("thigh", 78, "man")',
    check=11.0448,
)
def person_mass(segment, body_mass, sex):
    return body_mass * person.mass_share(segment, sex)


@formula(
    name="PERSON_CENTRE",
    group=GROUP,
    arguments=(SEGMENT, SEX),
    unit="share",
    positive="it has a value",
    help="Where a segment's centre of mass is, from its upper end, of the foot from the heel, in "
    "shares of its length.",
    source=DE_LEVA,
    example='=CORNER.PERSON_CENTRE("thigh", "man")',
    check=0.4095,
)
def person_centre(segment, sex):
    return person.centre_share(segment, sex)


@formula(
    name="PERSON_GYRATION",
    group=GROUP,
    arguments=(SEGMENT, GYRATION_AXIS, SEX),
    unit="share",
    positive="it has a value",
    help="Radius of gyration of a segment about an axis through its centre of mass, in shares of "
    "its length.",
    source=DE_LEVA,
    example='=CORNER.PERSON_GYRATION("trunk", "transverse", "man")',
    check=0.306,
)
def person_gyration(segment, gyration_axis, sex):
    return person.gyration_share(segment, gyration_axis, sex)


@formula(
    name="FIGURE_CENTRE",
    group=GROUP,
    arguments=(COORDINATE, FIGURE, BODY_MASS, SEX),
    unit="length",
    positive="it lies forward of the front axle line or above the ground; y is 0",
    help="A coordinate of the centre of mass of a person in a posture, alike on both sides.",
    source=f"First moments of the segments; {DE_LEVA}",
    example='=CORNER.FIGURE_CENTRE("z", SomeFigure, 78, "man")',
    check=388.5451675,
)
def figure_centre(coordinate, figure, body_mass, sex):
    at = person.centre(points_of(figure), body_mass, sex)
    return tuple(at)[COORDINATE.choices.index(coordinate)]


@formula(
    name="FIGURE_INERTIA",
    group=GROUP,
    arguments=(ABOUT, FIGURE, BODY_MASS, SEX),
    unit="mass x length squared",
    positive="it has a value",
    help="Roll, pitch or yaw inertia of a person in a posture about the own centre of mass.",
    source=f"The segments' own inertias turned into their places, and Steiner's relation; "
    f"{DE_LEVA}",
    example='=CORNER.FIGURE_INERTIA("yaw", SomeFigure, 78, "man")',
    check=6361407.939,
)
def figure_inertia(about, figure, body_mass, sex):
    all_three = person.inertia(points_of(figure), body_mass, sex)
    return tuple(all_three)[ABOUT.choices.index(about)]
