"""A solid rear axle on springs of its own: what the yellow rows of the sheet Cornering change."""

import io
from math import degrees, hypot, pi, sqrt

import pytest
from cornerbook.book.make.new import make

from tests.authorities.scales_by_statics import perches_turned
from tests.authorities.sprung_axle_by_energy import SprungAxle
from tests.book.make.test_scenario_keys import LAPWING
from tests.book.make.texts import changed, written
from tests.support.looking import looked_into
from tests.support.typed_over import TypedOver

# The car on springs, its frame rigid, so that both ends roll alike.
SPRINGS = {"spring_rate": 16, "spring_distance": 720, "roll_centre": 190}
CHAPTERS = ("cornering", "ride", "in-a-turn", "tight-turns", "understeer", "set-up")
"""Those that look at the rear axle, and what they need."""

TYPED = {
    "spring_rate": "RearSpringRate", "spring_distance": "RearSpringBase",
    "roll_centre": "RearCentreTyped", "bar_roll_stiffness": "RearBarTyped",
}  # fmt: skip
"""Names of the yellow cells, by the scenario's keys under `rear`."""

UNSPRUNG = 24


@pytest.fixture(scope="module")
def car(once):
    """A function of what stands in the yellow rows of the rear, and of its unsprung mass."""
    names = (*TYPED.values(), "MeasuredUnsprungRear", "FrameStiffness")
    typed = TypedOver(once.workbook(chapters=CHAPTERS), names)

    def with_rear(rear=None, unsprung=UNSPRUNG):
        given = rear or {}
        assert set(given) <= set(TYPED)
        return typed([*(given.get(key) for key in TYPED), unsprung, 0])

    return with_rear


def test_a_scenario_fills_the_yellow_rows(tmp_path, car):
    """What is made of its keys shows what the same numbers, typed, make the workbook show."""
    keys = SPRINGS | {"bar_roll_stiffness": 150e3}
    rows = "".join(f"{key} = {value}\n" for key, value in keys.items())
    text = changed(LAPWING, "torsional_stiffness = 1500000", "torsional_stiffness = 0")
    text = changed(text, "[rear]\n", "[rear]\n" + rows)
    text = changed(text, "[masses]\n", f"[masses]\nmeasured_unsprung_rear = {UNSPRUNG}\n")
    (path,) = written(tmp_path, lapwing=text)
    made = looked_into(io.BytesIO(make("car", path, chapters=list(CHAPTERS))), data_only=True)
    typed, compared = car(SPRINGS | {"bar_roll_stiffness": 150}), 0
    for sheet in made:
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell.value, float):
                    found = typed.at(sheet.title, cell.coordinate)
                    assert found == pytest.approx(cell.value, rel=1e-12), cell
                    compared += 1
    assert compared > 1000


def free_body(book, bar=0.0):
    """The same car as free bodies, from what is typed and the front's own results.

    bar: its moment for each degree, in N m, as its cell has it.
    """
    at = book.named
    axle = UNSPRUNG * 9.80665
    body = at("CarWeight") - axle
    rear = SPRINGS["spring_rate"] * SPRINGS["spring_distance"] ** 2 / 2 + 1000 * degrees(bar)
    return SprungAxle(
        body=body,
        height=(at("CarWeight") * at("CgHeight") - axle * at("RearRadius")) / body,
        share=at("CarWeight") * at("FrontShare") / body,
        front_centre=at("RollCentre"),
        front_stiffness=degrees(at("FrontAxleStiffness")),
        front_track=at("FrontTrack"),
        rear_centre=SPRINGS["roll_centre"],
        rear_springs=rear,
        rear_tyres=at("RearTyreRate") * at("RearTrack") ** 2 / 2,
        rear_track=at("RearTrack"),
        axle=axle,
        axle_height=at("RearRadius"),
    )


@pytest.mark.parametrize("bar", [0, 150])
def test_roll_and_loads_are_those_of_free_bodies(car, bar):
    book = car(SPRINGS | {"bar_roll_stiffness": bar})
    bodies, lateral = free_body(book, bar), book.named("LateralG")
    body, axle = bodies.angles(lateral)
    # What the closed form leaves out is this part of the axle's own moment, once for each angle
    # that it moves, and what the sines of the angles lack.
    near = 2 * bodies.left_out() + hypot(body, axle) ** 2
    assert near < 0.02
    assert book.named("RearRoll") == pytest.approx(degrees(body), rel=near)
    for end, transfer in zip(("Front", "Rear"), bodies.transfers(lateral), strict=True):
        right, left = book.named(f"{end}RightLoad"), book.named(f"{end}LeftLoad")
        assert (right - left) / 2 == pytest.approx(transfer, rel=near)
    loads = [book.named(f"{e}{s}Load") for e in ("Front", "Rear") for s in ("Left", "Right")]
    assert sum(loads) == pytest.approx(book.named("CarWeight"), rel=1e-12)
    slight = 1e-3
    body, axle = bodies.angles(slight)
    rolls = degrees(body - axle) / slight
    assert book.named("RollOnRear") == pytest.approx(rolls, rel=near)
    # The end that lifts first: its inner wheel has no load left then.
    lifts = [book.named(f"{end}Lift") for end in ("Front", "Rear")]
    first = lifts.index(min(lifts))
    share = (book.named("FrontShare"), 1 - book.named("FrontShare"))[first]
    lifted = bodies.transfers(lifts[first])[first]
    assert lifted == pytest.approx(book.named("CarWeight") * share / 2, rel=2 * near)


