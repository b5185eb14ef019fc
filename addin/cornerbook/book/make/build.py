"""From a template and a scenario to a workbook in memory."""

import re

from ..formula.targets import spelled
from .asked import Asked
from .formulas.asking import ask_first
from .formulas.computing import compute
from .formulas.holding import too_long, wrong_formulas
from .formulas.references import References
from .kinds import KINDS
from .page import Page, Shared, filled_in
from .sheet.choices import put_lists
from .sheet.groups import GROUPS, REFERENCE
from .sheet.model import Book, CellTrouble, Link, Sheet
from .templates.lost import Lost, names_given
from .texts.mistakes import MOST, Mistakes, PlacedTrouble
from .texts.places import workbooks


def build(template, scenario, system="mm", target="calc", pictures=None, mistakes=None, ready=None):
    """A `Book` made from a `Template` and a `Scenario`, every formula with its value.

    system: "mm" or "in". target: the spreadsheet program, of `targets.TARGETS`.
    pictures: the folder of pictures that the template names. mistakes: the `Mistakes` found so
    far; then scenario may be None, for one that could not be read. ready: see `new.made`.
    Raises `Trouble` with all mistakes, each with its file and line.
    """
    mistakes = Mistakes() if mistakes is None else mistakes
    builder = _Builder(template, scenario, mistakes, system, pictures)
    builder.place()
    builder.asked.hold_keys(template)
    book = builder.book
    references = References(book)
    builder.hold_formulas(references)
    mistakes.hold()
    if ready is not None:
        ready()
    trees = ask_first(book, references)
    for sheet in book.sheets:
        sheet.close_gaps()
    builder.compute(references, trees)
    mistakes.hold()
    for sheet in book.sheets:
        for cell in sheet.cells.values():
            if cell.formula is not None:
                cell.formula = spelled(cell.formula, target)
        arrays = {id(c.array): c.array for c in sheet.cells.values() if c.array is not None}
        for array in arrays.values():
            array.formula = spelled(array.formula, target)
    book.asked = builder.asked.keys
    for trouble in too_long(book):
        builder.keep(trouble)
    mistakes.hold()
    return book


def placed(template, scenario, system):
    """The same `Book` as far as what stands where goes: no formula has its value.

    Mistakes are passed over.
    """
    builder = _Builder(template, scenario, Mistakes(), system, workbooks() / "pictures")
    builder.place()
    return builder.book


def _promised(template):
    """Every name that the blocks of a template say they give, wherever they stand."""
    for part in template.parts:
        for sheet in part.sheets:
            blocks = sheet.get("block") if isinstance(sheet, dict) else None
            for block in blocks if isinstance(blocks, list) else ():
                # A copy: what a kind of block reads of its own is another matter.
                yield from names_given(dict(block) if isinstance(block, dict) else {})


def _fill_in_columns(book, columns):
    """Fill in the columns of tables in formulas that stand above them."""
    for sheet in book.sheets:
        for cell in sheet.cells.values():
            if cell.formula is not None:
                cell.formula = filled_in(cell.formula, columns)


