"""The rear solid axle, against velocities and finite movement of a rigid body, and statics."""

import numpy as np
import pytest
from cornerbook.geometry.car import rear
from cornerbook.geometry.vec import Vec
from scipy.optimize import root
from scipy.spatial.transform import Rotation

from tests.authorities import solid_axle_by_velocities


def random_links(seed, n):
    """(left link's axle end, its body end, roll centre height), in mm."""
    draw = np.random.default_rng(seed)
    axle_end = draw.uniform([-60, 250, 120], [60, 500, 320], (n, 3))
    body_end = axle_end + draw.uniform([250, -250, -80], [550, 120, 80], (n, 3))
    body_end[::2, 0] = axle_end[::2, 0] - 350.0  # half with leading links
    return axle_end, body_end, draw.uniform(80, 350, n)


def test_roll_steer_by_velocities():
    for axle_end, body_end, centre in zip(*random_links(931, 200), strict=True):
        ours = rear.roll_steer(Vec(*axle_end.tolist()), Vec(*body_end.tolist()), float(centre))
        theirs = solid_axle_by_velocities.yaw_per_roll(axle_end, body_end, centre)
        assert ours == pytest.approx(theirs, rel=1e-9, abs=1e-12)


def yaw_after(axle_end, body_end, centre, roll):
    """Yaw in radians of an axle that stays level on the road while the body rolls.

    The body turns about the line along the car at the roll centre's height; the axle slides
    fore and aft and turns until both links have their lengths again.
    """
    body = Rotation.from_euler("x", roll)
    middle = np.array([0.0, 0.0, centre])

    def misses(unknown):
        ahead, yaw = unknown
        found = []
        for side in (1.0, -1.0):
            flip = np.array([1.0, side, 1.0])
            end = Rotation.from_euler("z", yaw).apply(axle_end * flip)
            end[0] += ahead
            frame = body.apply(body_end * flip - middle) + middle
            length = np.linalg.norm(axle_end - body_end)
            found.append(np.linalg.norm(end - frame) - length)
        return found

    return root(misses, [0.0, 0.0], tol=1e-14).x[1]


def test_roll_steer_is_the_slope_of_finite_movement():
    for axle_end, body_end, centre in zip(*random_links(932, 50), strict=True):
        step = 1e-3
        yaws = [yaw_after(axle_end, body_end, centre, roll) for roll in (-step, step)]
        slope = (yaws[1] - yaws[0]) / (2.0 * step)
        ours = rear.roll_steer(Vec(*axle_end.tolist()), Vec(*body_end.tolist()), float(centre))
        assert ours == pytest.approx(slope, abs=2e-5)


def test_links_that_rise_forward_turn_the_axle_out_of_the_turn():
    """Roll oversteer: in a left turn (left side up) the axle turns to the right."""
    axle_end = Vec(0.0, 400.0, 200.0)
    for rise in (-30.0, 0.0, 30.0):
        level = rear.roll_steer(axle_end, Vec(400.0, 400.0, 200.0 + rise), 240.0)
        # For links along the car the slope alone counts.
        assert level == pytest.approx(-rise / 400.0)
    leading = rear.roll_steer(axle_end, Vec(-400.0, 400.0, 230.0), 240.0)
    assert leading == pytest.approx(30.0 / 400.0)


def test_a_link_that_does_not_hold_the_axle_from_turning():
    pointing = rear.roll_steer(Vec(200.0, 400.0, 200.0), Vec(100.0, 200.0, 210.0), 240.0)
    assert np.isnan(pointing)


def test_rod_across_the_car():
    draw = np.random.default_rng(933)
    for _ in range(50):
        axle_end = draw.uniform([-500, 150], [-200, 350]).tolist()
        body_end = draw.uniform([100, 150], [500, 350]).tolist()
        ours = rear.height_mid_car(*axle_end, *body_end)
        theirs = solid_axle_by_velocities.height_held_by_rod(axle_end, body_end)
        assert ours == pytest.approx(theirs, rel=1e-10)
        # Which end is which does not matter, nor on which side it is.
        assert rear.height_mid_car(*body_end, *axle_end) == pytest.approx(ours)
        (y, z), (v, w) = axle_end, body_end
        assert rear.height_mid_car(-y, z, -v, w) == pytest.approx(ours)
    assert rear.height_mid_car(-400.0, 200.0, 400.0, 260.0) == 230.0


def test_apex_and_parallel_links():
    draw = np.random.default_rng(934)
    for _ in range(50):
        height, ahead, slope = draw.uniform([150, -120, -15], [400, 120, 15]).tolist()
        theirs = solid_axle_by_velocities.height_held_by_apex(height, ahead, slope)
        assert rear.height_on_axis(height, ahead, slope) == pytest.approx(theirs, rel=1e-10)
    # Links that rise forward: the axis behind the apex is lower.
    assert rear.height_on_axis(300.0, 100.0, 10.0) < 300.0


def test_tyres_alone_and_springs_upon_them():
    """Energy: half the stiffness times the roll squared is what both tyres store."""
    rate, track, roll = 120.0, 1080.0, np.radians(1.0)
    stored = 2.0 * 0.5 * rate * (0.5 * track * roll) ** 2
    stiffness = rear.roll_stiffness_of_tyres(rate, track)
    assert 0.5 * stiffness * 1.0 * roll == pytest.approx(stored)
    assert rear.in_series(stiffness, stiffness) == pytest.approx(0.5 * stiffness)
    assert rear.in_series(1e-3 * stiffness, stiffness) == pytest.approx(1e-3 * stiffness, rel=2e-3)


def test_arrays_agree_with_floats():
    axle_end, body_end, centre = random_links(935, 30)
    many = rear.roll_steer(Vec(*axle_end.T), Vec(*body_end.T), centre)
    for i in range(30):
        one = rear.roll_steer(
            Vec(*axle_end[i].tolist()), Vec(*body_end[i].tolist()), float(centre[i])
        )
        assert type(one) is float
        assert one == pytest.approx(many[i], rel=1e-12)
