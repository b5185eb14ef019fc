"""What a whole process costs; run it as a script, nothing here is a test.

    .venv-test/bin/python -m tests.benchmarks.bench_command

Prints the time of `cornerbook new`, `cornerbook share` and `import cornerbook`, best and
worst of several, beside that of a Python that does nothing.
"""

import subprocess
import sys
import tempfile
import time
from pathlib import Path


def timed(*arguments, cwd):
    start = time.perf_counter()
    subprocess.run([sys.executable, *arguments], check=True, cwd=cwd, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def main():
    with tempfile.TemporaryDirectory() as folder:
        first = str(Path(folder) / "first.xlsx")
        timed("-m", "cornerbook", "new", first, cwd=folder)
        names = (str(Path(folder) / ("car%d.xlsx" % i)) for i in range(100))
        for what, arguments in (
            ("python that does nothing", lambda: ["-c", ""]),
            ("import cornerbook", lambda: ["-c", "import cornerbook"]),
            ("cornerbook new", lambda: ["-m", "cornerbook", "new", next(names)]),
            ("cornerbook share", lambda: ["-m", "cornerbook", "share", first, next(names)]),
        ):
            times = sorted(timed(*arguments(), cwd=folder) for _ in range(7))
            print("%s: %.3f to %.3f s" % (what, times[0], times[-1]))


if __name__ == "__main__":
    main()
