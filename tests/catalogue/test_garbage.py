"""Whatever a host passes, a formula gives a number, a text or a table, and never raises."""

import functools
import math

import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.block import POINTS, VALUES
from cornerbook.cells.example import EXAMPLE
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from tests.catalogue.test_bad_input import _good

numbers = st.floats() | st.integers(-1000, 1000) | st.sampled_from([1e308, -1e308, 5e-324, 0.0])
texts = st.text(max_size=12) | st.sampled_from(["camber, toe", "travel", "wheel centre", "x", "mm"])
cells = numbers | texts | st.none() | st.booleans() | st.just("")
ranges = st.lists(st.lists(cells, min_size=1, max_size=5), min_size=1, max_size=4)
names = st.sampled_from([row[0] for row in EXAMPLE]) | st.sampled_from(POINTS + VALUES)
garbage_blocks = st.lists(st.tuples(names | cells, cells, cells, cells), max_size=14).map(tuple)


@st.composite
def near_blocks(draw):
    """The example block with a few cells replaced."""
    rows = [list(row) for row in EXAMPLE]
    for _ in range(draw(st.integers(1, 3))):
        row = draw(st.integers(0, len(rows) - 1))
        rows[row][draw(st.integers(0, 3))] = draw(cells)
    return tuple(map(tuple, rows))


@st.composite
def near_points(draw):
    """The example block with points where they hardly belong, all of them numbers."""
    rows = [list(row) for row in EXAMPLE]
    for _ in range(draw(st.integers(1, 4))):
        row = draw(st.integers(0, len(rows) - 1))
        size = draw(st.sampled_from([1.0, 100.0, 500.0, 1e5, 1e150]))
        place = draw(st.integers(1, 1 if rows[row][2] == "" else 3))
        rows[row][place] = draw(st.integers(-3, 3)) * size
    return tuple(map(tuple, rows))


anything = cells | ranges | garbage_blocks | near_blocks() | near_points()


def is_fit_for_a_cell(result):
    """A finite number, a text, or a table of those and of None."""
    if isinstance(result, tuple):
        return all(
            cell is None or is_fit_for_a_cell(cell) for row in result for cell in row
        ) and bool(result)
    if isinstance(result, str):
        return "failed inside" not in result
    return isinstance(result, float) and math.isfinite(result)


@functools.cache
def drawn(strategy):
    """Thirty examples of a strategy, the same in every run. Drawing them costs more than calling a
    formula, so all formulas are given the same."""
    found = []

    @settings(
        max_examples=30, deadline=None, derandomize=True, database=None,
        phases=[Phase.generate],
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )  # fmt: skip
    @given(strategy)
    def take(example):
        found.append(example)

    take()
    assert len(found) >= 30
    return found


MOST = max(len(formula.arguments) for formula in FORMULAS.values()) + 1
arguments = st.lists(anything, min_size=MOST, max_size=MOST)
blocks = near_blocks() | near_points()


@pytest.mark.parametrize("name", FORMULAS)
def test_anything_at_all(name):
    """From no argument to one too many."""
    lengths = len(FORMULAS[name].arguments) + 2
    for number, raw in enumerate(drawn(arguments)):
        _hold(name, raw[: number % lengths])


@pytest.mark.parametrize("name", FORMULAS)
def test_one_argument_of_a_good_call_replaced(name):
    good = _good(FORMULAS[name])
    for number, value in enumerate(drawn(anything)):
        # Each argument in turn, beginning with another for each formula.
        i = (number + len(name)) % len(good)
        _hold(name, [*good[:i], value, *good[i + 1 :]])


@pytest.mark.parametrize("name", [n for n, f in FORMULAS.items() if f.arguments[0].kind == "block"])
def test_a_block_with_a_few_wrong_cells(name):
    good = _good(FORMULAS[name])
    for corner in drawn(blocks):
        _hold(name, [corner, *good[1:]])


def _hold(name, raw):
    result = call(name, *raw)
    if result is None:
        assert name in ("AT", "IN_ROLL")
    else:
        assert is_fit_for_a_cell(result), (raw, result)
