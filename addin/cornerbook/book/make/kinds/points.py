"""Blocks of points by name: a corner, which is checked, and points that make no linkage."""

from ..sheet.choices import words_of_row
from ..sheet.declare import TEXT, block_kind, needed
from ..sheet.rows import columns_of, put_input
from ..texts import units

ORIGINS = "Where these numbers come from"
"""The heading below a corner of which not all numbers were given."""

APART = ", "
"""Between the names of rows that have one origin."""


@block_kind("corner", {"name": needed(TEXT), "from": needed(TEXT)})
def corner(page, block):
    """A corner's points as yellow cells, as a named block, with what CHECK says of them above."""
    name = block["name"]
    head = page.row
    page.sheet.put(head, 0, value="Check", look="label")
    page.sheet.put(head, 1, formula=f'=CORNER.CHECK({name},"{page.system}")', look="said").span = (
        page.width - 1
    )
    page.sheet.heights[head] = 44
    page.sheet.verdicts.append((head, 1, head, 1))
    page.row += 1
    page.top = page.row
    columns_of(page, ["Row", "x", "y", "z", "unit"])
    first = page.row
    _corner_rows(page, block, whole=True)
    page.book.name(name, page.sheet, first, 0, page.row - 1, 3)
    _origins(page, block)


@block_kind("points", {"name": needed(TEXT), "from": needed(TEXT)})
def points(page, block):
    """Named points that make no linkage, such as those of the steering column: no check."""
    columns_of(page, ["Row", "x", "y", "z", "unit"])
    first = page.row
    _corner_rows(page, block, whole=False)
    page.book.name(block["name"], page.sheet, first, 0, page.row - 1, 3)


def _corner_rows(page, block, whole):
    for label, kind, numbers in page.scenario.corner(block["from"], page.system, whole):
        at = page.row
        page.sheet.put(at, 0, value=label, look="label")
        for i, number in enumerate(numbers):
            said = label if len(numbers) == 1 else f"{label}, {'xyz'[i]}"
            path = (*block["from"].split("."), label)
            part = i if len(numbers) > 1 else None
            words = words_of_row(label) if kind == "text" else ()
            put_input(page, at, 1 + i, number, kind, said, path, part, choices=words)
        page.sheet.put(at, 4, value=units.unit_of(kind, page.system), look="unit")
        if not whole:
            _source(page, at, page.scenario.source(f"{block['from']}.{label}"))
        page.row += 1


def _origins(page, block):
    """Below a corner, where the numbers of its rows come from; nothing where all were given.

    Not beside them: there stands what they do. Rows of one origin stand together.
    """
    told: dict = {}
    for label, *_ in page.scenario.corner(block["from"], page.system, True):
        text = page.scenario.source(f"{block['from']}.{label}")
        if text:
            told.setdefault(text, []).append(label)
    if not told:
        return
    page.row += 1
    last = min(4, page.width - 1)
    page.line(ORIGINS, "heading", to=last)
    for text, labels in told.items():
        named = APART.join(labels)
        page.sheet.put(page.row, 0, value=named, look="said")
        page.sheet.put(page.row, 1, value=text, look="note").span = last
        page.fit(named, "said", 0, 0)
        page.fit(text, "note", 1, last)
        page.row += 1


def _source(page, at, text):
    """Beside a row, where its numbers come from; nothing where all was given."""
    if text:
        shown = page.sheet.put(at, 5, value=text, look="note")
        if page.width > 6:
            shown.span = page.width - 1
        page.fit(text, "note", 5, page.width - 1)
