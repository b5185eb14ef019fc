"""Tables of a person against what is known of whole people, and a figure against rigid bodies."""

from pathlib import Path

import numpy as np
import pytest
import tomllib
from cornerbook.geometry.driver import person
from cornerbook.geometry.vec import Vec

from tests.authorities import army_survey_2012 as survey
from tests.authorities import lengths_by_winter as winter
from tests.authorities import posture_by_scipy as by_scipy
from tests.authorities.persons_by_yeadon import PERSONS
from tests.authorities.segments_by_de_leva import SEGMENTS

SCENARIOS = Path(__file__).parents[3] / "workbooks" / "scenarios"


def standing(stature, sex):
    """A figure that stands, arms hanging, feet forward."""
    at = {name: share * stature for name, share in by_scipy.HEIGHTS.items()}
    grip = at["wrist"] - 0.054 * stature
    rows = {
        "top of head": (0, 0, at["top"]), "base of neck": (0, 0, at["neck"]),
        "shoulder": (0, 0.129 * stature, at["shoulder"]),
        "elbow": (0, 0.129 * stature, at["elbow"]), "grip": (0, 0.129 * stature, grip),
        "hip": (0, 0.05 * stature, at["hip"]), "knee": (0, 0.05 * stature, at["knee"]),
        "ankle": (0, 0.05 * stature, at["ankle"]),
        "heel": (-0.038 * stature, 0.05 * stature, 0), "toe": (0.114 * stature, 0.05 * stature, 0),
    }  # fmt: skip
    assert tuple(rows) == person.FIGURE
    return [(name, *map(float, place)) for name, place in rows.items()]


def points(rows):
    return [Vec(*row[1:]) for row in rows]


@pytest.mark.parametrize("sex", person.SEXES)
def test_the_segments_make_up_the_person(sex):
    whole = sum(
        person.mass_share(name, sex) * (1 if name in ("head", "trunk") else 2)
        for name in person.SEGMENTS
    )
    assert whole == pytest.approx(1.0, abs=1e-12)
    # As printed the percentages make 100 to their rounding.
    printed = sum(m * (1 + (n in by_scipy.PAIRED)) for n, m in by_scipy.MASSES[sex].items())
    assert printed == pytest.approx(100.0, abs=0.05)


@pytest.mark.parametrize("sex", person.SEXES)
def test_every_number_is_that_of_the_published_table(sex):
    """The mass but for what rounding leaves of the whole; the rest to the last digit."""
    assert set(SEGMENTS[sex]) == set(person.SEGMENTS)
    for name, (mass, centre, *radii) in SEGMENTS[sex].items():
        assert person.mass_share(name, sex) == pytest.approx(mass, rel=1e-3)
        assert person.centre_share(name, sex) == centre
        assert [person.gyration_share(name, axis, sex) for axis in person.AXES] == radii


def test_every_length_is_that_of_the_published_figure():
    """As printed, or as a difference of printed heights; ours of the neck's base is another's."""
    at = winter.HEIGHTS
    expected = {
        **winter.LENGTHS, "ankle height": at["ankle"], "trunk": at["shoulder"] - at["hip"],
        "thigh": at["hip"] - at["knee"], "shank": at["knee"] - at["ankle"],
    }  # fmt: skip
    for name, share in expected.items():
        assert person.LENGTHS[name] == pytest.approx(share, abs=1e-9)
    # Head, neck and eye meet at the base of the neck.
    neck = at["hip"] + person.LENGTHS["neck"]
    assert neck + person.LENGTHS["head"] == pytest.approx(1.0)
    assert neck + person.LENGTHS["eye"] == pytest.approx(at["eye"])
    assert set(person.LENGTHS) == {*expected, "head", "neck", "eye"}


@pytest.mark.parametrize("sex", person.SEXES)
def test_lengths_are_near_those_of_the_survey(sex):
    """Within a hundredth of the stature between landmarks that are not quite the joints."""
    mean = {name: each / survey.MEANS[sex]["stature"] for name, each in survey.MEANS[sex].items()}
    neck = winter.HEIGHTS["hip"] + person.LENGTHS["neck"]
    assert neck == pytest.approx(mean["cervicale height"], abs=0.01)
    knee = person.LENGTHS["shank"] + person.LENGTHS["ankle height"]
    assert knee == pytest.approx(mean["lateral femoral epicondyle height"], abs=0.01)
    assert person.LENGTHS["ankle height"] == pytest.approx(
        mean["lateral malleolus height"], abs=0.01
    )
    assert person.LENGTHS["upper arm"] == pytest.approx(mean["acromion to radiale"], abs=0.01)
    assert person.LENGTHS["forearm"] == pytest.approx(mean["radiale to stylion"], abs=0.01)


