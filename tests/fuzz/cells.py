"""Yellow cells left blank or filled with what nobody means, one at a time, in a real Calc.

No cell of the workbook may then show a bare error, and no verdict may say that all is well of a
number that has changed because a cell is blank. The suite does some (tests/calc/test_bad_cells.py);
by hand, from the folder that holds `tests`, all of a workbook:

    python -m tests.fuzz.cells car.xlsx --kinds blank,word --seed 1 --cases 500

`--wide` reads every cell: where a word stands in place of a number, no number may become another
one, and some sentence must name the cell, its name or its row. What it tells is to be looked at.

An error that is meant: #N/A in a cell that a chart draws, or that calls CORNER.AT or
CORNER.IN_ROLL alone, or in a table of CORNER.TWO_WAY: a point of a sweep that is out of reach.
"""

import argparse
import random
import re
import zipfile
from pathlib import Path

from openpyxl.utils import range_boundaries
from openpyxl.utils.cell import get_column_letter

from tests.support.looking import looked_into
from tests.support.yellow import yellow_of

NOT_AVAILABLE = 32767
"""Calc's number for #N/A."""

KINDS = {"blank": (None,), "word": ("abc",), "silly": (0.0, -1e6)}
"""What is put into a cell, by the kind of edit."""

WITHIN = "pass"

MEANT_BLANK = {
    "Wanted": "ABCD", "Rules": "ABCDEFGH", "Arrangements": "ABCDEFGHIJ", "What-if": "BCDEFGHIJKLM",
    "Adjusters": "ABCDEFGHIJKLM", "Survey": "ABCDEFGHIJ", "Driver": "EFGHIJKLM", "Masses": "AFGHI",
    "Body": "ABDE", "Springs": ("B7", "B8", "B9"),
}  # fmt: skip
"""Columns in which a blank cell has a meaning, as the sheet says; others say so in their row.

Without the spring's longest length the sheet Springs looks over the travel shown.
"""
_DRAWN = re.compile(rb"<c:f>([^<]+)</c:f>")
_SWEPT = re.compile(r"CORNER\.(AT|IN_ROLL)\(")
_COUNTED = re.compile(r"=COUNT\(|.*\bNA\(\)|=(MIN|MAX)\([^()]*\)$|=[A-Z]+\d+\+")
"""Formulas of a count, or of how far a chart's axis goes, which change with what is there."""

_VERDICT = re.compile(r'IF\(AND\(ISNUMBER\((\$?[A-Z]+\$?\d+)\),OR\(.*"not known"\)\)\)$')


class Cells:
    """What stands where in a workbook's file: its yellow cells, charts and verdicts."""

    def __init__(self, path):
        self.yellow = yellow_of(path)
        book = looked_into(path)
        self.swept = {*_drawn(path), *_of_sweeps(book)}
        self.judged = dict(_judged(book))
        self.told = set(_told(book))
        self.names = dict(_named(book))
        self.counts = set(_counting(book))
        self.areas = [(sheet.title, sheet.calculate_dimension()) for sheet in book]
        self.labels = {
            (s, cell): book[s].cell(book[s][cell].row, 1).value for s, cell in self.yellow
        }

    def edits(self, kinds=tuple(KINDS)):
        """(sheet, cell, what) of every edit: numbers only where a number is expected."""
        for (sheet, cell), held in self.yellow.items():
            word = isinstance(held, str) and not held.startswith("=")
            for kind in kinds:
                if (kind == "blank" and held is None) or (kind == "silly" and word):
                    continue
                yield from ((sheet, cell, what) for what in KINDS[kind])

    def may_be_blank(self, sheet, cell):
        """Whether a blank cell there has a meaning of its own."""
        meant = MEANT_BLANK.get(sheet, ())
        return cell.rstrip("0123456789") in meant or cell in meant or (sheet, cell) in self.told

    def is_number(self, sheet, cell):
        """Whether a yellow cell holds a number, so that a word has no meaning there."""
        return isinstance(self.yellow[sheet, cell], (int, float))

    def called(self, sheet, cell):
        """What a sentence may call a yellow cell by, in small letters."""
        name = next((name for name, place in self.names.items() if place == (sheet, cell)), None)
        words = (f"{sheet}!{cell}", name, self.labels[sheet, cell])
        return [str(word).lower() for word in words if word not in (None, "")]

    def seen(self):
        """The ranges to read: each verdict and the number that it judges."""
        return [place for pair in self.judged.items() for place in pair]


def found(book, cells, edits, together=5):
    """(edit, what is wrong, in words) of each fault; book: in Calc, as the file has it."""
    pairs = list(cells.judged)
    before = dict(zip(pairs, _pairs(book.seen(cells.seen())), strict=True))
    edits = list(edits)
    for start in range(0, len(edits), together):
        some = edits[start : start + together]
        for edit, (errors, rows) in zip(some, book.edited(some, cells.seen()), strict=True):
            for place, fault in errors.items():
                if fault.code != NOT_AVAILABLE or place not in cells.swept:
                    yield edit, f"{place[0]}!{place[1]} shows {fault.text}"
            blank = edit[2] is None and not cells.may_be_blank(*edit[:2])
            if blank or (isinstance(edit[2], str) and cells.is_number(*edit[:2])):
                for place, (said, number) in zip(pairs, _pairs(rows), strict=True):
                    if said == WITHIN and number != before[place][1]:
                        yield edit, f"{place[0]}!{place[1]} says {said} of {number}"


