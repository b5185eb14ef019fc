"""What a log of set-ups teaches: against NIST's certified regressions, numpy and the linkage."""

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

from tests.authorities.nist_strd import NO_INTERCEPT
from tests.catalogue.independent_sensitivity import adjuster_effect, line_of
from tests.catalogue.set_up.test_steps import NAMES, PLAIN, WAYS, column
from tests.catalogue.test_bad_input import said


@pytest.mark.parametrize("name", NO_INTERCEPT)
def test_nist_certified_lines_through_the_origin(name):
    x, y, slope, deviation = NO_INTERCEPT[name]
    # Certified to 15 digits; the sums of squares of these data keep 12 of them.
    assert call("LEARNED_EFFECT", column(*x), column(*y)) == pytest.approx(slope, rel=1e-12)
    assert call("LEARNED_DEVIATION", column(*x), column(*y)) == pytest.approx(deviation, rel=1e-12)
    # And what is certified was copied rightly.
    assert line_of(x, y) == pytest.approx((slope, deviation), rel=1e-12)


@pytest.mark.parametrize("seed", range(20))
def test_random_logs_with_blanks_are_those_of_numpy(seed):
    draw = np.random.default_rng([1761, seed])
    count = int(draw.integers(2, 15))
    steps = draw.integers(-9, 10, count + 4).astype(float)
    steps[0] = 3.0
    changes = steps * draw.normal() + draw.normal(0.0, 0.1, count + 4)
    gaps = set(draw.choice(np.arange(2, count + 4), 4, replace=False).tolist())
    kept = [i for i in range(count + 4) if i not in gaps]
    cells = [
        column(*("" if i in gaps and (i + way) % 2 else float(values[i])
                 for i in range(count + 4)))
        for way, values in enumerate((steps, changes))
    ]  # fmt: skip
    wanted = line_of(steps[kept], changes[kept])
    found = call("LEARNED_EFFECT", *cells), call("LEARNED_DEVIATION", *cells)
    assert found == pytest.approx(wanted, rel=1e-9)


def test_one_entry_has_an_effect_and_no_spread():
    assert call("LEARNED_EFFECT", 4.0, 0.7) == pytest.approx(0.175)
    said(call("LEARNED_DEVIATION", 4.0, 0.7), "one entry: no spread")


@pytest.mark.parametrize(
    "steps, changes, words",
    [
        (column("", ""), column("", ""), ("nothing is logged yet",)),
        (column(3.0, ""), column("", 0.4), ("nothing is logged yet",)),
        (column(0.0, 0.0), column(0.1, 0.2), ("no step was turned",)),
        (column(1.0, 2.0), column(0.1), ("change_measured", "1 rows", "2")),
        (column(1.0, "two"), column(0.1, 0.2), ("steps", "row 2", "two")),
        (column(1.0, 2.0), column("# toe: no finite number", 0.2), ("toe: no finite number",)),
    ],
)
def test_what_a_log_cannot_teach_is_said(steps, changes, words):
    for name in ("LEARNED_EFFECT", "LEARNED_DEVIATION"):
        said(call(name, steps, changes), *words)


def expected(adjusters, quantities, steps, *among):
    names = column("arm, out", "arm, fore", "rod")
    return call("EXPECTED_CHANGES", EXAMPLE, names, *PLAIN, column(*adjusters),
                column(*quantities), column(*steps), *among)  # fmt: skip


def test_expected_changes_are_those_of_the_linkage_closed_by_scipy():
    found = expected(("rod", "", "ARM, fore ", "arm, out"), ("toe", "", "caster", "camber"),
                     (-6.0, "", 3.0, 8.0))  # fmt: skip
    rows = ((2, "toe", -6.0), None, (1, "caster", 3.0), (0, "camber", 8.0))
    for (value,), row in zip(found, rows, strict=True):
        if row is None:
            assert value == ""
            continue
        which, quantity, n = row
        wanted = adjuster_effect(EXAMPLE, quantity, NAMES[which], *WAYS[which].tolist(), n)
        assert value == pytest.approx(wanted, abs=1e-8)


