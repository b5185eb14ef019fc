"""Whole steps of adjusters: against corners closed by SciPy, and every choice tried out."""

from itertools import product

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

from tests.authorities.adjusted_by_scipy import Adjusted
from tests.catalogue.test_bad_input import said
from tests.support.corners import Corners, random_corners

CORNERS = random_corners(1721, 24)
MEASURES = ("camber", "caster", "toe")
NAMES = ("upper arm", "upper arm", "tie rod")
WAYS = np.array([[0.0, 0.75, 0.0], [-1.0, 0.0, 0.0], [0.4, 0.0, 0.0]])
PLAIN = (
    tuple((name,) for name in NAMES),
    *(tuple((float(way[i]),) for way in WAYS) for i in range(3)),
)


def column(*values):
    return tuple((value,) for value in values)


def limited(least, most):
    return column(*least), column(*most)


def steps_of(rows, bands, least, most, more=()):
    """The steps for the left wheel; bands: (from, to) of each of `MEASURES`."""
    lows, highs = (column(*(band[i] for band in bands)) for i in (0, 1))
    names = column(*MEASURES)
    found = call("ADJUSTER_STEPS", rows, names, lows, highs, *PLAIN, *limited(least, most), *more)
    assert not isinstance(found, str), found
    return tuple(int(row[0]) for row in found)


def turned_by_scipy(corner, steps):
    """The changes of `MEASURES` with adjusters turned, the linkage closed by SciPy."""
    arm = steps[0] * WAYS[0] + steps[1] * WAYS[1]
    after = Adjusted(corner, ("upper arm", arm), ("tie rod", steps[2] * WAYS[2]))
    before, after = Adjusted(corner).measured(0.0, 0.0), after.measured(0.0, 0.0)
    return [float(getattr(after, name) - getattr(before, name)) for name in MEASURES]


@pytest.mark.parametrize("i", range(CORNERS.count))
def test_turned_as_told_a_corner_closed_by_scipy_reads_what_was_wanted(i):
    """Wanted is what some steps within the limits do, and a little about it."""
    draw = np.random.default_rng([1722, i])
    secret = draw.integers([-8, -6, -12], [9, 7, 13])
    corner = CORNERS.one(i)
    wanted = turned_by_scipy(corner, secret)
    bands = [(value - 0.12, value + 0.12) for value in wanted]
    found = steps_of(CORNERS.rows(i), bands, (-8, -6, -12), (8, 6, 12))
    reads = turned_by_scipy(corner, found)
    for value, (low, high) in zip(reads, bands, strict=True):
        assert low - 1e-6 <= value <= high + 1e-6
    assert sum(map(abs, found)) <= np.abs(secret).sum()
    for quantity, value in zip(MEASURES, reads, strict=True):
        ours = call("ADJUSTED_CHANGE", CORNERS.rows(i), quantity, *PLAIN, column(*found))
        assert ours == pytest.approx(value, abs=1e-7)


@pytest.mark.parametrize("i", range(8))
def test_no_other_steps_are_fewer_or_nearer(i):
    """All 7 x 5 x 7 choices on the exact linkage; bands of which some cannot be reached."""
    draw = np.random.default_rng([1723, i])
    rows, least, most = CORNERS.rows(i), (-3, -2, -3), (3, 2, 3)
    middle, half = draw.uniform(-0.9, 0.9, 3), draw.uniform(0.08, 0.5, 3)
    bands = list(zip((middle - half).tolist(), (middle + half).tolist(), strict=True))

    def rank(steps):
        changes = [
            call("ADJUSTED_CHANGE", rows, quantity, *PLAIN, column(*map(float, steps)))
            for quantity in MEASURES
        ]
        gaps = [
            max(low - value, value - high, 0.0) / (high - low)
            for value, (low, high) in zip(changes, bands, strict=True)
        ]
        missed = sum(gap * gap for gap in gaps)
        return (missed if missed > 1e-9 else 0.0, sum(map(abs, steps)))

    best = min(map(rank, product(*(range(a, b + 1) for a, b in zip(least, most, strict=True)))))
    found = rank(steps_of(rows, bands, least, most))
    assert found[0] == pytest.approx(best[0], rel=1e-6)
    assert found[1] == best[1]


def test_what_stands_in_its_bands_is_left_alone():
    assert steps_of(EXAMPLE, [(-0.1, 0.1), (-1.0, 1.0), (None, 0.5)], (-9,) * 3, (9,) * 3) == (
        0, 0, 0,
    )  # fmt: skip


