"""Where the steering is heaviest, against SciPy's search over thousands of guessed tyres."""

import numpy as np
import pytest
from cornerbook.geometry.car import feel, tyre
from scipy.optimize import brentq, minimize_scalar

TYRES = 3000


def _shape(x, residual):
    """The shape, written apart; complex numbers pass."""
    bend = 2.0 - 2.0 * np.arcsin(residual) / np.pi
    return np.sin(bend * np.arctan(np.tan(np.pi / (2.0 * bend)) * x))


@pytest.fixture(scope="module")
def drawn():
    """Residuals over their whole range, pneumatic shares with negative trails, places."""
    draw = np.random.default_rng(81)
    residual = np.concatenate(
        [draw.uniform(0.01, 0.99, TYRES // 2), 1.0 - 10.0 ** draw.uniform(-3, -0.3, TYRES // 2)]
    )
    lost = draw.uniform(0.001, 1.0, TYRES)
    lost[::6] = draw.uniform(1.0, 4.0, lost[::6].size)
    gone = draw.uniform(0.1, 1.0, TYRES)
    gone[::5] = 1.0
    return residual, lost, gone


def _found(residual, lost, gone):
    """(place, moment) by the slope's root, from a complex step; place 1 if it only grows."""

    def line(x):
        return _shape(x, residual) * (1.0 - lost * x / gone)

    def slope(x):
        return (line(x + 1e-30j)).imag / 1e-30

    if slope(gone) >= 0.0:
        return 1.0, 1.0 - lost
    place = brentq(slope, 0.0, gone, xtol=1e-16, rtol=1e-15)
    top = minimize_scalar(lambda x: -line(x), bounds=(0.0, gone), method="bounded",
                          options={"xatol": 1e-9})  # fmt: skip
    assert -top.fun == pytest.approx(line(place), rel=1e-9)
    return place, line(place)


def test_against_scipy(drawn):
    shape = tyre.Shape(drawn[0])
    place = feel.heaviest(shape, *drawn[1:])
    warning, lightening = feel.warning(shape, *drawn[1:]), feel.lightening(shape, *drawn[1:])
    early = 0
    for i, (residual, lost, gone) in enumerate(zip(*drawn, strict=True)):
        at, most = _found(residual, lost, gone)
        assert place[i] == pytest.approx(at, abs=1e-9)
        force = 1.0 if at == 1.0 else _shape(at, residual)
        assert warning[i] == pytest.approx(100.0 * (1.0 - force), abs=1e-9)
        most = max(most, 1.0 - lost)
        assert lightening[i] == pytest.approx(100.0 * (1.0 - (1.0 - lost) / most), abs=1e-9)
        early += at < 1.0
    assert TYRES // 4 < early < TYRES


def test_the_moment_is_concave_while_pneumatic_trail_is_left(drawn):
    residual, lost, gone = (each[:, None] for each in drawn)
    # With negative mechanical trail the two cancel before gone_at; up to there.
    until = np.minimum(gone, gone / lost)
    x = until * np.linspace(0.0, 1.0, 101)
    moment = feel.moment(x, tyre.Shape(residual), lost, gone)
    bend = moment[:, 2:] - 2.0 * moment[:, 1:-1] + moment[:, :-2]
    assert (bend < 1e-15).all()
    assert (bend.mean(axis=1) < 0.0).all()


def test_floats_and_arrays(drawn):
    residual, lost, gone = (each[:200] for each in drawn)
    many = feel.lightening(tyre.Shape(residual), lost, gone)
    for i in range(200):
        one = feel.lightening(tyre.Shape(float(residual[i])), float(lost[i]), float(gone[i]))
        assert type(one) is float
        assert one == pytest.approx(many[i], rel=1e-11, abs=1e-11)


def test_more_mechanical_trail_warns_later():
    """Common practice, no source: much trail hides the tyres' own message."""
    mechanical = np.linspace(0.0, 400.0, 60)
    share = feel.pneumatic_share(mechanical, 20.0)
    for gone in (0.6, 0.8, 1.0):
        shape = tyre.Shape(0.8)
        warning, lightening = feel.warning(shape, share, gone), feel.lightening(shape, share, gone)
        assert (np.diff(warning) <= 0.0).all() and warning[0] > warning[-1] + 5.0
        assert (np.diff(lightening) <= 0.0).all()
        assert lightening[0] == pytest.approx(100.0)


def test_without_pneumatic_trail_there_is_no_warning():
    for gone in (0.4, 1.0):
        assert feel.warning(tyre.Shape(0.8), 0.0, gone) == pytest.approx(0.0, abs=1e-12)
        assert feel.lightening(tyre.Shape(0.8), 0.0, gone) == pytest.approx(0.0, abs=1e-12)