@pytest.mark.parametrize(
    "row, words",
    [
        (("arm", "camber", 1.0), ("there is no adjuster", "arm, out")),
        (("rod", "cambre", 1.0), ("result", "cambre", "camber")),
        (("rod", "trail", 1.0), ("trail", "not logged", "camber, caster")),
        (("rod", "camber", "three"), ("steps", "three", "a number")),
        ((7.0, "camber", 1.0), ("adjuster", "7", "a text")),
        (("rod", 7.0, 1.0), ("result", "7", "a text")),
        (("rod", "camber", 1e6), ("does not close", "rod")),
    ],
)
def test_a_wrong_row_is_said_there_alone(row, words):
    found = expected(*zip(("rod", "toe", 1.0), row, strict=True), "camber, caster, toe")
    assert isinstance(found[0][0], float)
    said(found[1][0], *words)
    if row[1] == "trail":
        assert isinstance(expected(*zip(row, row, strict=True))[1][0], float)


@pytest.mark.parametrize("row", [("", "toe", 1.0), ("rod", "", 1.0), ("rod", "toe", "")])
def test_a_row_that_is_begun_is_nothing_yet(row):
    assert expected(*([cell] for cell in row)) == (("",),)


def test_what_stands_twice_or_moves_nothing_is_said():
    names, moves = column("a", "A", "b"), column("upper arm", "upper arm", "")
    way = column(0.0, 0.0, ""), column(0.5, 0.5, ""), column(0.0, 0.0, "")
    log = column("a", "b"), column("camber", "camber"), column(1.0, 1.0)
    found = call("EXPECTED_CHANGES", EXAMPLE, names, moves, *way, *log)
    said(found[0][0], "2 adjusters", "different")
    said(found[1][0], "not said what the adjuster", "b")


def test_what_a_log_adds_counts_for_every_step():
    """With it the changes are the linkage's and the log's; the steps are those that then do."""
    steps, more = column(3.0, -2.0, 5.0), (0.02, "", -0.01)
    plain = call("ADJUSTED_CHANGE", EXAMPLE, "toe", *PLAIN, steps)
    added = call("ADJUSTED_CHANGE", EXAMPLE, "toe", *PLAIN, steps, 0.0, 0.0, 0.0, (more,))
    assert added - plain == pytest.approx(3.0 * 0.02 - 5.0 * 0.01)
    # An arm that really does half as much as the linkage says: twice the steps.
    arm = (column("upper arm"), column(0.0), column(0.5), column(0.0))
    asked = column("camber"), column(0.35), column(0.45), *arm, column(-9.0), column(9.0)
    effect = call("ADJUSTER_EFFECT", EXAMPLE, "camber", "upper arm", 0.0, 0.5, 0.0, 1.0)
    without = call("ADJUSTER_STEPS", EXAMPLE, *asked)
    learned = call("ADJUSTER_STEPS", EXAMPLE, *asked, column("each"), 0.0, -0.5 * effect)
    assert without[0][0] * effect == pytest.approx(0.4, abs=0.06)
    assert learned[0][0] * 0.5 * effect == pytest.approx(0.4, abs=0.06)
    assert learned[0][0] >= 2.0 * without[0][0] - 1.0


def test_what_a_log_adds_must_fit_the_rest():
    arm = (column("upper arm"), column(0.0), column(0.5), column(0.0))
    said(call("ADJUSTED_CHANGE", EXAMPLE, "toe", *arm, 1.0, 0.0, 0.0, 0.0, ((0.1, 0.2),)),
         "more", "2 columns", "each adjuster, 1")  # fmt: skip
    asked = column("camber"), column(0.3), column(0.5), *arm, column(-9.0), column(9.0)
    said(call("ADJUSTER_STEPS", EXAMPLE, *asked, column("each"), 0.0, column(0.1, 0.2)),
         "more", "2 rows", "each result, 1")  # fmt: skip
    said(call("ADJUSTER_STEPS", EXAMPLE, *asked, column("each"), 0.0, "# nothing"), "nothing")
