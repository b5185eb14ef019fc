"""From a template and a scenario to a workbook in memory."""

import re

from ..formula.targets import spelled
from .asked import Asked
from .formulas import too_long, wrong_formulas
from .lost import Lost
from .mistakes import MOST, Mistakes, PlacedTrouble
from .model import Book, CellTrouble, Sheet
from .page import Page, Shared


def build(template, scenario, system="mm", target="calc", pictures=None, mistakes=None):
    """A `Book` made from a `Template` and a `Scenario`, every formula with its value.

    system: "mm" or "in". target: the spreadsheet program, of `targets.TARGETS`.
    pictures: the folder of pictures that the template names. mistakes: the `Mistakes` found so
    far; then scenario may be None, for one that could not be read.
    Raises `Trouble` with all mistakes, each with its file and line.
    """
    mistakes = Mistakes() if mistakes is None else mistakes
    builder = _Builder(template, scenario, mistakes, system, pictures)
    builder.place()
    builder.asked.hold_keys(template)
    builder.hold_formulas()
    mistakes.hold()
    book = builder.book
    builder.compute()
    mistakes.hold()
    for sheet in book.sheets:
        for cell in sheet.cells.values():
            if cell.formula is not None:
                cell.formula = spelled(cell.formula, target)
        arrays = {id(c.array): c.array for c in sheet.cells.values() if c.array is not None}
        for array in arrays.values():
            array.formula = spelled(array.formula, target)
    for trouble in too_long(book):
        builder.keep(trouble)
    mistakes.hold()
    return book


def _fill_in_columns(book, columns):
    """Fill in the columns of tables in formulas that stand above them."""
    for sheet in book.sheets:
        for cell in sheet.cells.values():
            if cell.formula is not None and "{" in cell.formula:
                for word, cells in columns.items():
                    cell.formula = cell.formula.replace(word, cells)


class _Builder:
    """Puts the blocks of a template on the sheets of a book, past those with a mistake.

    What a block that is left out would have given is remembered, so that those that use it are
    left out too and not blamed.
    """

    def __init__(self, template, scenario, mistakes, system, pictures):
        self.template = template
        self.mistakes = mistakes
        self.asked = Asked(scenario, mistakes)
        self.book = Book(f"{template.title}: {self.asked.title}")
        self.given = (system, pictures)
        self.pages = {}
        self.shared = Shared()
        self.lost = Lost(template.whole)
        for chapter in template.misplaced:
            self.lost.part(chapter)
        self._said = set()

    def place(self):
        """Place every block that can be."""
        for part in self.template.parts:
            self.asked.part = part
            tables = self.shared.tables
            names_above, tables_above = set(self.book.names), dict(tables)
            all_there = True
            for number, described in enumerate(part.sheets):
                all_there &= self._sheet(part, number, described)
            if all_there:
                self._attempt(
                    part.hold_promise,
                    [name for name in self.book.names if name not in names_above],
                    [n for n, table in tables.items() if tables_above.get(n) is not table],
                )
            else:
                self.lost.part(part)
        _fill_in_columns(self.book, self.shared.columns)

    def _attempt(self, what, *given):
        """Do something; whether it went without a mistake, which is kept."""
        try:
            what(*given)
        except PlacedTrouble as trouble:
            self.mistakes.take(trouble)
            return False
        return True

    def _sheet(self, part, number, described):
        """Fill a sheet; whether all of its blocks are on it."""
        if (number,) in part.left_out:
            self.lost.sheet(described)
            return False
        name = described["name"]
        if name.lower() in (known.name.lower() for known in self.book.sheets):
            self.mistakes.take(
                part.file.at(f'two sheets are named "{name}"', "sheet", number, "name")
            )
            self.lost.sheet(described)
            return False
        sheet = Sheet(name)
        sheet.widths = list(described.get("widths", [30, 12, 12, 12, 12, 12, 12, 12, 40]))
        sheet.landscape = described.get("landscape", True)
        sheet.colour = described.get("colour")
        self.book.sheets.append(sheet)
        system, pictures = self.given
        page = Page(self.book, sheet, part, number, self.asked, system, self.shared, pictures)
        self.pages[name] = page
        all_there = True
        for at, block in enumerate(described["block"]):
            whole = self._without_wrong_rows(part, number, at, block)
            there = (
                (number, at) not in part.left_out
                and not self.lost.used_by(block)
                and self._attempt(page.place, whole, at)
            )
            if not there or whole is not block:
                self.lost.block(block)
                all_there = False
        return all_there

    @staticmethod
    def _without_wrong_rows(part, sheet, at, block):
        """The block without those of its rows that have a mistake."""
        wrong = {place[2] for place in part.left_out if place[:2] == (sheet, at) and place[2:]}
        if not wrong:
            return block
        kept = [row for number, row in enumerate(block["rows"]) if number not in wrong]
        return {**block, "rows": kept}

    def hold_formulas(self):
        """Keep the mistakes of all formulas."""
        for trouble in wrong_formulas(self.book, self.lost.is_in):
            self.keep(trouble)

    def compute(self):
        """Work out every formula. One that cannot be is kept and emptied, and the rest done."""
        for _ in range(MOST):
            try:
                self.book.compute()
                return
            except CellTrouble as trouble:
                self.keep(trouble)
                cells = self.book.sheet(trouble.sheet).cells
                array = cells[trouble.row, trouble.column].array
                for cell in cells.values():
                    if array is not None and cell.array is array:
                        cell.array = None
                cells[trouble.row, trouble.column].formula = None

    def keep(self, trouble):
        """Keep a `CellTrouble`; of the cells that one line of a text makes, the first alone."""
        placed = self.pages[trouble.sheet].cell_trouble(trouble)
        alike = (placed.places[0][:2], _ADDRESS.sub("", str(trouble)))
        if alike not in self._said:
            self._said.add(alike)
            self.mistakes.take(placed)


_ADDRESS = re.compile(r"\$?\b[A-Z]{1,3}\$?\d+\b")
