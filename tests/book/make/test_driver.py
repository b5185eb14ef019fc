"""The sheets Driver and Body of the demonstration against SciPy's bones and rigid bodies."""

import numpy as np
import pytest

from tests.authorities import posture_by_scipy as by_scipy
from tests.book.make.test_own_template import named
from tests.support.looking import looked_into

RANGES = {"hip": (95.0, 120.0), "knee": (95.0, 135.0), "ankle": (90.0, 110.0)}


class Sheets:
    """The values of a workbook by names of cells, and of rows by what stands before them."""

    def __init__(self, path):
        self.book = looked_into(path, data_only=True)

    def __getattr__(self, name):
        return float(named(self.book, name))

    def rows(self, sheet, title, end=3):
        """{heading: values of the rows below it} of the table whose second heading is a title."""
        cells = list(self.book[sheet].iter_rows(values_only=True))
        head = next(i for i, row in enumerate(cells) if row[1] == title and row[0] is not None)
        return {
            name: [cells[head + 2 + i][place] for i in range(end)]
            for place, name in enumerate(cells[head]) if name
        }  # fmt: skip

    def persons(self):
        """The yellow rows of the three persons."""
        sheet, area = next(self.book.defined_names["Persons"].destinations)
        return [[c.value for c in row] for row in self.book[sheet][area.replace("$", "")]]


@pytest.fixture(scope="module")
def car(starter):
    return Sheets(starter)


@pytest.fixture(scope="module")
def tables(car):
    return {
        "lengths": car.rows("Driver points", "who"), "places": car.rows("Driver points", "head x"),
        "legs": _after(car, "hip"), "arms": _after(car, "far"), "room": _after(car, "eye x"),
    }  # fmt: skip


def _after(car, third):
    """The table of the persons whose third heading is a title."""
    cells = list(car.book["Driver points"].iter_rows(values_only=True))
    head = next(i for i, row in enumerate(cells) if row[2] == third)
    return {
        name: [cells[head + 2 + i][place] for i in range(3)]
        for place, name in enumerate(cells[head]) if name
    }  # fmt: skip


def leg_of(car, lengths, person, box, pressed=False):
    pedal = (car.PressedX, car.PressedZ) if pressed else (car.PedalX, car.PedalZ)
    bones = [lengths[name][person] for name in ("thigh", "shank", "shoe", "ankle height")]
    return (*bones, car.HipX, car.HipZ, car.HeelX + box, car.HeelZ, pedal[0] + box, pedal[1])


@pytest.mark.parametrize("person", range(3))
def test_a_persons_lengths_and_angles(car, tables, person):
    _, _, stature, _, box, *_ = car.persons()[person]
    lengths, legs, arms = tables["lengths"], tables["legs"], tables["arms"]
    assert lengths["thigh"][person] == pytest.approx(by_scipy.length("thigh", stature))
    assert lengths["elbow to grip"][person] == pytest.approx(0.2 * stature)
    for pressed, more in ((False, ""), (True, ", pressed")):
        leg = by_scipy.Leg(*leg_of(car, lengths, person, box, pressed))
        for joint in RANGES:
            wanted = leg.angle(joint, car.BackAngle)
            assert legs[joint + more][person] == pytest.approx(wanted, abs=1e-6)
    at = tables["places"]
    shoulder = [at[f"shoulder {axis}"][person] for axis in "xyz"]
    wheel = (car.SteeringX, car.SteeringY, car.SteeringZ)
    hand = by_scipy.rim_point(wheel, car.SteeringTilt, car.SteeringWheelRadius, car.HoldAngle)
    bones = lengths["upper arm"][person], lengths["elbow to grip"][person]
    arm = by_scipy.Arm(*bones, shoulder, hand)
    elbow = by_scipy.between(arm.shoulder - arm.elbow, arm.hand - arm.elbow)
    assert arms["elbow"][person] == pytest.approx(elbow, abs=1e-6)
    assert arms["upper arm, from upright"][person] == pytest.approx(
        arm.shoulder_angle(0.0), abs=1e-3
    )
    far = by_scipy.rim_distance(
        "most", shoulder, wheel, car.SteeringTilt, car.SteeringWheelRadius, car.HoldAngle,
        car.SteeringTurn,
    )  # fmt: skip
    assert arms["arm to spare"][person] == pytest.approx(sum(bones) - far, abs=1e-6)


@pytest.mark.parametrize("person", range(3))
def test_between_its_ends_the_pedal_box_suits_and_beyond_it_does_not(car, tables, person):
    lengths, legs = tables["lengths"], tables["legs"]

    def suits(box):
        return all(
            low - 1e-6 <= leg.angle(joint, car.BackAngle) <= high + 1e-6
            for leg in (by_scipy.Leg(*leg_of(car, lengths, person, box, p)) for p in (False, True))
            for joint, (low, high) in RANGES.items()
        )

    low, high = legs["box from"][person], legs["box to"][person]
    assert low < high
    assert all(suits(box) for box in np.linspace(low, high, 9))
    assert not suits(low - 0.05)
    assert not suits(high + 0.05)


def test_travel_of_the_pedal_box_and_who_is_in_the_car(car, tables):
    legs = tables["legs"]
    assert car.BoxFrom == max(legs["box from"])
    assert car.BoxTo == min(legs["box to"])
    seated = int(car.SeatedPerson) - 1
    _, sex, _, mass, *_ = car.persons()[seated]
    names = ("head", "neck", "shoulder", "elbow", "grip", "hip", "knee", "ankle", "heel", "toe")
    figure = [
        (name, *(tables["places"][f"{name} {axis}"][seated] for axis in "xyz")) for name in names
    ]
    body = by_scipy.Body(figure, mass, sex)
    assert (car.DriverX, car.DriverY, car.DriverZ) == pytest.approx(body.centre, abs=1e-6)
    about = np.diag(body.inertia)
    assert (car.DriverRoll, car.DriverPitch, car.DriverYaw) == pytest.approx(about, rel=1e-9)
    squares = np.square([car.DriverLong, car.DriverWide, car.DriverHigh])
    assert mass / 12.0 * (squares.sum() - squares) == pytest.approx(about, rel=1e-9)
    sheet, area = next(car.book.defined_names["Parts"].destinations)
    part = [cell.value for cell in car.book[sheet][area.replace("$", "")][0]]
    assert part[:5] == ["Driver", mass, car.DriverX, 0, car.DriverZ]


def test_the_persons_are_those_of_the_survey(car):
    """5th percentile of women and 95th of men of the 1988 survey of U.S. Army personnel, from
    memory: means 1629.4 and 1755.8 mm, deviations 63.6 and 66.8, as of normal distributions."""
    woman, man, _ = car.persons()
    assert woman[2] == pytest.approx(1629.4 - 1.645 * 63.6, abs=5.0)
    assert man[2] == pytest.approx(1755.8 + 1.645 * 66.8, abs=5.0)


def test_the_body_is_the_example_at_the_best_scale(car):
    rows = car.rows("Body", "dimension", 10)
    kept = [i for i, off in enumerate(rows["off"]) if off not in (None, "")]
    scaled, off = (np.array([rows[name][i] for i in kept], float) for name in ("scaled", "off"))
    example = scaled / car.BodyScale
    weight = np.where([rows["dimension"][i] == "Wheelbase" for i in kept], 2.0, 1.0)
    # At the least sum of squares what is off weighs nothing along the example.
    assert np.sum(weight * example * off) == pytest.approx(0.0, abs=1e-4)
    assert abs(car.BodyOff) == pytest.approx(np.max(np.abs(off)))