def test_limits_are_kept_and_the_nearest_is_told():
    found = steps_of(EXAMPLE, [(-3.0, -2.5), (None, None), (None, None)], (-4, 0, 0), (4, 0, 0))
    assert found == (-4, 0, 0)
    # A least above nothing is kept too.
    assert steps_of(EXAMPLE, [(-9.0, 9.0)] * 3, (2, 0, 0), (4, 0, 0)) == (2, 0, 0)


def test_an_empty_row_is_nothing():
    with_gap = [(*cells[:1], ("",), *cells[1:]) for cells in PLAIN]
    ends = column(-8, "", -6, -12), column(8, "", 6, 12)
    bands = column(-0.6, 0.2, -0.1), column(-0.4, 0.6, 0.1)
    found = call("ADJUSTER_STEPS", EXAMPLE, column(*MEASURES), *bands, *with_gap, *ends)
    assert found[1] == ("",)
    without = call("ADJUSTER_STEPS", EXAMPLE, column(*MEASURES), *bands, *PLAIN,
                   *limited((-8, -6, -12), (8, 6, 12)))  # fmt: skip
    assert (found[0], *found[2:]) == without
    steps = column(2.0, "", 1.0, -1.0)
    assert call("ADJUSTED_CHANGE", EXAMPLE, "toe", *with_gap, steps) == call(
        "ADJUSTED_CHANGE", EXAMPLE, "toe", *PLAIN, column(2.0, 1.0, -1.0)
    )
    nothing = column("", "")
    assert (
        call("ADJUSTED_CHANGE", EXAMPLE, "toe", nothing, nothing, nothing, nothing, nothing) == 0.0
    )


def test_sides():
    """Apart, alike, or on one side alone; one wanted up and the other down cannot go alike."""
    asked = column("camber"), ((0.3, -0.6),), ((0.6, -0.3),)
    arm = column("upper arm"), column(0.0), column(0.75), column(0.0), column(-9.0), column(9.0)
    for side, wanted in (("each", ((2.0, -2.0),)), ("", ((2.0, -2.0),)), ("left", ((2.0, 0.0),)),
                         ("right", ((0.0, -2.0),)), ("both", ((0.0, 0.0),)),
                         ("none", ((0.0, 0.0),))):  # fmt: skip
        assert call("ADJUSTER_STEPS", EXAMPLE, *asked, *arm, column(side)) == wanted


def test_every_adjuster_together_is_the_corner_that_scipy_closes():
    names = ("lower front pickup", "upper rear pickup", "upper arm", "lower arm", "tie rod inner",
             "tie rod outer", "tie rod")  # fmt: skip
    draw = np.random.default_rng(1724)
    ways = draw.uniform(-1.5, 1.5, (len(names), 3))
    ways[-1, 1:] = 0.0
    corner = Corners.of_rows(EXAMPLE).one(0)
    # Pickups change no length, arms are as long as they are from the drawn pickups.
    order = sorted(zip(names, ways, strict=True), key=lambda change: "arm" not in change[0])
    after = Adjusted(corner, *order).measured(12.0, -5.0)
    before = Adjusted(corner).measured(12.0, -5.0)
    cells = [column(*names), *(column(*ways[:, i].tolist()) for i in range(3))]
    for name in MEASURES:
        found = call("ADJUSTED_CHANGE", EXAMPLE, name, *cells, column(*[1.0] * 7), 12.0, -5.0)
        assert found == pytest.approx(getattr(after, name) - getattr(before, name), abs=1e-7)


@pytest.mark.parametrize(
    "changes, words",
    [
        ({4: column("upper am", "", "")}, ("adjuster", "upper am", "upper arm")),
        ({5: column(0.0, 0.0)}, ("dx", "2 rows", "3")),
        ({2: column(0.1), 3: column(0.0)}, ("change_from", "above", "camber")),
        ({8: column(-1.5, 0, 0)}, ("least", "whole")),
        ({8: column(3, 0, 0), 9: column(2, 0, 0)}, ("least", "above most")),
        ({10: column("up", "", "")}, ("sides", "up", "each")),
        ({1: column("ackermann")}, ("ackermann", "both wheels")),
        ({2: ((0.1, 0.1, 0.1),)}, ("change_from", "column")),
        ({6: column(0.0, 0.0, 1.0)}, ("tie rod", "length", "row 3")),
        ({2: column("# camber is missing")}, ("camber is missing",)),
    ],
)  # fmt: skip
def test_what_cannot_be_asked(changes, words):
    raw = [EXAMPLE, column("camber"), column(-0.2), column(0.1), *PLAIN,
           *limited((-3, -3, -3), (3, 3, 3)), column("", "", "")]  # fmt: skip
    for place, value in changes.items():
        raw[place] = value
    said(call("ADJUSTER_STEPS", *raw, 1600.0), *words)
