"""What the tests of the geometry share."""

import numpy as np
import pytest


@pytest.fixture(scope="session", autouse=True)
def _quiet_arrays():
    """Places that a linkage cannot reach are NaN on purpose; NumPy need not warn of them."""
    with np.errstate(all="ignore"):
        yield
