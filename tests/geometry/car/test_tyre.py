"""The guessed tyre: shape, load, trail, an axle in a turn, against SciPy and a brush model."""

import numpy as np
import pytest
from cornerbook.geometry.car import tyre
from scipy.integrate import quad
from scipy.optimize import brentq, minimize_scalar

TYRES = 200


@pytest.fixture(scope="module")
def residuals():
    return np.random.default_rng(71).uniform(0.01, tyre.MOST_RESIDUAL, TYRES)


def test_the_peak_is_where_it_is_said_to_be(residuals):
    # Nearer to 1 the top is too flat for a search by values.
    for residual in residuals[residuals < 0.99]:
        shape = tyre.Shape(float(residual))
        found = minimize_scalar(lambda x, s=shape: -s.force(x), bounds=(0.0, 4.0), method="bounded")
        assert found.x == pytest.approx(1.0, abs=1e-4)
        assert shape.force(1.0) == pytest.approx(1.0, abs=1e-15)


def test_what_is_left_at_large_slip(residuals):
    shape = tyre.Shape(residuals)
    assert shape.force(1e15) == pytest.approx(residuals, abs=1e-12)
    assert (np.diff(tyre.Shape(residuals[:, None]).force(np.linspace(0, 1, 50))) > 0.0).all()
    assert (np.diff(tyre.Shape(residuals[:, None]).force(np.linspace(1, 20, 50))) < 0.0).all()


def test_slip_for_a_force(residuals):
    draw = np.random.default_rng(72)
    for residual in residuals:
        shape, share = tyre.Shape(float(residual)), float(draw.uniform(-0.999, 0.999))
        found = brentq(lambda x, s=shape, y=share: s.force(x) - y, -1.0, 1.0, xtol=1e-15)
        assert shape.slip(share) == pytest.approx(found, abs=1e-10)
    assert np.isnan(tyre.Shape(0.8).slip(1.01))


def test_stiffness_is_the_slope_at_no_slip(residuals):
    shape = tyre.Shape(residuals)
    # A complex step has no difference to lose digits in.
    bent = np.sin(shape.shape_factor * np.arctan(shape.stiffness_factor * 1e-30j))
    assert shape.stiffness() == pytest.approx(bent.imag / 1e-30, rel=1e-14)


def test_floats_and_arrays(residuals):
    many = tyre.Shape(residuals).force(0.6)
    for residual, value in zip(residuals, many, strict=True):
        assert tyre.Shape(float(residual)).force(0.6) == pytest.approx(value, rel=1e-14)
    loads = np.array([-100.0, 0.0, 800.0, 1600.0, 20000.0])
    peaks = tyre.peak_force(loads, 1.3, 800.0, 0.1)
    assert peaks == pytest.approx([0.0, 0.0, 1040.0, 1600.0 * 1.3 * 0.9, 0.0])
    assert [tyre.peak_force(float(w), 1.3, 800.0, 0.1) for w in loads] == pytest.approx(list(peaks))


def _brush(slide):
    """(force, trail over half the patch) of a brush tyre, slide: tan slip over full sliding's.

    Parabolic pressure 1 - s^2 over the patch, s from the leading edge -1 to 1; bristles are
    bent in proportion to their way from there, until friction lets go.
    """

    def push(s):
        return min(2.0 * slide * (1.0 + s), 1.0 - s * s)

    edge = 1.0 - 2.0 * slide
    force = quad(push, -1, 1, points=[edge])[0]
    return force, -quad(lambda s: -s * push(s), -1, 1, points=[edge])[0] / force


def test_the_brush_trail_lies_between_two_straight_lines():
    for slide in np.linspace(0.02, 0.98, 25).tolist():
        trail = _brush(slide)[1]
        assert trail <= tyre.trail_left(slide, 1.0) / 3.0
        assert trail >= tyre.trail_left(slide, 0.5) / 3.0
    # A third of half the patch at first, and a line gone at half of full sliding.
    assert _brush(1e-3)[1] == pytest.approx(tyre.trail_left(1e-3, 0.5) / 3.0, rel=1e-5)


def test_an_axle_in_a_turn():
    draw = np.random.default_rng(73)
    for _ in range(TYRES):
        share, friction = draw.uniform(-1, 1), draw.uniform(0.6, 1.8)
        transfer, lost = draw.uniform(0, 0.6), draw.uniform(0, 0.4)

        def missing(a, share=share, friction=friction, transfer=transfer, lost=lost):
            loads = 1.0 + np.array([-1.0, 1.0]) * transfer * a
            return share * sum(tyre.peak_force(loads, friction, 1.0, lost)) - 2.0 * a

        ours = tyre.lateral_acceleration(share, friction, transfer, lost)
        if tyre.stays_down(ours, transfer):
            assert missing(ours) == pytest.approx(0.0, abs=1e-13)
        assert ours * share >= 0.0
