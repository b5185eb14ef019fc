"""What several folders of tests share."""

import os

import pytest


@pytest.fixture(scope="session")
def calc():
    """A real Calc with the extension; skipped where there is none, unless it is required."""
    from tests.calc.calc import Calc, CalcMissing

    running = Calc(extension=True)
    try:
        running.__enter__()
    except CalcMissing as problem:
        if os.environ.get("CORNERBOOK_NEEDS_CALC"):
            raise
        pytest.skip(str(problem))
    yield running
    running.__exit__()
