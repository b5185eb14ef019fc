"""The yellow cells of a workbook as openpyxl has them, and workbooks with other ones."""

import functools
import io
import random

import openpyxl
from cornerbook.book.file.package import Package

PAPER = "FFFFF6BF"


def yellow_of(content):
    """{(sheet, address): what a yellow cell holds, None if empty} of a file or its bytes."""
    book = openpyxl.load_workbook(io.BytesIO(content) if isinstance(content, bytes) else content)
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.fill.fgColor.rgb == PAPER
    }


WORDS = {
    "Two-way": {"bump steer": "camber gain", "tie rod inner z": "upper ball joint z",
                "tie rod inner y": "lower ball joint y"},
    "Sensitivity": {"bump steer": "trail"},
    "Front corner": {"lower arm": "upper arm"},
    "Adjusters": {"Upper arm, rod ends": 'Upper "arm". 1', "tie rod": "lower arm"},
}  # fmt: skip
"""Other words for some cells, by their sheet."""


def other_values(path, seed):
    """{(sheet, address): another value} for every yellow cell of a workbook but some.

    Numbers a little off, wishes blank here and there, a third of the variants' cells typed.
    """
    chance = random.Random(seed)
    found = {}
    for (sheet, address), value in yellow_of(path).items():
        if sheet == "Wanted" and chance.random() < 0.2:
            found[sheet, address] = None
        elif isinstance(value, (int, float)):
            found[sheet, address] = _typed(value * chance.uniform(1.0, 1.01))
        elif isinstance(value, str) and not value.startswith("="):
            found[sheet, address] = WORDS.get(sheet, {}).get(value, value)
        elif sheet in ("What-if", "Adjusters") and chance.random() < 0.4:
            is_word = "Rod mount" in _row(path, sheet, address)
            found[sheet, address] = (
                "upper arm" if is_word else _typed(chance.uniform(-500.0, 500.0))
            )
    return found


def _typed(number):
    """A number as somebody may type it: the writer of new workbooks keeps 16 digits."""
    return float(f"{number:.12g}") + 0.0


@functools.cache
def _book(path):
    return openpyxl.load_workbook(path)


def _row(path, sheet, address):
    at = _book(path)[sheet]
    return [cell.value for cell in at[at[address].row]]


def edited(path, changes):
    """The bytes of a workbook with other values; a text that begins with = is a formula."""
    package = Package.read(path)
    for cell, value in changes.items():
        if isinstance(value, str) and value.startswith("="):
            package.set_formula(*cell, value, None)
        else:
            package.set_value(*cell, value)
    return package.to_bytes()
