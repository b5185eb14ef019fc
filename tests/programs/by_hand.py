"""Hundreds of random cars and mistakes in a copy, by Calc, IronCalc and Gnumeric, by hand.

    python -m tests.programs.by_hand [--chapters a,b] [--system in] [--cars 300] [--mistakes 300]
        [--gnumeric-every 10] [--seed 0] [--from N] [--calc-saves]

Prints each cell in which a program differs from Calc, by its case, and at the end how many.
Gnumeric starts anew for every case, so it computes only one case in some.
"""

import argparse
import tempfile
from pathlib import Path

from tests.calc.calc import Calc
from tests.programs.engines import InCalc, InGnumeric, InIronCalc, wanted_cells
from tests.programs.held import differences, mistake, other_car, saved_and_shared
from tests.support.once import Once
from tests.support.yellow import yellow_of


def main():
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--chapters", default="")
    asked.add_argument("--system", default="mm")
    asked.add_argument("--cars", type=int, default=300)
    asked.add_argument("--mistakes", type=int, default=300)
    asked.add_argument("--gnumeric-every", type=int, default=10)
    asked.add_argument("--seed", type=int, default=0)
    asked.add_argument("--calc-saves", action="store_true", help="before it is shared")
    asked = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        once = Once(Path(folder) / "once")
        chapters = tuple(filter(None, asked.chapters.split(",")))
        original = once.workbook(system=asked.system, chapters=chapters)
        calc = Calc(extension=False)
        calc.start()
        try:
            path = once.copy(system=asked.system, chapters=chapters)[0]
            if asked.calc_saves:
                extended = Calc(extension=True)
                extended.start()
                try:
                    path = saved_and_shared(extended, original, Path(folder))
                finally:
                    extended.end()
            _hold(asked, original, path, calc, Path(folder))
        finally:
            calc.end()


def _hold(asked, original, path, calc, folder):
    cells = wanted_cells(path)
    yellow = yellow_of(str(original))
    shared = yellow_of(str(path)) if asked.calc_saves else yellow
    with calc.open(path) as book:
        programs = {"Calc": InCalc(book, cells), "IronCalc": InIronCalc(path, cells)}
        found = dict.fromkeys(("IronCalc", "Gnumeric"), 0)
        for case in range(asked.cars + asked.mistakes):
            seed = f"{asked.seed} {case}"
            if case < asked.cars:
                edits = other_car(str(original), seed, shared)
            else:
                cell, wrong = mistake(yellow, seed)
                edits = {cell: wrong}
            # What is put back goes through each program's own spelling of values, not of formulas.
            edits = {c: v for c, v in edits.items() if not str(yellow[c]).startswith("=")}
            for program in programs.values():
                program.set(edits)
            want = programs["Calc"].values()
            others = {"IronCalc": programs["IronCalc"].values()}
            if asked.gnumeric_every and case % asked.gnumeric_every == 0:
                gnumeric = InGnumeric(path, cells, folder)
                gnumeric.set(edits)
                others["Gnumeric"] = gnumeric.values()
            for name, values in others.items():
                for cell, (one, other) in differences(want, values).items():
                    found[name] += 1
                    said = edits if case >= asked.cars else ""
                    print(f"case {case} {said}: {cell} Calc {one!r}, {name} {other!r}", flush=True)
            back = {cell: yellow[cell] for cell in edits}
            for program in programs.values():
                program.set(back)
        print(f"{asked.cars} cars and {asked.mistakes} mistakes, {sum(map(len, cells.values()))} "
              f"cells each: cells that differ {found}")  # fmt: skip


if __name__ == "__main__":
    main()
