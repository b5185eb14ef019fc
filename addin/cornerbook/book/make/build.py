"""From a template and a scenario to a workbook in memory."""

from ... import __version__
from ..file.trouble import Trouble
from ..formula.targets import spelled
from . import blocks
from .model import Book, Sheet
from .units import CONSTANTS


class Page:
    """One sheet while it is being filled from the top down.

    row: the next free row. It gives blocks what they share: the template and scenario,
    the unit system, the tables placed so far (for charts), and words to fill in, among them
    the columns of those tables.
    """

    def __init__(self, book, sheet, template, scenario, system, tables, columns, pictures):
        self.book = book
        self.sheet = sheet
        self.template = template
        self.scenario = scenario
        self.system = system
        self.tables = tables
        self.columns = columns
        self.pictures = pictures
        self.row = 0
        self.at = (0, 0)  # which sheet and block of the template, for messages
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

    def trouble(self, message, word=None):
        """A `Trouble` that names the template's line of the block at hand."""
        return self.template.trouble(message, word, *self.at)

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


def build(template, scenario, system="mm", target="calc", pictures=None):
    """A `Book` made from a `Template` and a `Scenario`, every formula with its value.

    system: "mm" or "in". target: the spreadsheet program, of `targets.TARGETS`.
    pictures: the folder of pictures that the template names.
    Raises `Trouble` with the file and the line or key to mend.
    """
    book = Book(f"{template.title}: {scenario.title}")
    tables, columns = {}, {}
    for number, described in enumerate(template.sheets):
        sheet = Sheet(described["name"])
        if sheet.name.lower() in (known.name.lower() for known in book.sheets):
            raise template.trouble(f'two sheets are named "{sheet.name}"', "name", number, None)
        sheet.widths = list(described.get("widths", [30, 12, 12, 12, 12, 12, 12, 12, 40]))
        sheet.landscape = described.get("landscape", True)
        sheet.colour = described.get("colour")
        book.sheets.append(sheet)
        page = Page(book, sheet, template, scenario, system, tables, columns, pictures)
        for place, block in enumerate(described["block"]):
            page.at = (number, place)
            blocks.place(page, block)
    try:
        book.compute()
    except Trouble as trouble:
        raise Trouble(f"{template.file.name}: {trouble}") from None
    for sheet in book.sheets:
        for cell in sheet.cells.values():
            if cell.formula is not None:
                cell.formula = spelled(cell.formula, target)
        arrays = {id(c.array): c.array for c in sheet.cells.values() if c.array is not None}
        for array in arrays.values():
            array.formula = spelled(array.formula, target)
    return book