def _put_ways_back(book):
    """On every sheet with a title, put a link to the one that maps the workbook."""
    home = next((sheet for sheet in book.sheets if sheet.maps), None)
    for sheet in book.sheets if home is not None else ():
        title, last = sheet.cells.get((0, 0)), sheet.in_window()
        if sheet is home or title is None or title.look != "title" or last < 2:
            continue
        title.span = last - 1
        sheet.put(0, last, value=f"to {home.name}", look="link", link=Link(home.name))


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
        self.book.promised = set(_promised(template))
        self.given = (system, pictures)
        self.pages = {}
        self.shared = Shared()
        self.book.judged = self.shared.judged
        self.lost = Lost(template.whole)
        for chapter in template.misplaced:
            self.lost.part(chapter)
        self.late = []
        self.gave = {}
        self.broken = set()
        self._said = set()

    def place(self):
        """Place every block that can be."""
        for part in self.template.parts:
            self.asked.part = part
            for number, described in enumerate(part.sheets):
                self._sheet(part, number, described)
            if part not in [late[0] for late in self.late]:
                self._hold_promise(part)
        put_lists(self.book, Sheet, self.given[0])
        self.book.sheets.sort(key=lambda sheet: sheet.group == REFERENCE)
        for part, number, page, blocks in self.late:
            self.asked.part = part
            for at, block in blocks:
                self._block(part, number, page, at, block)
        for part in dict.fromkeys(late[0] for late in self.late):
            self._hold_promise(part)
        _fill_in_columns(self.book, self.shared.columns)
        _put_ways_back(self.book)

    def _hold_promise(self, part):
        """Hold a text file to what its head promises; remember it as lost where a block is."""
        if part in self.broken:
            self.lost.part(part)
            return
        names, tables = self.gave.get(part, ([], []))
        self._attempt(part.hold_promise, names, tables)

    def _attempt(self, what, *given):
        """Do something; whether it went without a mistake, which is kept."""
        try:
            what(*given)
        except PlacedTrouble as trouble:
            self.mistakes.take(trouble)
            return False
        return True

    def _sheet(self, part, number, described):
        """Fill a sheet; from a block that is placed late on, keep the rest for then."""
        if (number,) in part.left_out:
            self.lost.sheet(described)
            self.broken.add(part)
            return
        name = described["name"]
        if name.lower() in (known.name.lower() for known in self.book.sheets):
            self.mistakes.take(
                part.file.at(f'two sheets are named "{name}"', "sheet", number, "name")
            )
            self.lost.sheet(described)
            self.broken.add(part)
            return
        sheet = Sheet(name)
        sheet.about = described.get("about", part.about)
        sheet.group = described.get("group", part.group)
        sheet.widths = list(described.get("widths", [30, 12, 12, 12, 12, 12, 12, 12, 40]))
        sheet.printed = described.get("paper", sheet.group != REFERENCE)
        sheet.colour = described.get("colour", GROUPS.get(sheet.group))
        self.book.sheets.append(sheet)
        system, pictures = self.given
        page = Page(self.book, sheet, part, number, self.asked, system, self.shared, pictures)
        self.pages[name] = page
        blocks = list(enumerate(described["block"]))
        for place, (at, block) in enumerate(blocks):
            kind = KINDS.get(str(block.get("kind"))) if isinstance(block, dict) else None
            if kind is not None and kind.late:
                self.late.append((part, number, page, blocks[place:]))
                break
            self._block(part, number, page, at, block)

    def _block(self, part, number, page, at, block):
        """Place a block, and keep which names and tables it gave."""
        whole = self._without_wrong_rows(part, number, at, block)
        tables = self.shared.tables
        names_before, tables_before = len(self.book.names), dict(tables)
        there = (
            (number, at) not in part.left_out
            and not self.lost.used_by(block)
            and self._attempt(page.place, whole, at)
        )
        names, given = self.gave.setdefault(part, ([], []))
        names += list(self.book.names)[names_before:]
        given += [name for name, table in tables.items() if tables_before.get(name) is not table]
        if not there or whole is not block:
            self.lost.block(block)
            self.broken.add(part)

    @staticmethod
    def _without_wrong_rows(part, sheet, at, block):
        """The block without those of its rows that have a mistake."""
        wrong = {place[2] for place in part.left_out if place[:2] == (sheet, at) and place[2:]}
        if not wrong:
            return block
        kept = [row for number, row in enumerate(block["rows"]) if number not in wrong]
        return {**block, "rows": kept}

    def hold_formulas(self, references):
        """Keep the mistakes of all formulas."""
        for trouble in wrong_formulas(self.book, references, self.lost.is_in):
            self.keep(trouble)

    def compute(self, references, trees):
        """Work out every formula. One that cannot be is kept and emptied, and the rest done."""
        for _ in range(MOST):
            try:
                compute(self.book, references, trees)
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
