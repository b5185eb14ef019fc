"""The beam axle's camber, against a rigid beam turned by SciPy until it stands on the ground."""

import numpy as np
import pytest
from cornerbook.geometry.front_axle import beam

from tests.authorities.beam_by_rotation import Beam


def beams(seed, n):
    """(track, rise) in mm, at random."""
    draw = np.random.default_rng(seed)
    track = draw.uniform(700.0, 1600.0, n)
    return np.column_stack([track, draw.uniform(-0.5, 0.5, n) * track]).tolist()


@pytest.mark.parametrize("of", ["centre", "ground"])
def test_camber_in_bump(of):
    for track, rise in beams(961, 200):
        ours = beam.camber_in_bump(track, rise)
        theirs = Beam(track)
        assert ours == pytest.approx(theirs.change("left", rise, of), rel=1e-10, abs=1e-11)
        # The other wheel stands lower by as much.
        assert -ours == pytest.approx(theirs.change("right", rise, of), rel=1e-10, abs=1e-11)
        assert -ours == pytest.approx(beam.camber_in_bump(track, -rise))


def test_camber_gain_is_the_slope_at_no_rise():
    for track, _ in beams(962, 50):
        theirs = Beam(track)
        step = 0.01 * track
        # By Richardson's extrapolation of central differences.
        fine, coarse = (
            (theirs.change("left", h, "ground") - theirs.change("left", -h, "ground")) / (2.0 * h)
            for h in (0.5 * step, step)
        )
        assert beam.camber_gain(track) == pytest.approx((4.0 * fine - coarse) / 3.0, rel=1e-8)


def test_signs():
    """One wheel up: its top tilts toward the car, however wide it is, less on a wider one."""
    assert beam.camber_gain(1120.0) < beam.camber_gain(1300.0) < 0.0
    assert beam.camber_in_bump(1120.0, 60.0) < 0.0 < beam.camber_in_bump(1120.0, -60.0)
    assert beam.camber_in_bump(1120.0, 0.0) == 0.0
    # Steeper than its slope at no rise.
    assert beam.camber_in_bump(1120.0, 400.0) < 400.0 * beam.camber_gain(1120.0)


def test_what_camber_and_toe_as_drawn_change():
    """What the docstrings say of it: thousandths for toe, 2 r sin(camber) / track on a kerb."""
    track, rise, radius = 1120.0, 60.0, 260.0
    ours = beam.camber_in_bump(track, rise)
    toed = Beam(track, radius, toe=3.0).change("left", rise, "ground")
    assert 1e-4 < abs(toed / ours - 1.0) < 5e-3
    for camber in (-3.0, 2.0):
        centre = Beam(track, radius, camber).change("left", rise, "centre")
        assert centre == pytest.approx(ours, rel=1e-10)
        ground = Beam(track, radius, camber).change("left", rise, "ground")
        part = 2.0 * radius * np.sin(np.radians(camber)) / track
        assert ground / ours - 1.0 == pytest.approx(part, rel=0.05)


def test_a_rise_past_the_track_is_none():
    assert np.isnan(beam.camber_in_bump(1120.0, 1121.0))
    assert np.isnan(beam.camber_in_bump(np.array([1120.0]), -1121.0)).all()


def test_arrays_agree_with_floats():
    pairs = beams(963, 60)
    many = beam.camber_in_bump(*np.array(pairs).T)
    gains = beam.camber_gain(np.array(pairs)[:, 0])
    for i, (track, rise) in enumerate(pairs):
        assert many[i] == pytest.approx(beam.camber_in_bump(track, rise), rel=1e-12)
        assert gains[i] == pytest.approx(beam.camber_gain(track), rel=1e-12)
