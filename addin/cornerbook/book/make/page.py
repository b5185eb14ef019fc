"""One sheet while it is being filled, block by block from the top down."""

import re
from bisect import bisect_right

from ... import __version__
from ..file.trouble import Trouble
from .kinds import KINDS
from .sheet.model import TITLE_HEIGHT
from .sheet.names import A_NAME, is_name
from .texts.mistakes import PlacedTrouble
from .texts.units import CONSTANTS

_READ = frozenset(("title", "below", "aside", "text", "caution"))
"""Looks of words that are read across the sheet, and are to fit into the window."""

_LINE = {"title": TITLE_HEIGHT - 4, "heading": 18, "note": 12.0, "aside": 12.0, "code": 12.0}
"""The height of a line of text by its look, in points."""

_IN_BRACES = re.compile(r"\{[^{}]*\}")


def filled_in(text, words):
    """A text with its words in braces filled in, those that are in {"{word}": meaning}."""
    if "{" not in text:
        return text
    return _IN_BRACES.sub(lambda found: words.get(found[0], found[0]), text)


class Shared:
    """What the sheets of a book share while they are filled.

    tables: {name: `Table`} placed so far. columns: {"{name:title}": range} of these, for
    formulas, and {"{verdict:Name}": cell} of judged results that have a name. wishes: {name:
    (sheet, row, columns)} of where each stands. judged: every `Judged` result, in order.
    """

    def __init__(self):
        self.tables = {}
        self.columns = {}
        self.wishes = {}
        self.judged = []


class Page:
    """One sheet while it is being filled from the top down.

    part: the `Sheets` of the text file that describes it, and number: which of them it is.
    row: the next free row. column: the first one of the block at hand. top: the row from which
    blocks right of it begin; a block may move it down. It gives blocks what they share: the
    scenario, the unit system, the tables and wishes placed so far, and words to fill in, among
    them the columns of those tables; a column of a table further down is filled in at the end.
    """

    def __init__(self, book, sheet, part, number, scenario, system, shared, pictures):
        self.book = book
        self.sheet = sheet
        self.part = part
        self.number = number
        self.scenario = scenario
        self.system = system
        self.tables = shared.tables
        self.columns = shared.columns
        self.wishes = shared.wishes
        self.judged = shared.judged
        self.pictures = pictures
        self.row = 0
        self.column = 0
        self.at = 0  # the number of the block at hand, in its text file
        self.top = 0
        self._ends = {}  # of blocks side by side: the first free row below each, by its column
        self.starts = []  # the row at which each block begins, and its number, for messages
        self.words = {
            "{unit}": system,
            "{millimetre}": "millimetre" if system == "mm" else "inch",
            "{millimetres}": "millimetres" if system == "mm" else "inches",
            "{car}": scenario.title,
            "{version}": __version__,
            **CONSTANTS[system],
        }

    @property
    def width(self):
        """How many columns the sheet has."""
        return max(len(self.sheet.widths), 2)

    @property
    def in_window(self):
        """The last column that a window of 1,600 pixels shows, as `model` reckons them."""
        return min(self.width - 1, self.sheet.in_window())

    def filled(self, text):
        """A template's text with its words in braces filled in."""
        for words in (self.words, self.columns):
            text = filled_in(text, words)
        return text

    def place(self, block, at):
        """Place the next block, whose number in its text file is `at`; a free row below it."""
        self.at = at
        below = 0
        if "right_of" in block:
            # Beside the block above, or below another that is.
            self.column = int(block["right_of"])
            below, self.row = self.row, self._ends.get(self.column, self.top)
        else:
            self.column, self.top, self._ends = 0, self.row, {}
            self.starts.append((self.row, at))
            self.sheet.blocks.append(self.row)
            if block.get("on_screen") and self.sheet.last_printed is None:
                self.sheet.last_printed = self.row - 1
        named = set(self.book.names)
        for key, look in (("heading", "heading"), ("note", "aside")):
            if block.get(key):
                self.line(self.filled(block[key]), look, self.column)
        if "right_of" not in block:
            self.top = self.row
        try:
            KINDS[block["kind"]].place(self, block)
        except PlacedTrouble:
            raise
        except Trouble as trouble:
            raise self.trouble(str(trouble)) from None
        for name in self.book.names:
            if name not in named and not is_name(name):
                raise self.trouble(f'"{name}" cannot be a name of cells; {A_NAME}', name)
        self._ends[self.column] = self.row
        self.row = max(self.row + 1, below)

    def trouble(self, message, word=None):
        """A `Trouble` that names the text file and its line of the block at hand."""
        return self.part.trouble(message, word, self.number, self.at)

    def cell_trouble(self, trouble):
        """The same `CellTrouble`, with the text file and its line of the cell's row."""
        row, column = trouble.row, trouble.column
        block = self.starts[bisect_right(self.starts, (row, len(self.sheet.cells))) - 1][1]
        words = [self._text(row, 0), self._column_title(row, column), self._text(row, column)]
        for word in words:
            if word and self.part.file.line_of(word, self.number, block):
                return self.part.trouble(str(trouble), word, self.number, block)
        return self.part.trouble(str(trouble), None, self.number, block)

    def _text(self, row, column):
        """The formula of a cell, else its text."""
        cell = self.sheet.cells.get((row, column))
        said = cell and (cell.formula or cell.value)
        return said if isinstance(said, str) else None

    def _column_title(self, row, column):
        """The title of the column of a table in which a cell stands."""
        for table in self.tables.values():
            inside = table.sheet is self.sheet and table.first <= row <= table.last
            if inside and column < len(table.titles):
                return table.titles[column]
        return None

    def line(self, text, look, column=0, to=None, lines=None):
        """A text over columns up to `to` (the last one if None) in a row of its own."""
        last = self.in_window if to is None and look in _READ else to
        last = self.width - 1 if last is None else max(last, column)
        cell = self.sheet.put(self.row, column, value=text, look=look)
        if last > column:
            cell.span = last
        self.fit(text, look, column, last, lines)
        self.row += 1
        return cell

    def fit(self, text, look, first, last, lines=None):
        """Make the row at hand high enough for a wrapped text in these columns."""
        room = sum(self.sheet.widths[first : last + 1]) or 10
        # Small print puts more characters in the same width.
        wide = {"note": 0.89, "aside": 0.89, "code": 1.05}.get(look, 1.05)
        need = lines or sum(
            max(1, -(-int(len(part) * wide) // int(room))) for part in str(text).split("\n")
        )
        point = _LINE.get(look, 14)
        height = need * point + (2 if point == 12.0 else 4)
        self.sheet.heights[self.row] = max(self.sheet.heights.get(self.row, 0), height)
