"""What several folders of tests share."""

import os
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1]))  # so that tests can import tests.calc.calc


@pytest.fixture(scope="session")
def calc():
    """A real Calc with the extension; skipped where there is none, unless it is required."""
    yield from _running(extension=True)


@pytest.fixture(scope="session")
def bare_calc():
    """A real Calc without the extension."""
    yield from _running(extension=False)


def _running(extension):
    from tests.calc.calc import Calc, CalcMissing

    running = Calc(extension=extension)
    try:
        running.start()
    except CalcMissing as problem:
        if os.environ.get("CORNERBOOK_NEEDS_CALC"):
            raise
        pytest.skip(str(problem))
    yield running
    running.end()
