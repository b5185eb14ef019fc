"""Networks of tapes: against scipy.optimize.least_squares, chance, and a worked example."""

import numpy as np
import pytest
from cornerbook.book.study.survey.advice import advised
from cornerbook.book.study.survey.measured import ALONG, DISTANCE, Measurement
from cornerbook.book.study.survey.network import Adjusted
from scipy.optimize import least_squares
from scipy.stats import binom, chi2, kstest

from tests.authorities import published_networks as published

SURE = {DISTANCE: 0.8, "x": 1.0, "y": 1.0, "height": 0.4}


def a_network(seed, points=7, share=0.85, plumbed=True):
    """(points as they are, as drawn, measurements without an error) of a random car's corner."""
    draw = np.random.default_rng([1731, seed])
    true = draw.uniform([-300.0, 150.0, 80.0], [300.0, 600.0, 450.0], (points, 3))
    drawn = true + draw.normal(0.0, 6.0, true.shape)
    asked = [
        (DISTANCE, (i, j))
        for i in range(points) for j in range(i) if draw.uniform() < share
    ]  # fmt: skip
    if plumbed:
        asked += [(kind, (i,)) for kind in ALONG for i in range(points) if draw.uniform() < 0.7]
    made = [Measurement(kind, which, 0.0, SURE[kind]) for kind, which in asked]
    for one in made:
        one.value = one.of(true)
    return draw, true, drawn, made


def misread(draw, made):
    for one in made:
        one.value += draw.normal(0.0, one.sure)


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("plumbed", [True, False])
def test_it_is_the_least_squares_of_scipy(seed, plumbed):
    draw, _, drawn, made = a_network(seed, share=0.85 if plumbed else 1.0, plumbed=plumbed)
    misread(draw, made)
    ours = Adjusted(made, drawn)

    def left(flat):
        places = flat.reshape(drawn.shape)
        return [(one.value - one.of(places)) / one.sure for one in made]

    theirs = least_squares(left, drawn.ravel(), xtol=1e-14, ftol=1e-14, gtol=1e-14)
    assert ours.square_sum == pytest.approx(2.0 * theirs.cost, rel=1e-7, abs=1e-9)
    if plumbed:
        assert np.abs(ours.places - theirs.x.reshape(drawn.shape)).max() < 1e-4
        covariance = np.linalg.inv(theirs.jac.T @ theirs.jac)
        sds = np.sqrt(np.diag(covariance)).reshape(drawn.shape)
        assert ours.sds == pytest.approx(sds, rel=1e-4)
        assert ours.afloat == 0
    else:
        # Tapes alone: the shape is fixed, its six movements are not, and the middle stays.
        assert ours.afloat == 6
        assert len(ours.unfixed) == 0
        shift = ours.places.mean(axis=0) - drawn.mean(axis=0)
        assert np.abs(shift).max() < 1e-6


def test_lengths_that_no_shape_has_are_doubtful_though_none_is_spare():
    """Pressed flat a shape has a reading to spare, but for the last digits of its places.

    A network of the random ones, found by hand: its nearest shape is flat but for those digits.
    """
    draw, _, drawn, made = a_network(701628, points=7, share=0.7, plumbed=False)
    misread(draw, made)
    made[14].value -= 100.0
    found = Adjusted(made, drawn)
    assert found.square_sum > 100.0
    assert found.is_doubtful and found.likelihood < 1e-3
    assert 14 in found.suspects()


def test_chance_is_told_truly():
    """2,000 random networks: sums of squares by the chi-square law, points by the normal one."""
    squares, spare, shares = [], [], []
    for seed in range(2000):
        draw, true, drawn, made = a_network(seed, points=5)
        misread(draw, made)
        found = Adjusted(made, drawn)
        if found.spare < 1 or len(found.unfixed) or found.afloat:
            continue
        squares.append(found.square_sum)
        spare.append(found.spare)
        shares.append(np.abs(found.places - true).ravel() < found.sds.ravel())
    assert len(squares) > 1700
    # The likelihoods are even from 0 to 1, and the sum of all is a chi-square of all.
    assert kstest(chi2.sf(squares, spare), "uniform").pvalue > 1e-3
    assert 1e-3 < chi2.cdf(sum(squares), sum(spare)) < 1.0 - 1e-3
    # One coordinate of each network: within one standard deviation in 68.27 of a hundred.
    within = sum(bool(share[0]) for share in shares)
    low, high = binom.interval(0.999, len(shares), 0.682689)
    assert low - 5 <= within <= high + 5


