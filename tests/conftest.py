"""What several folders of tests share."""

import gc
import os
import sys
from pathlib import Path

import pytest

# A process beside others has a processor to itself, at best: threads of NumPy's own would wait for
# one another there, at full speed.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# What tests make is looked through for circles between them, when most of it is gone by itself: at
# Python's own pace that takes a sixth of all the time. A shared copy is a million things, some
# 150 MB, until it is made; a test that makes many is looked through all the same.
gc.set_threshold(8_000_000, 2, 2)
MANY = 1_000_000
"""Things made and not gone yet, after which they are looked through once a test has ended."""


CALCS = {"calc", "bare_calc"}
"""Fixtures that start a Calc."""


def pytest_collection_modifyitems(items):
    """Files of which a test needs a Calc come first: of processes that share the tests, the one
    that begins there keeps its Calc and what is open in it, and gives others away."""
    need = {item.path for item in items if CALCS.intersection(item.fixturenames)}
    items.sort(key=lambda item: item.path not in need)


def pytest_collection_finish():
    """What is there before the first test stays, and need not be looked through again."""
    gc.collect()
    gc.freeze()


def pytest_runtest_logfinish():
    """What has been made since the last time is looked through for circles, if it is much."""
    if gc.get_count()[0] > MANY:
        gc.collect(1)


def pytest_unconfigure():
    """At its end pytest looks for circles more than once, to be sure; here once does."""
    gc.collect()
    gc.freeze()


sys.path.insert(0, str(Path(__file__).parents[1]))  # so that tests can import tests.calc.calc


@pytest.fixture(scope="session")
def once(tmp_path_factory):
    """What makes files once in a run; see `support/once.py`."""
    from tests.support.once import Once

    folder = tmp_path_factory.getbasetemp()
    # A test process beside others has a folder of its own within that of the run.
    if os.environ.get("PYTEST_XDIST_WORKER"):
        folder = folder.parent
    return Once(folder / "once")


@pytest.fixture(scope="session")
def starter(once):
    """The path of the demonstration car's workbook, read-only."""
    return once.workbook()


@pytest.fixture(scope="session")
def calc():
    """A real Calc with the extension; skipped where there is none, unless it is required."""
    yield from _running(extension=True)


@pytest.fixture(scope="session")
def bare_calc():
    """A real Calc without the extension."""
    yield from _running(extension=False)


@pytest.fixture(scope="session")
def opened(calc, starter):
    """That workbook open in Calc and worked out; tests change it by `book.with_edits` alone."""
    with calc.open(starter) as book:
        book.recalculate()
        yield book


@pytest.fixture(scope="session")
def saved_by_calc(once, opened, tmp_path_factory):
    """The path of what Calc saves of it, read-only."""
    path = tmp_path_factory.mktemp("calc") / "saved.xlsx"
    return once.file("saved by calc.xlsx", lambda: opened.save(path).read_bytes())


@pytest.fixture(scope="session")
def opened_in_inches(calc, once):
    """The same car's workbook in inches, likewise."""
    with calc.open(once.workbook(system="in")) as book:
        book.recalculate()
        yield book


@pytest.fixture(scope="session")
def opened_copy(bare_calc, once):
    """Its shared copy, open in the Calc without the extension, likewise."""
    with bare_calc.open(once.copy()[0]) as book:
        book.recalculate()
        yield book


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