def test_stiff_springs_are_a_bolted_axle(car):
    """However high it is held, the whole rolls on its tyres then."""
    bolted = car(unsprung=None)
    stiff = car(SPRINGS | {"spring_rate": 1e9})
    for name in (
        "RollInTurn",
        "FrontLeftLoad",
        "RearLeftLoad",
        "RearLift",
        "TurnInner",
        "LessTrack",
    ):
        assert stiff.named(name) == pytest.approx(bolted.named(name), rel=1e-4), name
    assert stiff.named("RearRideRate") == pytest.approx(bolted.named("RearTyreRate"), rel=1e-6)


def test_ride_dive_and_perches_follow(car):
    book = car(SPRINGS)
    at = book.named
    rate = 1 / (1 / 16 + 1 / at("RearTyreRate"))
    assert at("RearRideRate") == pytest.approx(rate)
    carried = at("CarWeight") * (1 - at("FrontShare")) / 2 - 12 * 9.80665
    assert at("RearFrequency") == pytest.approx(sqrt(rate * 9806.65 / carried) / (2 * pi))
    assert at("RearDive") == pytest.approx(-at("DiveLoad") / 2 / rate)
    assert "not typed" in at("RearDamping")
    # Two springs against twist at the wheels, the roll of both ends being all that counts.
    tracks = at("FrontTrack"), at("RearTrack")
    bodies = free_body(book)
    twist = 2 / tracks[1] ** 2 / (1 / bodies.rear_springs + 1 / bodies.rear_tyres)
    assert at("RearWarpRate") == pytest.approx(twist)
    loads, _ = perches_turned([1.0, 0, 0, 0], (at("RideRate"), twist), tracks)
    (perch,) = book.beside("Set-up", "Front left perch")
    assert perch == pytest.approx(loads[0] * at("FrontRise") / 9.80665)


WRONG = {
    "half filled": ({"spring_rate": 16}, UNSPRUNG, "or none in all four rows"),
    "a bar alone": ({"bar_roll_stiffness": 9}, UNSPRUNG, "or none in all four rows"),
    "no unsprung mass": (SPRINGS, None, "unsprung mass, rear pair"),
    "more than it carries": (SPRINGS, 400, "less was expected"),
    "rate 0": (SPRINGS | {"spring_rate": 0}, UNSPRUNG, "a rate above 0"),
    "rate below 0": (SPRINGS | {"spring_rate": -16}, UNSPRUNG, "a rate above 0"),
    "distance 0": (SPRINGS | {"spring_distance": 0}, UNSPRUNG, "a length above 0"),
    "bar below 0": (SPRINGS | {"bar_roll_stiffness": -9}, UNSPRUNG, "0 or more was expected"),
    "in cm": (SPRINGS | {"spring_distance": 72}, UNSPRUNG, "at least a tenth"),
    "wider than the track": (SPRINGS | {"spring_distance": 7200}, UNSPRUNG, "rear track"),
    "roll centre in the sky": (SPRINGS | {"roll_centre": 1900}, UNSPRUNG, "centre of gravity"),
}


@pytest.mark.parametrize("which", WRONG)
def test_wrong_rows_are_said_wherever_the_rear_counts(car, which):
    rear, unsprung, words = WRONG[which]
    book = car(rear, unsprung)
    for name in (
        "RearSprung",
        "RollGradient",
        "RearLift",
        "RearLeftLoad",
        "RearFrequency",
        "RollOnRear",
        "UnderCamber",
        "RearWarpRate",
        "RearDive",
    ):
        said = book.named(name)
        assert isinstance(said, str) and words in said, (name, said)
    for label in ("Roll gradient", "First inner wheel lifts at"):
        row = book.beside("Cornering", label, "BCDEFGHI")
        assert not {"pass", "ok", "met"} & set(map(str, row)), row


def test_odd_rows_are_pointed_at(car):
    for odd in ({"spring_distance": 250}, {"roll_centre": 19}, {"roll_centre": -190}, {}):
        (said,) = car(SPRINGS | odd).beside("Cornering", "Rear axle, as typed")
        assert said.startswith("look here") if odd else said == "on springs of its own"
