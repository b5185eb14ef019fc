"""A solid rear axle on springs of its own: what the yellow rows of the sheet Cornering change."""

import io
from math import degrees, hypot, pi, sqrt

import pytest
from cornerbook.book.make.new import make

from tests.authorities.scales_by_statics import perches_turned
from tests.authorities.sprung_axle_by_energy import SprungAxle
from tests.book.make.test_own_template import named
from tests.book.make.test_scenario_keys import LAPWING
from tests.book.make.texts import changed, written
from tests.support.looking import looked_into

# The car on springs: each of the frame rigid, so that both ends roll alike.
SPRINGS = {"spring_rate": 16, "spring_distance": 720, "roll_centre": 190}
CHAPTERS = ["cornering", "ride", "in-a-turn", "tight-turns", "understeer", "set-up"]
"""Those that look at the rear axle, and what they need."""

UNSPRUNG = "measured_unsprung_rear = 24\n"
RIGID = changed(LAPWING, "torsional_stiffness = 1500000", "torsional_stiffness = 0")


def book_of(folder, rear=None, unsprung=UNSPRUNG, scenario=RIGID):
    rows = "".join(f"{key} = {value}\n" for key, value in (rear or {}).items())
    text = changed(
        changed(scenario, "[rear]\n", "[rear]\n" + rows), "[masses]\n", "[masses]\n" + unsprung
    )
    (path,) = written(folder, lapwing=text)
    return looked_into(io.BytesIO(make("car", path, chapters=CHAPTERS)), data_only=True)


def free_body(book, bar=0.0):
    """The same car as free bodies, from what is typed and the front's own results."""
    at = lambda name: named(book, name)  # noqa: E731
    axle = 24 * 9.80665
    body = at("CarWeight") - axle
    rear = SPRINGS["spring_rate"] * SPRINGS["spring_distance"] ** 2 / 2 + degrees(bar)
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


@pytest.mark.parametrize("bar", [0, 150e3])
def test_roll_and_loads_are_those_of_free_bodies(tmp_path, bar):
    book = book_of(tmp_path, SPRINGS | {"bar_roll_stiffness": bar})
    car, lateral = free_body(book, bar), named(book, "LateralG")
    body, axle = car.angles(lateral)
    # What the closed form leaves out is this part of the axle's own moment, once for each angle
    # that it moves, and what the sines of the angles lack.
    near = 2 * car.left_out() + hypot(body, axle) ** 2
    assert near < 0.02
    assert named(book, "RearRoll") == pytest.approx(degrees(body), rel=near)
    for end, transfer in zip(("Front", "Rear"), car.transfers(lateral), strict=True):
        right, left = named(book, f"{end}RightLoad"), named(book, f"{end}LeftLoad")
        assert (right - left) / 2 == pytest.approx(transfer, rel=near)
    loads = [named(book, f"{e}{s}Load") for e in ("Front", "Rear") for s in ("Left", "Right")]
    assert sum(loads) == pytest.approx(named(book, "CarWeight"), rel=1e-12)
    slight = 1e-3
    body, axle = car.angles(slight)
    rolls = degrees(body - axle) / slight
    assert named(book, "RollOnRear") == pytest.approx(rolls, rel=near)
    # The end that lifts first: its inner wheel has no load left then.
    lifts = [named(book, f"{end}Lift") for end in ("Front", "Rear")]
    first = lifts.index(min(lifts))
    share = (named(book, "FrontShare"), 1 - named(book, "FrontShare"))[first]
    lifted = car.transfers(lifts[first])[first]
    assert lifted == pytest.approx(named(book, "CarWeight") * share / 2, rel=2 * near)