def strayed(book, cells, edits, together=5):
    """(edit, what is to be looked at) of words in place of numbers, by every cell of the book."""
    before = everything(cells, book.seen(cells.areas))
    edits = [edit for edit in edits if isinstance(edit[2], str) and cells.is_number(*edit[:2])]
    for start in range(0, len(edits), together):
        some = edits[start : start + together]
        for edit, (_, rows) in zip(some, book.edited(some, cells.areas), strict=True):
            now = everything(cells, rows)
            changed = {place: now[place] for place, was in before.items() if now[place] != was}
            changed.pop(edit[:2])
            for place, value in changed.items():
                numbers = isinstance(value, float) and isinstance(before[place], float)
                if numbers and place not in cells.counts:
                    yield edit, f"{place[0]}!{place[1]}: {before[place]} becomes {value}"
            said = {v for v in changed.values() if isinstance(v, str) and v.startswith("# ")}
            called = cells.called(*edit[:2])
            if not changed:
                yield edit, "nothing changes"
            elif said and not any(word in text.lower() for text in said for word in called):
                yield edit, f"is named by none of {sorted(said)[:3]}"


def everything(cells, rows):
    """{(sheet, cell): value} of all areas."""
    found = {}
    for (sheet, area), values in zip(cells.areas, rows, strict=True):
        left, top, *_ = range_boundaries(area)
        for y, row in enumerate(values):
            for x, value in enumerate(row):
                found[sheet, f"{get_column_letter(left + x)}{top + y}"] = value
    return found


def _pairs(rows):
    """(verdict, number) of what was read, in order."""
    values = [row[0][0] for row in rows]
    return list(zip(values[::2], values[1::2], strict=True))


def _drawn(path):
    """(sheet, cell) of everything that a chart of a file draws."""
    with zipfile.ZipFile(path) as package:
        for name in package.namelist():
            if name.startswith("xl/charts/chart"):
                for text in _DRAWN.findall(package.read(name)):
                    sheet, cells = text.decode().replace("&apos;", "'").rsplit("!", 1)
                    for address in _addresses(cells.replace("$", "")):
                        yield sheet.strip("'"), address


def _addresses(area):
    left, top, right, bottom = range_boundaries(area)
    for row in range(top, bottom + 1):
        for column in range(left, right + 1):
            yield f"{get_column_letter(column)}{row}"


def _of_sweeps(book):
    """(sheet, cell) of every cell of a file that is a point of a sweep."""
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                formula = getattr(cell.value, "text", cell.value)
                formula = formula if isinstance(formula, str) else ""
                if "CORNER.TWO_WAY(" in formula:
                    for address in _addresses(getattr(cell.value, "ref", cell.coordinate)):
                        yield sheet.title, address
                elif _SWEPT.search(formula) and "IFERROR(" not in formula:
                    yield sheet.title, cell.coordinate


def _counting(book):
    """(sheet, cell) of every cell of a file whose formula counts, or looks how far a chart goes."""
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell.value, str) and _COUNTED.match(cell.value):
                    yield sheet.title, cell.coordinate


def _named(book):
    """(name, (sheet, cell)) of every single cell of a file that has a name."""
    for name, defined in book.defined_names.items():
        sheet, cells = next(defined.destinations)
        if ":" not in cells:
            yield name, (sheet, cells.replace("$", ""))


def _told(book):
    """(sheet, cell) of every cell of a file in whose row is said what it means when blank."""
    for sheet in book:
        for row in sheet.iter_rows():
            if any(isinstance(c.value, str) and re.search("[Bb]lank", c.value) for c in row):
                yield from ((sheet.title, cell.coordinate) for cell in row)


def _judged(book):
    """((sheet, cell of a verdict), (sheet, cell of the number that it judges)) of a file."""
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                number = isinstance(cell.value, str) and _VERDICT.search(cell.value)
                if number:
                    yield (sheet.title, cell.coordinate), (sheet.title, number[1].replace("$", ""))


def main():
    from tests.calc.calc import Calc

    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("workbook", type=Path)
    parser.add_argument("--kinds", default=",".join(KINDS))
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--cases", type=int, help="how many; all if not given")
    parser.add_argument("--wide", action="store_true", help="words in place of numbers, all cells")
    asked = parser.parse_args()
    cells = Cells(asked.workbook)
    edits = list(cells.edits(asked.kinds.split(",")))
    random.Random(asked.seed).shuffle(edits)
    edits = edits[: asked.cases]
    wrong = {}
    with Calc(extension=True) as calc, calc.open(asked.workbook) as book:
        book.recalculate()
        for number in range(0, len(edits), 50):
            look = strayed if asked.wide else found
            for edit, said in look(book, cells, edits[number : number + 50]):
                if asked.wide or edit not in wrong:
                    print(*edit, said, sep=" | ", flush=True)
                wrong.setdefault(edit, []).append(said)
            print(
                f"{min(number + 50, len(edits))} of {len(edits)}: {len(wrong)} faults", flush=True
            )
        left = [place for place in book.errors() if place not in cells.swept]
    print(f"{len(wrong)} of {len(edits)} edits; errors left behind: {left}")
    return 1 if wrong or left else 0


if __name__ == "__main__":
    raise SystemExit(main())
