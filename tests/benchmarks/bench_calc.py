"""What the formulas cost in a real Calc; run it as a script, nothing here is a test.

    .venv-test/bin/python -m tests.benchmarks.bench_calc

Prints the mean cost of `CORNER.CAMBER(Front; travel; rack)` at 10,000 distinct poses, and
the time for the starter workbook to be recalculated wholly. "First" is with no pose known
yet: a hard recalculation asks for each again, and poses that are kept cost less.
"""

import tempfile
import time
from pathlib import Path

from cornerbook.book.make.new import make
from cornerbook.book.plain.share import share
from cornerbook.cells.example import EXAMPLE

from tests.calc.calc import Calc
from tests.calc.examples import block_at

POSES = 10_000


def camber(calc):
    """Seconds for each of some recalculations of 10,000 cells, always at new poses."""
    with calc.new() as book:
        book.fill("Sheet1", block_at(30), EXAMPLE)
        book.name_range("Front", "Sheet1", block_at(30))
        times = []
        for turn in range(4):
            rows = [
                [-60 + 120 * i / POSES, -40 + 80 * (i * 37 % POSES) / POSES + 0.001 * turn]
                for i in range(POSES)
            ]
            book.fill("Sheet1", "B1:C%d" % POSES, rows)
            if turn == 0:
                formulas = [["=CORNER.CAMBER(Front;B%d;C%d)" % (i, i)] for i in range(1, POSES + 1)]
                book.fill("Sheet1", "A1:A%d" % POSES, formulas)
            # Every pose is new to the formulas, which keep fewer than two such tables.
            times.append(book.recalculate())
        assert all(isinstance(v, float) for (v,) in book.get("Sheet1", "A1:A%d" % POSES))
    return times


def native(calc):
    """The same number of cells with a formula of Calc's own."""
    with calc.new() as book:
        formulas = [["=SIN(ROW()/1000)*%d" % i] for i in range(POSES)]
        book.fill("Sheet1", "A1:A%d" % POSES, formulas)
        return [book.recalculate() for _ in range(3)]


def starter(calc):
    """Seconds to recalculate the starter wholly."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "car.xlsx"
        path.write_bytes(make())
        with calc.open(path) as book:
            return [book.recalculate() for _ in range(5)]


def shared():
    """Seconds to open the shared starter in a Calc without the extension, and recalculate it."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "car.xlsx"
        path.write_bytes(make())
        copy = Path(folder) / "copy.xlsx"
        copy.write_bytes(share(path)[0])
        with Calc(extension=False) as calc:
            start = time.perf_counter()
            with calc.open(copy) as book:
                opened = time.perf_counter() - start
                return opened, [book.recalculate() for _ in range(5)]


def main():
    with Calc(extension=True) as calc:
        print("LibreOffice", calc.version())
        for what, times in (("CORNER.CAMBER", camber(calc)), ("native", native(calc))):
            each = ", ".join("%.1f" % (1e6 * t / POSES) for t in times)
            print("%s, %d cells: %s us a cell" % (what, POSES, each))
        print("starter, whole: %s s" % ", ".join("%.3f" % t for t in starter(calc)))
    opened, times = shared()
    each = ", ".join("%.3f" % t for t in times)
    print("shared starter: opened in %.3f s, recalculated in %s s" % (opened, each))


if __name__ == "__main__":
    main()
