"""Whatever a host passes, a formula gives a number, a text or a table, and never raises."""

import math

import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.block import POINTS, VALUES
from cornerbook.cells.example import EXAMPLE
from hypothesis import HealthCheck, given, settings
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


many = settings(
    max_examples=30, deadline=None, derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)  # fmt: skip


@pytest.mark.parametrize("name", FORMULAS)
def test_anything_at_all(name):
    @many
    @given(st.lists(anything, max_size=len(FORMULAS[name].arguments) + 1))
    def hold(raw):
        _hold(name, raw)

    hold()


@pytest.mark.parametrize("name", FORMULAS)
def test_one_argument_of_a_good_call_replaced(name):
    good = _good(FORMULAS[name])

    @many
    @given(st.integers(0, len(good) - 1), anything)
    def hold(i, value):
        _hold(name, [*good[:i], value, *good[i + 1 :]])

    hold()


@pytest.mark.parametrize("name", [n for n, f in FORMULAS.items() if f.arguments[0].kind == "block"])
def test_a_block_with_a_few_wrong_cells(name):
    good = _good(FORMULAS[name])

    @many
    @given(near_blocks() | near_points())
    def hold(corner):
        _hold(name, [corner, *good[1:]])

    hold()


def _hold(name, raw):
    result = call(name, *raw)
    if result is None:
        assert name in ("AT", "IN_ROLL")
    else:
        assert is_fit_for_a_cell(result), (raw, result)
