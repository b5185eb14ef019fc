"""Files of points gone wrong, CSV and DXF, given to `import`. The suite runs a few
(test_points.py); by hand, from the folder that holds `tests`, many:

    python -m tests.fuzz.points --cases 3000 --seed 1 --keep /tmp/found

A file is written by `export`, its rows changed as an editor, a program of drawings or a bad disk
would change them. What is taken in must be what the file says: each number of the copy is one
of the file's, or was there before.
"""

import functools
import io
import math
import re
import sys
import zipfile
from pathlib import Path

import openpyxl
from cornerbook.book.points.csv_file import csv_of
from cornerbook.book.points.dxf.write import dxf_of
from cornerbook.book.points.row import Row
from cornerbook.cells.example import EXAMPLE

from tests.fuzz.commands import Case, by_hand
from tests.fuzz.workbooks import rich

ROWS = [
    Row(cells[0], tuple(v for v in cells[1:] if v != ""), "mm" if cells[2] != "" else "")
    for cells in EXAMPLE
]

CELLS = (
    "", " ", "nan", "inf", "-inf", "1e400", "1e308", "1_000", "52l.0", "5Z1.0", "521,5", "1.234,5",
    "1 234.5", "\u2212150", "\u0661", "0x10", "12 mm", "12mm", "=1+1", "@x", "-x", "'", '"', '""',
    '"a',
    "a;b", "a\tb", "a\nb", "\x00", "\x0b", "\u2028", "\x85", "\ufeff", "\U0001f600", "name", "x",
    "unit", "mm", "cm", "m",
    "in", "ft", "deg", "parsec", "Upper ball joint", "upper bal joint", "UPPER-BALL-JOINT",
    "Wheel centre",
    "Stat. camber", "lower arm", "upright", "Brake pedal", "Static camber = 5", "x" * 32_000,
    "(" * 32_000,
    "%%d", "\\P", "{\\fArial;x}", "%<x>%", "^J", "\\U+00E9", "9" * 400, "-0", "1e-400", "1.0.0",
    ".", "-", "+",
)  # fmt: skip
"""Cells of a CSV file, and values of a drawing, that somebody or some program may have left."""

BYTES = (
    b"\0", b"\xff", b"\xfe\xff", b"\xef\xbb\xbf", b"\r", b"\n", b"\r\n", b"\t", b'"', b"'", b";",
    b",",
    b"\x1a", b"\x85", b"\xc3", b"  0\nEOF\n", b"  0\nENDSEC\n", b"  0\nPOINT\n", b"999\nx\n",
    b"1001\n",
    b" 10\n", b"-1\n", b"1e5\n",
)  # fmt: skip


@functools.cache
def written():
    """{ending: the bytes of the file} of the example's points."""
    return {"csv": csv_of(ROWS), "dxf": dxf_of(ROWS, "mm", True)[0]}


