"""What a whole process costs; run it as a script, nothing here is a test.

    .venv-test/bin/python -m tests.benchmarks.bench_command
    .venv-test/bin/python -m tests.benchmarks.bench_command OTHER_PYTHON 3

Prints the processor time of the commands, least and median of several runs. With the Python of
another environment, which has another version installed, both run in turn: a machine that others
use too is slow by the minute, and only what ran in turn can be compared.
"""

import resource
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

FEW = ("--wheelbase", "1700", "--front-track", "1000", "--tyre-radius", "280")


def taken(python, arguments, cwd):
    """Seconds of processor time of one run, without the system's own."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    subprocess.run([python, *arguments], check=True, cwd=cwd, stdout=subprocess.DEVNULL)
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before


def main():
    pythons = [sys.executable, *sys.argv[1:2]]
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    with tempfile.TemporaryDirectory() as folder:
        first = str(Path(folder) / "first.xlsx")
        taken(sys.executable, ["-m", "cornerbook", "new", first], folder)
        for what in (
            ("-c", ""),
            ("-c", "import cornerbook"),
            ("-m", "cornerbook", "--help"),
            ("-m", "cornerbook", "--version"),
            ("-m", "cornerbook", "new", "--force", "car.xlsx"),
            ("-m", "cornerbook", "new", "--force", "few.xlsx", *FEW),
            ("-m", "cornerbook", "share", "--force", first, "copy.xlsx"),
            ("-m", "cornerbook", "draw", "--force", first, "car.png"),
        ):
            times = [[taken(python, what, folder) for python in pythons] for _ in range(count)]
            said = [
                "%.2f, %.2f s" % (min(t), statistics.median(t)) for t in zip(*times, strict=True)
            ]
            print(f"{' '.join(what[:4])}: {'; other: '.join(said)}", flush=True)


if __name__ == "__main__":
    main()
