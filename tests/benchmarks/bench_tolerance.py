"""What a tolerance study of the example workbook costs; run it as a script, no test.

    .venv-test/bin/python -m tests.benchmarks.bench_tolerance [CARS]

Prints processor time by stage for all results of workbooks/lapwing.xlsx over 100 000 cars, and
the cars a second for several sizes of chunk.
"""

import sys
import time
from pathlib import Path

from cornerbook.book.study.tolerance import draws
from cornerbook.book.study.tolerance.sheets.write import to_xlsx
from cornerbook.book.study.tolerance.study import Study

BOOK = Path(__file__).parents[2] / "workbooks" / "lapwing.xlsx"


def timed(what, work):
    start = time.process_time()
    result = work()
    print("%s: %.2f s" % (what, time.process_time() - start))
    return result


def main():
    cars = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    start = time.process_time()
    study = timed("workbook read, results held to one car's", lambda: Study(BOOK))
    amounts = study.amounts()
    outcome = timed(
        "%d cars, %d results, %d coordinates" % (cars, len(study.results), len(amounts)),
        lambda: study.run(amounts, "normal", cars, 1),
    )
    timed("workbook written", lambda: to_xlsx(outcome))
    print("all: %.2f s of processor time" % (time.process_time() - start))
    for size in (512, 1024, 2048, 4096, 8192, 16384):
        draws.CHUNK = size
        begun = time.process_time()
        study.run(amounts, "normal", 32768, 1)
        print("chunks of %d: %.0f cars a second" % (size, 32768 / (time.process_time() - begun)))


if __name__ == "__main__":
    main()
