"""What `cornerbook solve` costs as a process; run it as a script, nothing here is a test.

    .venv-test/bin/python -m tests.benchmarks.bench_solve

Prints the time of the whole command on the starter with one to six inputs, and with targets
that fight, best and worst of several; then how often the workbook's results are worked out.
"""

import subprocess
import sys
import tempfile
import time
from pathlib import Path

from cornerbook.book.file.package import Package
from cornerbook.book.make.new import make
from cornerbook.book.study.recalculate import Function
from cornerbook.book.study.solve.run import solve

CASES = (
    ("one input", [("Upper ball joint", "x")], ["Caster=7"]),
    ("two inputs", [("Upper ball joint", "x"), ("Upper ball joint", "y")],
     ["Caster=7", "Inclination=10"]),
    ("four inputs, three targets",
     [("Upper ball joint", "x"), ("Upper ball joint", "y"), ("Tie rod inner", "z"),
      ("Tie rod outer", "z")], ["Caster=7", "Inclination=10", "BumpSteer=0"]),
    ("six inputs, four targets",
     [("Upper ball joint", "x"), ("Upper ball joint", "y"), ("Tie rod inner", "z"),
      ("Tie rod outer", "x"), ("Upper front pickup", "z"), ("Upper rear pickup", "z")],
     ["Caster=7", "Inclination=10", "BumpSteer=0", "CamberGain=-0.03"]),
    ("two inputs, three targets that fight",
     [("Upper ball joint", "x"), ("Upper ball joint", "y")],
     ["Caster=7", "Inclination=10", "Trail=30"]),
)  # fmt: skip


def cells_of(path, inputs):
    """The addresses of rows and axes of the front corner's block."""
    rows = {}
    for address, content in Package.read(path).cells("Front corner").items():
        if address[0] == "A":
            rows[content.value] = address[1:]
    return ["Front corner!%s%s" % ("BCD"["xyz".index(axis)], rows[row]) for row, axis in inputs]


def process(path, inputs, targets, number):
    """Seconds of one run of the command."""
    out = path.with_name("out%d.xlsx" % number)
    start = time.perf_counter()
    subprocess.run(
        [sys.executable, "-m", "cornerbook", "solve", str(path), "--change", *inputs,
         "--make", *targets, "--out", str(out), "--force"],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False,
    )  # fmt: skip
    return time.perf_counter() - start


def counted(path, inputs, targets):
    """How often the results are worked out, and the seconds of all that without the process."""
    count, plain = [0], Function.__call__

    def counting(self, values):
        count[0] += 1
        return plain(self, values)

    Function.__call__ = counting
    try:
        start = time.perf_counter()
        solve(path, inputs, targets)
        return count[0], time.perf_counter() - start
    finally:
        Function.__call__ = plain


def main():
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "car.xlsx"
        path.write_bytes(make())
        for what, places, targets in CASES:
            inputs = cells_of(path, places)
            times = sorted(process(path, inputs, targets, n) for n in range(5))
            count, inside = counted(path, inputs, targets)
            print("%s: %.2f to %.2f s; within: %d workings out, %.2f s"
                  % (what, times[0], times[-1], count, inside))  # fmt: skip


if __name__ == "__main__":
    main()
