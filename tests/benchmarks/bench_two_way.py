"""What a two-way table and the car's workbook cost in a real Calc; a script, no test.

    .venv-test/bin/python -m tests.benchmarks.bench_two_way

Prints the time for a 50 x 50 table of CORNER.TWO_WAY to be recalculated, for several results
and pairs of inputs, and for an edit of a point in the car's workbook with a recalculation
of all its cells.
"""

import statistics
import tempfile
import time
from pathlib import Path

import openpyxl
from cornerbook.book.make.new import make
from cornerbook.cells.example import EXAMPLE

from tests.calc.calc import Calc
from tests.calc.examples import block_at

TABLES = {
    "camber over travel and rack": '"camber";"travel";-50;50;50;"rack";-40;40;50',
    "camber over two points": (
        '"camber";"upper ball joint z";360;390;50;"lower ball joint z";140;160;50;25'
    ),
    "bump steer over two points": (
        '"bump steer";"tie rod inner z";175;195;50;"tie rod inner y";205;225;50'
    ),
    "Ackermann over two points": (
        '"ackermann";"tie rod outer y";480;500;50;"tie rod outer x";-105;-85;50;0;-30;1600'
    ),
}
TURNS = 5


def two_way(calc):
    """Prints the median seconds of each table."""
    for title, arguments in TABLES.items():
        with calc.new() as book:
            book.fill("Sheet1", block_at(60), EXAMPLE)
            book.name_range("Front", "Sheet1", block_at(60))
            book.fill("Sheet1", "A1", [["=SUM(CORNER.TWO_WAY(Front;%s))" % arguments]])
            times = []
            for turn in range(TURNS):
                # A new number each time, so that nothing is known already.
                book.set("Sheet1", "D61", 260.0 + 0.001 * turn)
                times.append(book.recalculate())
            print("%-28s %.3f s" % (title, statistics.median(times)))


def whole(calc):
    """Prints the seconds for an edit of a point and a recalculation of the whole workbook."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "car.xlsx"
        path.write_bytes(make("car"))
        path.chmod(0o644)
        Path(folder).chmod(0o755)
        sheet = openpyxl.load_workbook(path)["Front corner"]
        (row,) = [r for r in range(1, 60) if sheet.cell(r, 1).value == "Upper ball joint"]
        was = sheet.cell(row, 2).value
        with calc.open(path) as book:
            book.recalculate()
            times = []
            for turn in range(TURNS):
                start = time.perf_counter()
                book.set("Front corner", "B%d" % row, was + 0.01 * (turn + 1))
                book.recalculate()
                times.append(time.perf_counter() - start)
            print("%-28s %.3f s" % ("car's workbook, all of it", statistics.median(times)))


if __name__ == "__main__":
    with Calc(extension=True) as calc:
        two_way(calc)
        whole(calc)