@pytest.mark.parametrize("seed", range(60))
def test_a_misread_hundred_is_found(seed):
    draw, _, drawn, made = a_network(seed + 5000)
    misread(draw, made)
    redundancy = Adjusted(made, drawn).redundancy
    wrong = int(draw.choice(np.flatnonzero(redundancy > 0.2)))
    made[wrong].value += 100.0 if made[wrong].value < 300.0 else -100.0
    suspects = Adjusted(made, drawn).suspects()
    assert suspects[0] == wrong
    # Hardly ever can it not be told from another.
    assert len(suspects) <= 2


def test_without_a_misreading_hardly_any_is_blamed():
    blamed = 0
    for seed in range(200):
        draw, _, drawn, made = a_network(seed + 9000)
        misread(draw, made)
        blamed += bool(Adjusted(made, drawn).suspects())
    # Some thirty residuals each, of which one in a thousand is outlying.
    assert blamed <= binom.ppf(0.9999, 200, 0.035)


def test_normalised_residuals_are_those_of_leaving_one_out():
    """Against the network without the measurement: how far its reading is from what that says."""
    draw, true, drawn, made = a_network(77, points=5, share=1.0)
    for one in made:
        # So sure that all is linear.
        one.sure *= 1e-3
    misread(draw, made)
    drawn = true
    found = Adjusted(made, drawn)
    for i in range(0, len(made), 4):
        rest = Adjusted([*made[:i], *made[i + 1 :]], drawn)
        slope = made[i].slope(rest.places)
        inverse = np.linalg.pinv(
            sum(np.outer(one.slope(rest.places), one.slope(rest.places)) / one.sure**2
                for one in rest.measurements), rcond=1e-12,
        )  # fmt: skip
        spread = np.sqrt(made[i].sure ** 2 + slope @ inverse @ slope)
        off = (made[i].value - made[i].of(rest.places)) / spread
        assert found.normalised[i] == pytest.approx(off, abs=1e-3)


def test_a_square_and_its_diagonals_by_hand():
    """Four sides and two diagonals of a square on a table: one condition among six tapes.

    Of small changes, side + side + side + side = root 2 * (diagonal + diagonal). By the method of
    conditions (correlates): each correction is its coefficient over the sum of their squares, 8,
    times the misclosure, and its redundancy its coefficient squared over that sum.
    """
    side, too_long = 1000.0, 0.06
    places = side * np.array([[0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]], dtype=float)
    sides = [(0, 1), (1, 2), (2, 3), (3, 0)]
    made = [Measurement(DISTANCE, pair, side, 1.0) for pair in sides]
    made += [Measurement(DISTANCE, pair, side * 2**0.5, 1.0) for pair in ((0, 2), (1, 3))]
    made += [Measurement("height", (i,), 0.0, 1.0) for i in range(4)]
    made[4].value += too_long
    found = Adjusted(made, places)
    misclosure = -(2**0.5) * too_long
    shares = np.array([1.0, 1.0, 1.0, 1.0, -(2**0.5), -(2**0.5)])
    # Residuals: measured less adjusted.
    assert found.residuals[:6] == pytest.approx(shares * misclosure / 8.0, abs=1e-5)
    assert found.redundancy[:6] == pytest.approx(shares**2 / 8.0, abs=1e-4)
    assert found.spare == 1


def test_points_that_nothing_fixes_are_named_with_what_would():
    _, true, drawn, made = a_network(3, points=5, share=1.0)
    # The last point hangs on two tapes and nothing else.
    kept = [
        one for one in made if 4 not in one.points or (one.kind == DISTANCE and one.points[1] < 2)
    ]
    found = Adjusted(kept, drawn)
    assert np.flatnonzero(found.loose).tolist() == [4]
    assert len(found.unfixed) == 1
    assert np.isnan(found.sds[4]).all() and np.isfinite(found.sds[:4]).all()
    (more,) = advised(found, 5)
    assert 4 in more.points
    more.value, more.sure = more.of(true), 0.8
    whole = Adjusted([*kept, more], drawn)
    assert not whole.loose.any()
    assert np.abs(whole.places - true).max() < 1e-5


def test_two_parts_that_nothing_ties_are_told_apart():
    _, _, drawn, made = a_network(4, points=8, share=1.0, plumbed=False)
    kept = [one for one in made if (one.points[0] < 4) == (one.points[1] < 4)]
    found = Adjusted(kept, drawn)
    assert found.afloat == 12
    assert not found.loose.any()


