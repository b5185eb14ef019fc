"""What several folders of tests share."""

import os
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1]))  # so that tests can import tests.calc.calc


@pytest.fixture(scope="session")
def calc():
    """A real Calc with the extension; skipped where there is none, unless it is required."""
    from tests.calc.calc import Calc, CalcMissing

    running = Calc(extension=True)
    try:
        running.start()
    except CalcMissing as problem:
        if os.environ.get("CORNERBOOK_NEEDS_CALC"):
            raise
        pytest.skip(str(problem))
    yield running
    running.end()
