"""One sheet while it is being filled, block by block from the top down."""

from bisect import bisect_right

from ... import __version__
from ..file.trouble import Trouble
from .kinds import KINDS
from .text_files import PlacedTrouble
from .units import CONSTANTS


class Shared:
    """What the sheets of a book share while they are filled.

    tables: {name: `Table`} placed so far. columns: {"{name:title}": range} of these, for
    formulas. bands: {key of the scenario: (sheet, row, column)} of the first place of each.
    """

    def __init__(self):
        self.tables = {}
        self.columns = {}
        self.bands = {}


class Page:
    """One sheet while it is being filled from the top down.

    part: the `Sheets` of the text file that describes it, and number: which of them it is.
    row: the next free row. It gives blocks what they share: the scenario, the unit system,
    the tables and bands placed so far, and words to fill in, among them the columns of those
    tables; a column of a table further down is filled in at the end.
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
        self.bands = shared.bands
        self.pictures = pictures
        self.row = 0
        self.starts = []  # the row at which each block begins, for messages
        self.words = {
            "{unit}": system,
            "{car}": scenario.title,
            "{version}": __version__,
            **CONSTANTS[system],
        }

    @property
    def width(self):
        """How many columns the sheet has."""
        return max(len(self.sheet.widths), 2)

    def filled(self, text):
        """A template's text with its words in braces filled in."""
        if "{" in text:
            for words in (self.words, self.columns):
                for word, meaning in words.items():
                    text = text.replace(word, meaning)
        return text

    def place(self, block):
        """Place the next block and leave a free row below it."""
        self.starts.append(self.row)
        for key, look in (("heading", "heading"), ("note", "aside")):
            if block.get(key):
                self.line(self.filled(block[key]), look)
        try:
            KINDS[block["kind"]].place(self, block)
        except PlacedTrouble:
            raise
        except Trouble as trouble:
            raise self.trouble(str(trouble)) from None
        self.row += 1

    def trouble(self, message, word=None):
        """A `Trouble` that names the text file and its line of the block at hand."""
        return self.part.trouble(message, word, self.number, len(self.starts) - 1)

    def cell_trouble(self, trouble):
        """The same `CellTrouble`, with the text file and its line of the cell's row."""
        label, own = (self.sheet.cells.get((trouble.row, c)) for c in (0, trouble.column))
        named = label is not None and isinstance(label.value, str) and label.value
        block = bisect_right(self.starts, trouble.row) - 1
        return self.part.trouble(str(trouble), named or own.formula, self.number, block)

    def line(self, text, look, column=0, to=None, lines=None):
        """A text over columns up to `to` (the last one if None) in a row of its own."""
        last = self.width - 1 if to is None else to
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
        wide = {"note": 0.92, "aside": 0.92, "code": 1.05}.get(look, 1.05)
        need = lines or sum(
            max(1, -(-int(len(part) * wide) // int(room))) for part in str(text).split("\n")
        )
        point = {"title": 26, "heading": 18, "note": 12.0, "aside": 12.0, "code": 12.0}.get(
            look, 14
        )
        height = need * point + 4
        self.sheet.heights[self.row] = max(self.sheet.heights.get(self.row, 0), height)
