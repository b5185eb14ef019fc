"""The yellow cells that a template makes, and which key of a scenario each of them is."""

import functools

from ...file.words import Words
from ...make.build import placed
from ...make.texts.places import find, names_in
from ...make.texts.scenario import Scenario
from ...make.texts.text_files import TextFile
from ...make.texts.tree import put
from ...make.texts.units import SYMBOLS

BLOCKS = ("corner", "points")
"""The kinds of block whose rows are points by name."""

ADJUSTERS = "adjusters"
"""The table of a scenario that holds the adjusters."""


class Known:
    """A yellow cell that a template makes.

    typed: what it is in a scenario, a `Typed`. name: of its cell, '' if none. sheet, label,
    heading, heading_row: see `Yellow`. value, formula: what stands there when it is new. unit: the
    text right of it.
    """

    __slots__ = (
        "formula", "heading", "heading_row", "label", "name", "sheet", "typed", "unit", "value",
    )  # fmt: skip


def blocks_of(template):
    """[(name of cells, key of a scenario)] of the blocks of points that a `Template` makes."""
    return [(b["name"], b["from"]) for b in _blocks(template) if b.get("kind") in BLOCKS]


def adjusters_of(template):
    """[(sheet, key of a scenario)] of a template's tables of adjusters."""
    return [
        (sheet["name"], block["from"])
        for part in template.parts for sheet in part.sheets for block in sheet["block"]
        if block.get("kind") == "adjusters"
    ]  # fmt: skip


def rules_of(template):
    """The paths of the keys of a scenario that hold a template's rules."""
    return {tuple(b["from"].split(".")) for b in _blocks(template) if b.get("kind") == "rules"}


@functools.cache
def given_names():
    """The names of cells that chapters of ours give."""
    return {
        name
        for chapter in names_in("chapters")
        for name in TextFile(find("chapters", chapter)).content.get("gives", ())
    }


def arrangements_of(template):
    """{path of a key of arrangements: path of the key of their parts, None if no key has them}."""
    keys = {b["name"]: tuple(b["from"].split(".")) for b in _blocks(template)
            if b.get("kind") == "rows" and "from" in b}  # fmt: skip
    return {
        tuple(b["from"].split(".")): keys.get(b["parts"])
        for b in _blocks(template) if b.get("kind") == "arrangements"
    }  # fmt: skip


def _blocks(template):
    for part in template.parts:
        for sheet in part.sheets:
            yield from sheet["block"]


def laid_out(template, unit, rows):
    """A workbook of a template, a `Book` without values.

    unit: the workbook's. rows: {(table, name, row's label): value} of the points that it has: a
    corner may have rows of its own, and other sheets name their cells by them; and of its
    adjusters, which then stand in place of any others.
    """
    scenario = Scenario(find("scenarios", "lapwing"))
    content: dict = {}
    for path, value in rows.items():
        put(content, path, value)
    scenario.unit = unit
    whole = {key: value for key, value in scenario.content.items()
             if key != ADJUSTERS or key not in content}  # fmt: skip
    scenario.content = _with_rows(whole, content)
    return placed(template, scenario, unit)


def known_cells(book):
    """[`Known`] of a workbook as it is laid out."""
    names = {(sheet, top, left): name for name, (sheet, top, left, *_) in book.names.items()}
    found = []
    for sheet in book.sheets:
        words = Words(
            {
                place: cell.value
                for place, cell in sheet.cells.items()
                if cell.typed is None and cell.formula is None and isinstance(cell.value, str)
            },
            SYMBOLS,
        )
        for (row, column), cell in sorted(sheet.cells.items()):
            if cell.typed is None:
                continue
            known = Known()
            known.typed, known.sheet = cell.typed, sheet.name
            known.name = names.get((sheet, row, column), "")
            known.label, known.heading = words.left_of(row, column), words.above(row, column)
            known.heading_row = words.row_above(row, column)
            known.value, known.formula = cell.value, cell.formula
            beside = sheet.cells.get((row, column + 1))
            known.unit = beside.value if beside is not None and beside.look == "unit" else ""
            found.append(known)
    return found


def _with_rows(whole, own):
    """A content with the rows of another in place of its own, which follow those that are new."""
    found = dict(whole)
    for name, value in own.items():
        there = whole.get(name)
        if isinstance(value, dict) and isinstance(there, dict):
            found[name] = {**value, **{k: v for k, v in there.items() if k not in value}}
            inner = [k for k, v in value.items() if isinstance(v, dict) and k in there]
            found[name].update({k: _with_rows(there[k], value[k]) for k in inner})
        else:
            found[name] = value
    return found
