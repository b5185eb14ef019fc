"""The yellow cells of a workbook as openpyxl has them, and workbooks with other ones."""

import functools
import io
import os
import random

from cornerbook.book.file.package import Package
from cornerbook.book.make.formulas.bare import same_but_for_asking

from tests.support.looking import looked_into

PAPER = "FFFFF6BF"


def yellow_of(content):
    """{(sheet, address): what a yellow cell holds, None if empty} of a file or its bytes."""
    if isinstance(content, bytes):
        return _yellow(looked_into(io.BytesIO(content)))
    state = os.stat(content)
    return dict(_yellow_at(content, state.st_mtime_ns, state.st_size))


@functools.lru_cache(maxsize=8)
def _yellow_at(path, time, size):
    return _yellow(looked_into(path))


def _yellow(book):
    # Of the cells that there are: to go through rows would make all between them. A fill is looked
    # up once by its number, of which there are few.
    yellow = {}
    found = {}
    for sheet in book:
        for place in sorted(sheet._cells):
            cell = sheet._cells[place]
            if cell._style is None:
                continue  # none of the file's, but made where a test looked
            fill = cell._style.fillId
            if fill not in yellow:
                yellow[fill] = cell.fill.fgColor.rgb == PAPER
            if yellow[fill]:
                found[sheet.title, cell.coordinate] = cell.value
    return found


def hold_alike(found, wanted):
    """Hold that yellow cells are alike. Once a workbook is made anew one's own formulas ask first
    too, and what they ask of a cell follows what is typed there."""
    assert list(found) == list(wanted)
    for cell, value in wanted.items():
        if str(value).startswith("="):
            assert same_but_for_asking(found[cell], value), cell
        else:
            assert found[cell] == value, cell


WORDS = {
    "Two-way": {"bump steer": "camber gain", "tie rod inner z": "upper ball joint z",
                "tie rod inner y": "lower ball joint y"},
    "Sensitivity": {"bump steer": "trail"},
    "Front corner": {"lower arm": "upper arm"},
    "Adjusters": {"Upper arm, rod ends": 'Upper "arm". 1', "tie rod": "lower arm",
                  "each": "both", "shim of 1 mm": "a shim", "the rod longer": "longer"},
    "Masses": {"Rear axle and brake": "Driver", "Roll hoop": 'A "hoop", of tube'},
    "Arrangements": {"Driver forward": "Driver. Forward"},
    "Rules": {"Light": "Not heavy", "kg": "stone", "Club rule 2.1": "2.1",
              "Both tracks at least 900 mm, the smaller one": "Tracks = wide"},
    "Loads": {"Bump": "Hole", "contact centre": "wheel centre"},
    "Drive": {"gears": "range"},
}  # fmt: skip
"""Other words for some cells, by their sheet."""


def other_values(path, seed):
    """{(sheet, address): another value} for every yellow cell of a workbook but some.

    Numbers a little off, wishes blank here and there, some of the blank cells typed.
    """
    chance = random.Random(seed)
    found = {}
    for (sheet, address), value in yellow_of(path).items():
        if sheet == "Wanted" and chance.random() < 0.2:
            found[sheet, address] = None
        elif sheet == "Brakes" and value in (1, 2):
            continue  # how many discs and pistons there are
        elif sheet == "Driver" and value == 3:
            continue  # which person it is
        elif sheet == "Adjusters" and address[0] in "GH" and isinstance(value, int):
            found[sheet, address] = value + chance.choice((-1, 1))
        elif isinstance(value, (int, float)):
            found[sheet, address] = _typed(value * chance.uniform(1.0, 1.01))
        elif isinstance(value, str) and not value.startswith("="):
            found[sheet, address] = WORDS.get(sheet, {}).get(value, value)
        elif sheet in BEGUN and chance.random() < 0.4:
            if sheet == "Adjusters" and value is None:
                continue  # of a row that is begun, all must be typed
            if sheet == "Rules" and address[0] == "B":
                found[sheet, address] = chance.choice(("=CgHeight*2", "a text", 7, None))
            elif _is_word(path, sheet, address):
                found[sheet, address] = _WORD.get(sheet, "a word")
            elif _row(path, sheet, address)[0] in MEASURED:
                found[sheet, address] = MEASURED[_row(path, sheet, address)[0]]
            else:
                found[sheet, address] = _typed(chance.uniform(0.1, BEGUN[sheet]))
    return found


BEGUN = {
    "What-if": 500.0, "Adjusters": 10.0, "Set-up": 5.0, "Survey": 900.0, "Rules": 900.0,
    "Masses": 1.0, "Arrangements": 900.0, "Loads": 2.0,
}  # fmt: skip
"""Sheets with blank cells, or with such as begin with a formula, and numbers to type there."""

MEASURED = {
    "Mass with driver": 281.5, "Front share of the mass": 0.47, "Unsprung mass, front pair": 25.5,
    "Height of the centre of gravity": 55.5, "Unsprung mass, rear pair": 27.25,
}  # fmt: skip
"""Of the sheet Masses: within their limits in mm and in inches."""

_WORD = {"What-if": "upper arm"}

_WORDS_IN = {
    "Survey": "ABCJ", "Rules": "ACH", "Masses": "A", "Arrangements": "A",
}  # fmt: skip
"""Columns of words."""


def _is_word(path, sheet, address):
    if sheet == "What-if":
        return "Rod mount" in _row(path, sheet, address)
    return address[0] in _WORDS_IN.get(sheet, "")


def _typed(number):
    """A number as somebody may type it: the writer of new workbooks keeps 16 digits."""
    return float(f"{number:.12g}") + 0.0


def _row(path, sheet, address):
    at = looked_into(path)[sheet]
    return [cell.value for cell in at[at[address].row]]


def yellow_once(path, changes):
    """What the yellow cells of a workbook hold once it is `edited`, which is not read for it."""
    return {cell: changes.get(cell, value) for cell, value in yellow_of(path).items()}


def edited(path, changes):
    """The bytes of a workbook with other values; a text that begins with = is a formula."""
    package = Package.read(path)
    for cell, value in changes.items():
        if isinstance(value, str) and value.startswith("="):
            package.set_formula(*cell, value, None)
        else:
            package.set_value(*cell, value)
    return package.to_bytes()
