"""What commands take of memory is free once they are done, before Python looks for circles.

A workbook and its copy are a million things: in circles they would stay until then, and looking
takes a tenth of the time.
"""

import gc

import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.formula.values import Values
from cornerbook.book.make.new import make
from cornerbook.book.plain.share import share
from cornerbook.book.study.typed.run import scenario_of

CHAPTERS = ("bump",)


def _evaluate(path):
    values = Values(Package.read(path))
    for cell in values.trees.made():
        values.seen(cell)


def _resolve(path):
    package = Package.read(path)
    _cells(package)
    for _, scope, text in package.names:
        package.resolve(text, scope or package.sheets[0])


def _cells(package):
    """How many cells hold anything."""
    return sum(len(package.cells(sheet)) for sheet in package.sheets)


DONE = {
    "new": lambda _: make("car", "lapwing", "mm", "calc", chapters=list(CHAPTERS)),
    "evaluate": _evaluate,
    "resolve": _resolve,
    "scenario": lambda path: scenario_of(path, "car.toml"),
    "share": share,
}


@pytest.mark.parametrize("what", DONE)
def test_few_things_are_left(what, once):
    path = once.workbook(chapters=CHAPTERS)
    cells = _cells(Package.read(path))
    DONE[what](path)  # what is kept for the next time
    gc.collect(1)  # so that the youngest are those of the next time, which alone are looked through
    gc.disable()
    try:
        DONE[what](path)
        assert 10 * gc.collect(0) < cells
    finally:
        gc.enable()
