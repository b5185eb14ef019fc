"""Formulas of rows in a copy without the add-in: edited, they say and give what Python does."""

import openpyxl
import pytest
from cornerbook.book.plain.share import share
from cornerbook.catalogue import call
from cornerbook.cells.example import PARTS, TORQUES

CALLS = {
    "A1": ("PARTS_MASS", "Parts"),
    "A2": ("CENTRE_OF_GRAVITY", "Parts", "x"),
    "A3": ("PARTS_INERTIA", "Parts", "yaw", "sprung"),
    "A4": ("UNSPRUNG_MASS", "Parts", "rear", 1600.0),
    "A5": ("VARIABLE_DRIVE_FORCE", "Motor", 9000.0, 3.0, 0.8, 1500.0, 3200.0, 3.0, 260.0),
}


def _text(name, *arguments):
    words = [
        a if a in ("Parts", "Motor") else f'"{a}"' if isinstance(a, str) else repr(a)
        for a in arguments
    ]
    return f"=CORNER.{name}({','.join(words)})"


@pytest.fixture(scope="module")
def copy(tmp_path_factory):
    book = openpyxl.Workbook()
    notes, tables = book.active, book.create_sheet("Tables")
    notes.title = "Notes"
    for row in PARTS:
        tables.append([None if cell == "" else cell for cell in row])
    for number, row in enumerate(TORQUES, 1):
        for column, cell in zip("KL", row, strict=True):
            tables[f"{column}{number}"] = None if cell == "" else cell
    for name, area in (("Parts", f"$A$1:$I${len(PARTS)}"), ("Motor", f"$K$1:$L${len(TORQUES)}")):
        book.defined_names[name] = openpyxl.workbook.defined_name.DefinedName(
            name, attr_text=f"Tables!{area}"
        )
    for cell, asked in CALLS.items():
        notes[cell] = _text(*asked)
    path = tmp_path_factory.mktemp("rows") / "book.xlsx"
    book.save(path)
    content, _ = share(path)
    path.write_bytes(content)
    return path


EDITS = [
    {},
    {"B1": 75.5, "C2": -1000.0, "I3": 0.5},
    {"B1": -3.0},
    {"C2": ""},
    {"B3": "heavy"},
    {"A3": "", "B3": -1.0},
    {"I4": 1.5},
    {"B6": 12.0},
    {"B6": 12.0, "C6": -500.0, "D6": 0.0, "E6": 300.0},
    {"K2": 4000.0},
    {"L2": ""},
    {"K4": 4200.0, "L4": 20000.0},
    {f"{column}{row}": "" for column in "BCDEFGHI" for row in range(1, len(PARTS) + 1)},
]  # fmt: skip


def _edited(rows, edits, columns):
    found = [list(row) for row in rows]
    for cell, value in edits.items():
        if cell[0] in columns:
            found[int(cell[1:]) - 1][columns.index(cell[0])] = value
    return tuple(map(tuple, found))


@pytest.mark.parametrize("edits", EDITS, ids=str)
def test_an_edit_gives_and_says_the_same(bare_calc, copy, edits):
    tables = {"Parts": _edited(PARTS, edits, "ABCDEFGHI"), "Motor": _edited(TORQUES, edits, "KL")}
    with bare_calc.open(copy) as book:
        for cell, value in edits.items():
            book.set("Tables", cell, value)
        book.recalculate()
        for cell, (name, *asked) in CALLS.items():
            raw = [tables.get(a, a) if isinstance(a, str) else a for a in asked]
            wanted, found = call(name, *raw), book.value("Notes", cell)
            if isinstance(wanted, str):
                # A copy shows a text as it stands, without quotation marks.
                assert isinstance(found, str)
                assert found.replace('"', "") == wanted.replace('"', ""), (cell, edits)
            else:
                assert found == pytest.approx(wanted, rel=1e-12), (cell, edits)
