"""Bodies of many boxes against a rigid-body engine, and relations between bodies."""

import numpy as np
import pytest
from cornerbook.geometry.car import masses
from cornerbook.geometry.vec import Vec

from tests.authorities.masses_by_mujoco import joined

BODIES = 40


def random_boxes(draw, count):
    return [
        (float(draw.uniform(0.5, 80)), draw.normal(0, 700, 3), draw.uniform(5, 900, 3))
        for _ in range(count)
    ]


def parts_of(boxes):
    return [
        masses.Part(m, Vec(*map(float, at)), Vec(*map(float, sides)), 0.0) for m, at, sides in boxes
    ]


@pytest.fixture(scope="module")
def bodies():
    draw = np.random.default_rng(91)
    return [random_boxes(draw, int(draw.integers(1, 30))) for _ in range(BODIES)]


def test_against_a_rigid_body_engine(bodies):
    for boxes in bodies:
        mass, centre, inertia = joined(boxes)
        ours = parts_of(boxes)
        assert masses.total_mass(ours) == pytest.approx(mass, rel=1e-12)
        assert list(masses.centre_of_gravity(ours)) == pytest.approx(list(centre), abs=1e-8)
        assert list(masses.inertia(ours)) == pytest.approx(list(np.diag(inertia)), rel=1e-9)


def test_a_body_cut_in_two_by_steiners_relation(bodies):
    """The inertia of a whole is that of both halves and of their masses apart."""
    for boxes in bodies:
        parts = parts_of(boxes)
        one, other = parts[::2], parts[1::2]
        if not other:
            continue
        m, n = masses.total_mass(one), masses.total_mass(other)
        away = masses.centre_of_gravity(one) - masses.centre_of_gravity(other)
        between = m * n / (m + n)
        yaw = (
            masses.inertia(one).z + masses.inertia(other).z
            + between * (away.x**2 + away.y**2)
        )  # fmt: skip
        assert masses.inertia(parts).z == pytest.approx(yaw, rel=1e-12)


def test_a_box_cut_into_small_ones():
    """Many points in a box have its inertia, the nearer the more there are."""
    whole = masses.Part(12.0, Vec(-300.0, 40.0, 200.0), Vec(800.0, 400.0, 300.0), 0.0)
    count = 60
    steps = (np.arange(count) + 0.5) / count - 0.5
    cloud = np.stack(np.meshgrid(steps * 800, steps * 400, steps * 300), -1).reshape(-1, 3)
    own = 12.0 * (cloud**2).mean(axis=0)
    wanted = [own[1] + own[2], own[2] + own[0], own[0] + own[1]]
    # Points in the middle of n slices miss the part 1 / n2.
    assert list(whole.own_inertia()) == pytest.approx(wanted, rel=1.01 / count**2)


def test_sprung_and_unsprung_make_the_whole(bodies):
    draw = np.random.default_rng(92)
    for boxes in bodies:
        parts = [masses.Part(p.mass, p.at, p.size, float(draw.uniform())) for p in parts_of(boxes)]
        sprung = masses.shared(parts, lambda part: 1.0 - part.unsprung)
        unsprung = masses.shared(parts, lambda part: part.unsprung)
        total = masses.total_mass(sprung) + masses.total_mass(unsprung)
        assert total == pytest.approx(masses.total_mass(parts))
        at = [
            masses.total_mass(find(unsprung, 1600.0)) for find in (masses.at_front, masses.at_rear)
        ]
        assert sum(at) == pytest.approx(masses.total_mass(unsprung))


def test_four_loads_hold_the_car():
    """Up and down, and about both level lines through the centre of gravity."""
    draw = np.random.default_rng(93)
    for _ in range(50):
        weight, share, wheelbase = draw.uniform(1000, 6000), draw.uniform(0.3, 0.7), 1600.0
        y, tracks = draw.uniform(-80, 80), draw.uniform(900, 1300, 2)
        x = (share - 1) * wheelbase
        loads, places = [], []
        for axle, (on, at) in enumerate(((share, 0.0), (1 - share, -wheelbase))):
            for side in (1, -1):
                loads.append(masses.wheel_load(weight * on, side * y, float(tracks[axle])))
                places.append((at - x, side * tracks[axle] / 2 - y))
        assert sum(loads) == pytest.approx(weight)
        for axis in (0, 1):
            moment = sum(f * place[axis] for f, place in zip(loads, places, strict=True))
            assert moment == pytest.approx(0.0, abs=1e-8 * weight * wheelbase)


def test_arrays_of_cars():
    moved = np.linspace(-400.0, 400.0, 5)
    parts = parts_of(random_boxes(np.random.default_rng(94), 6))

    def with_part(x):
        return [*parts, masses.Part(20.0, Vec(x, 0.0, 300.0), Vec(100.0, 100.0, 50.0), 0.0)]

    many = masses.inertia(with_part(moved))
    for i, x in enumerate(moved.tolist()):
        assert many.z[i] == pytest.approx(masses.inertia(with_part(x)).z, rel=1e-13)


def test_two_masses_on_the_axles():
    parts = [
        masses.Part(m, Vec(x, 0.0, 200.0), Vec(0.0, 0.0, 0.0), 0.0)
        for m, x in ((117.0, 0.0), (143.0, -1600.0))
    ]
    inertia, share = masses.inertia(parts).z, 117.0 / 260.0
    assert masses.dynamic_index(inertia, 260.0, share, 1600.0) == pytest.approx(1.0)
