"""Tables of a person against what is known of whole people, and a figure against rigid bodies."""

import numpy as np
import pytest
from cornerbook.geometry.driver import person
from cornerbook.geometry.vec import Vec

from tests.authorities import posture_by_scipy as by_scipy
from tests.authorities.persons_by_yeadon import PERSONS
from tests.authorities.segments_by_de_leva import SEGMENTS


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
