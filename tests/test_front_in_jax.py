"""The Python front with arrays of JAX, where that is installed: at once, and compiled.

It is asked of nobody: `pip install jax` (some 600 MB) and run this file by hand after a change
of `any_array.py` or of the functions that the geometry asks for.
"""

import numpy as np
import pytest
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.quantity import name_of, quantities
from cornerbook.front import Corner

jax = pytest.importorskip("jax", reason="JAX is not installed (pip install jax)")

NAMES = [name_of(entry) for entry in quantities().values()]
TRAVEL = np.linspace(-60.0, 60.0, 13)[:, None]
RACK = np.array([-80.0, -12.5, 0.0, 30.0])[None, :]


@pytest.fixture(autouse=True)
def of_64_bits():
    with jax.enable_x64(True):
        yield


@pytest.fixture
def corner():
    return Corner(EXAMPLE)


def test_compiled(corner):
    """Every quantity at poses that a car drives."""
    compiled = jax.jit(lambda travel, rack: corner.table(NAMES, travel, rack, 1600.0))
    found = compiled(TRAVEL, RACK)
    wanted = corner.table(NAMES, TRAVEL, RACK, 1600.0)
    for name, one, want in zip(NAMES, found, wanted, strict=True):
        assert isinstance(one, jax.Array) and one.dtype == "float64"
        # A compiler may round each step another way, and a difference of steps loses digits.
        assert np.asarray(one) == pytest.approx(want, rel=1e-10, abs=1e-10, nan_ok=True), name


def test_at_once(corner):
    for travel in (20.0, 400.0):
        one = corner.at("camber", jax.numpy.asarray([travel, 0.0]), 5.0)
        want = [corner.at("camber", each, 5.0) for each in (travel, 0.0)]
        assert np.asarray(one) == pytest.approx(want, rel=1e-12, nan_ok=True)