def test_without_a_measurement_nothing_moves_and_nothing_is_fixed():
    places = np.array([[0.0, 0, 0], [900.0, 0, 0], [0.0, 400, 0]])
    found = Adjusted([], places)
    assert np.array_equal(found.places, places)
    assert found.spare == 0 and found.likelihood is None and found.suspects() == []
    # Each point is a part of its own, which only moves.
    assert found.afloat == 9 and len(found.unfixed) == 0


def test_alike_suspects_are_all_named():
    """One spare and nothing else checks: which of the measurements is wrong cannot be told."""
    places = np.array([[0.0, 0, 0], [900.0, 0, 0]])
    made = [Measurement(DISTANCE, (0, 1), value, 1.0) for value in (900.0, 1000.0)]
    assert sorted(Adjusted(made, places).suspects()) == [0, 1]


def test_a_published_network_of_levels():
    """As distances of points one above the other; the known point is as sure as can be told."""
    names = ["1a", "2", "3", "4"]
    known = published.LEVELS_KNOWN["1a"]
    # Approximate heights, as the listing has them; in mm, and near 0.
    places = np.zeros((4, 3))
    places[:, 2] = [0.0, -731.0, -2073.0, -1225.0]
    made = [
        Measurement(
            DISTANCE, (names.index(one), names.index(other)), abs(rise) * 1e3,
            published.LEVELS_SURE * 1e3,
        )
        for one, other, rise in published.LEVELS_READ
    ]  # fmt: skip
    made += [Measurement(kind, (i,), 0.0, 0.01) for kind in ("x", "y") for i in range(4)]
    made.append(Measurement("height", (0,), 0.0, 0.01))
    found = Adjusted(made, places)
    for name, height in published.LEVELS_ADJUSTED.items():
        i = names.index(name)
        assert known + found.places[i, 2] * 1e-3 == pytest.approx(height, abs=6e-6)
        assert found.sds[i, 2] * 1e-3 == pytest.approx(published.LEVELS_DEVIATIONS[name], abs=6e-5)
    squares = published.LEVELS_SQUARES / published.LEVELS_SURE**2
    assert found.square_sum == pytest.approx(squares, rel=1e-4)
    assert found.spare == published.LEVELS_FREEDOM
    which, size = published.LEVELS_LARGEST
    assert int(np.argmax(np.abs(found.normalised))) == which
    assert abs(found.normalised[which]) == pytest.approx(size, abs=0.006)


def test_the_published_levels_agree_with_a_linear_solution():
    """That they were copied rightly: by numpy's least squares alone."""
    order = list(published.LEVELS_ADJUSTED)
    table, read = np.zeros((8, 3)), np.zeros(8)
    for row, (one, other, rise) in enumerate(published.LEVELS_READ):
        read[row] = rise
        for name, sign in ((one, -1.0), (other, 1.0)):
            if name in order:
                table[row, order.index(name)] += sign
            else:
                read[row] -= sign * published.LEVELS_KNOWN[name]
    heights, squares, _, _ = np.linalg.lstsq(table, read, rcond=None)
    assert heights == pytest.approx(list(published.LEVELS_ADJUSTED.values()), abs=6e-6)
    assert squares[0] == pytest.approx(published.LEVELS_SQUARES, rel=1e-5)


def test_a_textbook_point_from_three_known_ones():
    names = list(published.TRILATERATION_KNOWN)
    known = np.array(list(published.TRILATERATION_KNOWN.values()))
    read = np.array([published.TRILATERATION_READ[name] for name in names])
    start = np.array(published.TRILATERATION_START)

    def off(place):
        return np.hypot(*(place - known).T) - read

    # Remembered rightly: the first two distances cross where the book begins.
    assert np.abs(off(start)[:2]).max() < 0.006
    theirs = least_squares(off, start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    places = np.zeros((4, 3))
    places[:3, :2], places[3, :2] = known, start
    made = [Measurement(DISTANCE, (i, 3), float(read[i]), 1.0) for i in range(3)]
    made += [Measurement("height", (i,), 0.0, 1e-3) for i in range(4)]
    for i in range(3):
        made += [Measurement(kind, (i,), float(known[i, axis]), 1e-3)
                 for axis, kind in enumerate(("x", "y"))]  # fmt: skip
    found = Adjusted(made, places)
    assert found.places[3, :2] == pytest.approx(theirs.x, abs=1e-5)
    assert found.residuals[:3] == pytest.approx(-theirs.fun, abs=1e-5)
    assert found.spare == 1
    covariance = np.linalg.inv(theirs.jac.T @ theirs.jac)
    assert found.sds[3, :2] == pytest.approx(np.sqrt(np.diag(covariance)), rel=1e-4)
