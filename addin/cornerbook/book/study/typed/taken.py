"""What is typed in a workbook, key by key of a scenario."""

from ...file.trouble import some_of
from ...make.sheet.typed import TYPED
from ...make.texts import origins
from ...make.texts.toml_text import key_text, quoted_text, rows_text, value_text

NAMED = 8
"""How many cells a sentence names."""

_LATER = ("column", "corner", "adjusters", "wanted", TYPED)
"""Tables that stand below all others, in this order."""


class Taken:
    """A scenario of what is typed.

    title: the car's name; unit: "mm" or "in". values: {path of a key: number, text, list or
    table}. words: {path: what the workbook calls it}. blank: cells that stand empty where a
    scenario needs a value; wrong: (cell, why) of what it cannot say; placeless: cells that no key
    is for; other: (cell, the one that was taken) of a second place that says otherwise; formulas:
    cells whose formula has its value here. sources: {key with dots: sentence} of where its numbers
    came from, in a workbook that was made of few numbers. measures: (cell with the formula
    that measures a rule, its (sheet, address) where it is made again or None, whether the formula
    is taken as it is). Cells are `Yellow`s.
    """

    def __init__(self, title, unit):
        self.title = title
        self.unit = unit
        self.values = {}
        self.words = {}
        self.blank = []
        self.wrong = []
        self.placeless = []
        self.other = []
        self.formulas = []
        self.sources = {}
        self.measures = []

    def text(self, head=()):
        """The scenario as text. head: lines for its first comment."""
        lines = [f"# {line}" for line in head]
        lines += [f"title = {quoted_text(self.title)}", f'unit = "{self.unit}"']
        tables: dict = {}
        for path, value in self.values.items():
            tables.setdefault(path[:-1], {})[path] = value
        for table in sorted(tables, key=_rank):
            if table:
                lines += ["", f"[{'.'.join(map(key_text, table))}]"]
            for path, value in tables[table].items():
                words = self.words.get(path, "")
                said = f"  # {words}" if words else ""
                shown = rows_text(value) if _is_rows(value) else value_text(value)
                lines.append(f"{key_text(path[-1])} = {shown}{said}")
        lines += origins.text_of(self.sources)
        return "\n".join(lines) + "\n"

    def sentences(self):
        """What a user should know of what was not, or not as it stood, taken."""
        if self.blank:
            named = some_of([cell.said for cell in self.blank], NAMED)
            yield f"Empty, so left out; what is missing is taken in proportion: {named}."
        if self.formulas:
            named = some_of([cell.said for cell in self.formulas], NAMED)
            yield f"Taken as the value that their formulas give now: {named}."
        for cell, why in self.wrong:
            yield f"Left out: {cell.said} {why}."
        for cell, first in self.other:
            yield f"Left out: {cell.said}, which says otherwise than {first.said}."
        for cell in self.placeless:
            yield f"Left out: {cell.said}, for which there is no place: {cell.shown}."


def _is_rows(value):
    return isinstance(value, list) and any(isinstance(row, list) for row in value)


def _rank(table):
    if not table:
        return -1
    return _LATER.index(table[0]) + 1 if table[0] in _LATER else 0