def test_stiff_springs_are_a_bolted_axle(tmp_path):
    """However high it is held, the whole rolls on its tyres then."""
    bolted = book_of(tmp_path, unsprung="")
    stiff = book_of(tmp_path, SPRINGS | {"spring_rate": 1e9})
    for name in (
        "RollInTurn",
        "FrontLeftLoad",
        "RearLeftLoad",
        "RearLift",
        "TurnInner",
        "LessTrack",
    ):
        assert named(stiff, name) == pytest.approx(named(bolted, name), rel=1e-4), name
    assert named(stiff, "RearRideRate") == pytest.approx(named(bolted, "RearTyreRate"), rel=1e-6)


def test_ride_dive_and_perches_follow(tmp_path):
    book = book_of(tmp_path, SPRINGS)
    at = lambda name: named(book, name)  # noqa: E731
    rate = 1 / (1 / 16 + 1 / at("RearTyreRate"))
    assert at("RearRideRate") == pytest.approx(rate)
    carried = at("CarWeight") * (1 - at("FrontShare")) / 2 - 12 * 9.80665
    assert at("RearFrequency") == pytest.approx(sqrt(rate * 9806.65 / carried) / (2 * pi))
    assert at("RearDive") == pytest.approx(-at("DiveLoad") / 2 / rate)
    assert "not typed" in at("RearDamping")
    # Two springs against twist at the wheels, the roll of both ends being all that counts.
    tracks = at("FrontTrack"), at("RearTrack")
    car = free_body(book)
    twist = 2 / tracks[1] ** 2 / (1 / car.rear_springs + 1 / car.rear_tyres)
    assert at("RearWarpRate") == pytest.approx(twist)
    loads, _ = perches_turned([1.0, 0, 0, 0], (at("RideRate"), twist), tracks)
    sheet = book["Set-up"]
    label = "Front left perch"
    row = next(r for r in sheet.iter_rows(values_only=True) if r[0] == label)
    assert row[1] == pytest.approx(loads[0] * at("FrontRise") / 9.80665)


WRONG = {
    "half filled": ({"spring_rate": 16}, UNSPRUNG, "or none in all four rows"),
    "a bar alone": ({"bar_roll_stiffness": 9}, UNSPRUNG, "or none in all four rows"),
    "no unsprung mass": (SPRINGS, "", "unsprung mass, rear pair"),
    "more than it carries": (SPRINGS, "measured_unsprung_rear = 400\n", "less was expected"),
    "rate 0": (SPRINGS | {"spring_rate": 0}, UNSPRUNG, "a rate above 0"),
    "rate below 0": (SPRINGS | {"spring_rate": -16}, UNSPRUNG, "a rate above 0"),
    "distance 0": (SPRINGS | {"spring_distance": 0}, UNSPRUNG, "a length above 0"),
    "bar below 0": (SPRINGS | {"bar_roll_stiffness": -9}, UNSPRUNG, "0 or more was expected"),
    "in cm": (SPRINGS | {"spring_distance": 72}, UNSPRUNG, "at least a tenth"),
    "wider than the track": (SPRINGS | {"spring_distance": 7200}, UNSPRUNG, "rear track"),
    "roll centre in the sky": (SPRINGS | {"roll_centre": 1900}, UNSPRUNG, "centre of gravity"),
}


@pytest.mark.parametrize("which", WRONG)
def test_wrong_rows_are_said_wherever_the_rear_counts(tmp_path, which):
    rear, unsprung, words = WRONG[which]
    book = book_of(tmp_path, rear, unsprung)
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
        said = named(book, name)
        assert isinstance(said, str) and words in said, (name, said)
    for row in book["Cornering"].iter_rows(values_only=True):
        if row[0] in ("Roll gradient", "First inner wheel lifts at"):
            assert not {"pass", "ok", "met"} & set(row), row


def test_odd_rows_are_pointed_at(tmp_path):
    for odd in ({"spring_distance": 250}, {"roll_centre": 19}, {"roll_centre": -190}, {}):
        book = book_of(tmp_path, SPRINGS | odd)
        rows = book["Cornering"].iter_rows(values_only=True)
        said = next(row[1] for row in rows if row[0] == "Rear axle, as typed")
        assert said.startswith("look here") if odd else said == "on springs of its own"