@functools.cache
def workbook():
    """The bytes of the workbook that takes them in, whose points differ a little."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in rich().items():
            package.writestr(name, content)
    return out.getvalue()


def _csv(text, chance):
    """A cell, a row, a column or the mark between cells changed."""
    lines = [line.split(",") for line in text.rstrip("\n").split("\n")]
    what = chance.choice(("cell", "cell", "cell", "row", "column", "mark", "many", "heading"))
    row = chance.choice(lines)
    if what == "cell":
        row[chance.randrange(len(row))] = chance.choice(CELLS)
    elif what == "row":
        other = chance.choice(
            (row, [chance.choice(CELLS) for _ in range(5)], [], [""] * 900, row[:2])
        )
        lines.insert(chance.randrange(len(lines) + 1), list(other))
    elif what == "column":
        at = chance.randrange(5)
        for line in lines:
            if chance.random() < 0.5:
                del line[at : at + 1]
            else:
                line.insert(at, chance.choice(("", "1", "x")))
    elif what == "many":
        count = chance.choice((300, 4000))
        lines += [
            [f"{chance.choice(CELLS[:8])}Station {n}", "1", "2", "3", "mm"] for n in range(count)
        ]
    elif what == "heading":
        lines[0] = chance.sample(
            ("name", "x", "y", "z", "unit", "x (cm)", "note"), chance.randrange(1, 7)
        )
    mark = chance.choice((";", "\t", "|", ", ", " ")) if what == "mark" else ","
    return "\n".join(mark.join(line) for line in lines) + chance.choice(("\n", "", "\r\n\r\n"))


def _dxf(text, chance):
    """A value, a pair, an entity, a table or the order changed."""
    lines = text.split("\n")
    starts = [i for i in range(0, len(lines) - 1, 2) if lines[i].strip() == "0"]
    at = 2 * chance.randrange(len(lines) // 2)
    if chance.random() < 0.7:  # among the entities rather than in the tables
        begin = next((i for i in range(1, len(lines), 2) if lines[i].strip() == "ENTITIES"), 1)
        at = chance.randrange(begin - 1, len(lines) - 1, 2)
    what = chance.choice(("value", "value", "value", "code", "delete", "double", "entity", "label"))
    if what == "value":
        lines[at + 1] = chance.choice(CELLS)
    elif what == "code":
        lines[at] = chance.choice(
            ("10", "20", "30", "0", "1", "8", "5", "1001", "1000", "1040", "x", "-5", "99999")
        )
    elif what == "delete":
        del lines[at : at + chance.choice((1, 2, 2, 4))]
    elif what == "double":
        lines[at:at] = lines[at : at + chance.choice((1, 2, 6))]
    elif what == "entity" and len(starts) > 2:
        begin, to = chance.choice(starts), chance.choice(starts)
        end = next((s for s in starts if s > begin), len(lines))
        part = lines[begin:end]
        if chance.random() < 0.5:
            del lines[begin:end]
        lines[to:to] = part
    else:
        labels = [i for i, line in enumerate(lines) if " = " in line or line.strip() in _NAMES]
        if labels:
            label = chance.choice(labels)
            name = lines[label].partition(" = ")[0]
            lines[label] = chance.choice((f"{name} = {chance.choice(CELLS)}", chance.choice(CELLS)))
    return "\n".join(lines)


_NAMES = {row.name for row in ROWS}


def _damaged(content, chance):
    at = chance.randrange(len(content) + 1)
    way = chance.random()
    if way < 0.3:
        return content[:at]
    if way < 0.6:
        return content[:at] + chance.choice(BYTES) + content[at:]
    return content[:at] + bytes([chance.randrange(256)]) + content[at + 1 :]


def changed(kind, chance):
    """The bytes of a file of a kind that was whole."""
    text = written()[kind].decode("utf-8")
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        text = (_csv if kind == "csv" else _dxf)(text, chance)
    content = text.encode(chance.choice(("utf-8",) * 18 + ("utf-16", "latin-1")), "replace")
    if chance.random() < 0.15:
        content = _damaged(content, chance)
    return chance.choice((b"", b"\n", content)) if chance.random() < 0.02 else content


def case(chance):
    """A file of points in.csv or in.dxf, and `import` or `export` of a workbook with odd names."""
    kind = chance.choice(("csv", "dxf"))
    with open("in.xlsx", "wb") as file:
        file.write(workbook())
    with open(f"in.{kind}", "wb") as file:
        file.write(changed(kind, chance))
    given = ["import", "in.xlsx", f"in.{kind}", "--out", "out.xlsx"]
    if chance.random() < 0.2:
        given += ["--unit", chance.choice(("mm", "in"))]
    return Case(
        given, ["in.xlsx", f"in.{kind}"], "out.xlsx", "nan None inf Errno Error:",
        made_up if kind == "csv" else None,
    )  # fmt: skip


_NUMBERS = [
    re.compile(r"[-+]?(?:\d+%s?\d*|%s\d+)(?:[eE][-+]?\d+)?" % (p, p)) for p in ("[.]", "[,]")
]
"""Numbers with a decimal point, and with a decimal comma."""


def made_up():
    """What is false in a copy that was made of in.csv; None where nothing is.

    Each number of a point is one that stands in the file, in the unit of some row, or was there.
    """
    text = Path("in.csv").read_text(encoding="utf-8-sig", errors="replace")
    known = {v for cells in EXAMPLE for v in cells if isinstance(v, float)}
    for found in [each for pattern in _NUMBERS for each in pattern.findall(text)]:
        number = float(found.replace(",", "."))
        known.update((number, number / 10, number * 10, number * 25.4, number * 1000))
        known.update((number / 25.4, number / 2.54, number / 1000, number * 1000 / 25.4))
    sheet = openpyxl.load_workbook("out.xlsx")["My points"]
    for row in sheet.iter_rows(min_col=2, max_col=4, values_only=True):
        for value in row:
            if isinstance(value, (int, float)) and not any(
                math.isclose(value, number, rel_tol=1e-9, abs_tol=1e-300) for number in known
            ):
                return f"{value} stands in no row of the file"
    return None


if __name__ == "__main__":
    sys.exit(by_hand("points", case, "files of points"))