@pytest.mark.parametrize("sex", person.SEXES)
def test_who_sits_is_broader_than_the_figure(sex):
    """Why breadths are better typed: the note of the sheet Driver says so."""
    mean = {name: each / survey.MEANS[sex]["stature"] for name, each in survey.MEANS[sex].items()}
    assert mean["bideltoid breadth"] > person.LENGTHS["shoulder breadth"] + 0.01
    assert mean["hip breadth, sitting"] > person.LENGTHS["hip breadth"] + 0.02


@pytest.mark.parametrize("scenario", ["lapwing", "lapwing-direct"])
def test_the_demonstrations_persons_are_the_surveys(scenario):
    """The 5th percentile of women and the 95th of men, as the sheet Driver says of them."""
    persons = tomllib.loads(
        (SCENARIOS / f"{scenario}.toml").read_text(encoding="utf-8")
    )["driver"]["persons"]  # fmt: skip
    for row, sex, end in ((persons[0], "woman", 0), (persons[1], "man", 2)):
        assert row[1] == sex
        table = {name: each[end] for name, each in survey.PERCENTILES[sex].items()}
        found = dict(zip(table, (row[2], row[3], row[11], row[12]), strict=True))
        assert found == table


def test_tables_agree_with_the_same_table_between_other_ends():
    """Radii between de Leva's other ends, in mm, are the same lengths as between ours."""
    for (sex, segment), (there, here, radii) in by_scipy.OTHER_ENDS.items():
        for axis, share in zip(person.AXES, radii, strict=True):
            ours = person.gyration_share(segment, axis, sex) * here
            assert ours == pytest.approx(share * there, abs=0.5)


@pytest.mark.parametrize(("sex", "low", "high"), [("woman", 0.54, 0.57), ("man", 0.55, 0.58)])
def test_a_standing_persons_centre_is_where_people_balance(sex, low, high):
    """55 % of the stature for women and 56 to 57 % for men, from memory of texts on posture."""
    at = person.centre(points(standing(1750.0, sex)), 75.0, sex)
    assert low < at.z / 1750.0 < high
    assert abs(at.x) < 10.0


def test_a_standing_mans_inertias_are_those_of_men_on_a_pendulum():
    """Some 13 kg m2 about both level axes and 1.3 about the upright one for 75 kg and 1755 mm:
    men measured on a pendulum, arms at the sides (Santschi and others 1963: 13.0, 11.6 and 1.3;
    from memory). A figure of rods is to be within a fifth of them."""
    found = person.inertia(points(standing(1755.0, "man")), 75.0, "man")
    for ours, measured in zip(found, (13.0, 11.6, 1.28), strict=True):
        assert ours / 1e6 == pytest.approx(measured, rel=0.2)


@pytest.mark.parametrize("sex", person.SEXES)
def test_a_figure_is_its_rigid_bodies(sex):
    draw = np.random.default_rng(3)
    for _ in range(10):
        rows = [(name, *(np.array(at) + draw.uniform(-150, 150, 3)).tolist())
                for name, *at in standing(1700.0, sex)]  # fmt: skip
        body = by_scipy.Body(rows, 70.0, sex)
        assert tuple(person.centre(points(rows), 70.0, sex)) == pytest.approx(body.centre, abs=1e-9)
        wanted = np.diag(body.inertia)
        assert tuple(person.inertia(points(rows), 70.0, sex)) == pytest.approx(wanted, rel=1e-9)


def test_a_box_of_the_same_inertias():
    sides, mass = (900.0, 450.0, 600.0), 80.0
    squares = [side * side for side in sides]
    about = [mass / 12.0 * (sum(squares) - square) for square in squares]
    for i, side in enumerate(sides):
        others = [about[j] for j in range(3) if j != i]
        assert person.box_side(about[i], *others, mass) == pytest.approx(side)


@pytest.mark.parametrize("sample", PERSONS, ids=[sample[0] for sample in PERSONS])
def test_persons_of_another_model(sample):
    """Within a fifth of each inertia and 40 mm of the centre: both are means of other people."""
    _, sex, mass, (*heights, shoulder, hip), centre, about = sample
    aside = [0.0, 0.0, *[shoulder] * 3, *[hip] * 5]
    figure = [Vec(0.0, y, z) for y, z in zip(aside, heights, strict=True)]
    assert person.centre(figure, mass, sex).z == pytest.approx(centre, abs=40.0)
    found = [each / 1e6 for each in person.inertia(figure, mass, sex)]
    assert found == pytest.approx(about, rel=0.2)
