"""An existing .xlsx file: read it, change some cells, add sheets, leave all else alone.

    package = Package.read("car.xlsx")
    package.set_formula("Corner", "B7", "=B5+B6", 12.5)
    name = package.add_sheet("Workings", [(1, [(1, None, "Steps", "title")])])
    content = package.to_bytes()

Parts that are not concerned keep their exact bytes; sheets that are keep every element but
the changed cells. The same file and the same changes give the same bytes.
"""

from .charts import charts_on
from .foreign import Foreign
from .formulas_elsewhere import formulas_elsewhere
from .left_out import leave_out
from .limits import limits_of
from .markup import MAIN
from .new_sheet import free_name, sheet_xml
from .parts import Parts
from .resolve import Resolver
from .sheet import Sheet
from .values import CellContent
from .workbook import Workbook

__all__ = ["CellContent", "Package"]


class Package:
    """A spreadsheet file in memory, sheet by sheet and cell by cell. Made by `Package.read`."""

    def __init__(self, parts):
        self._parts = parts
        self._book = Workbook(parts)
        self._macros, self._warnings = leave_out(parts, self._book.part)
        self._resolver = None
        self._foreign = None
        self._sheets = {
            name: self._sheet(name, part)
            for name, part, kind in self._book.listed()
            if kind == "worksheet"
        }

    @classmethod
    def read(cls, path):
        """Read the file at `path` wholly into memory.

        Raises `Trouble` if there is none, or it is damaged, locked with a password, of
        another kind, or larger than 300 MB unpacked.
        """
        return cls(Parts.read(path))

    @classmethod
    def of_bytes(cls, content, where):
        """The same of a file's bytes. where: what messages call it."""
        return cls(Parts.read(where, content))

    def _sheet(self, name, part):
        return Sheet(name, self._parts, part, self._book.strings, self._book.since_1904)

    def warnings(self):
        """Sentences on what the copy leaves out, or what is worth knowing about it."""
        return list(self._warnings)

    @property
    def where(self):
        """What messages call the file."""
        return self._parts.where

    @property
    def has_macros(self):
        """Whether the file that was read holds macros. They are never saved."""
        return self._macros

    @property
    def is_calculated(self):
        """Whether the program that saved the file vouches for the formulas' stored values.

        A file that asks to be worked out as it opens says that they are none; so do files
        of programs that only write them (XlsxWriter, openpyxl), where they may be 0. Calc and
        Excel work out what they save, and Excel lists what it worked out.
        """
        return self._book.is_calculated

    # Reading

    def _at(self, sheet):
        if sheet not in self._sheets:
            raise ValueError(f"there is no worksheet {sheet!r}")
        return self._sheets[sheet]

    @property
    def sheets(self):
        """The names of the worksheets, in order; charts on sheets of their own are not."""
        return list(self._sheets)

    @property
    def names(self):
        """(name, sheet that it is limited to or None, text without '=') of each defined name."""
        return self._book.names

    def cells(self, sheet):
        """{address such as "B7": `CellContent`} of every cell of a sheet that is not empty."""
        return self._at(sheet).cells()

    def used(self, sheet):
        """The last row and the last column of a sheet that hold anything, from 1."""
        return self._at(sheet).used()

    def resolve(self, text, sheet, at=None):
        """The range that a reference means: (sheet, top, left, bottom, right), from 0.

        text: "A1", "$A$1:B2", "Sheet!A1:B2", "A:D" or "2:5" (cut to what the sheet uses),
        or a defined name for such a range. sheet: the sheet that the reference stands on.
        at: the address of the cell that it stands in, for names without $ signs, which mean
        another range in each cell. Raises `Trouble` for anything else, naming it.
        """
        return self._resolves().resolve(text, sheet, at)

    def fixed_place(self, text, sheet):
        """The same of a reference that is seen to mean one range in all cells of a sheet.

        None for one that moves with the cell, and for any that takes longer to find out.
        """
        return self._resolves().fixed(text, sheet)

    def _resolves(self):
        if self._resolver is None:
            sheets = self._sheets  # without the package, which else would hold itself
            self._resolver = Resolver(self.sheets, self.names, lambda name: sheets[name].used())
        return self._resolver

    def formulas_elsewhere(self):
        """(place in words, formula) of each formula that is not in a cell.

        Those of defined names, conditional formats, data validation and table columns.
        """
        sheets = [(name, sheet.part) for name, sheet in self._sheets.items()]
        return formulas_elsewhere(self._parts, sheets, self.names)

    def limits(self, sheet, address):
        """(low, high, whole numbers only) that a cell's data validation asks for, or None."""
        return limits_of(self._parts.tree(self._at(sheet).part), address)

    @property
    def title(self):
        """The title that the file says of itself, '' if none."""
        return self._book.title

    def inputs(self, sheet):
        """The addresses of a sheet's cells that look as if they were for typing, in order.

        Those that its protection leaves open, and those on our yellow paper; empty ones too.
        """
        open_styles = self._book.styles.inputs
        return [address for address, style in self._at(sheet).styles() if style in open_styles]

    def held_shut(self, sheet):
        """The addresses of a sheet's cells that its protection keeps from being typed over.

        Those on our yellow paper are not among them, nor is any of a sheet without protection.
        """
        at = self._at(sheet)
        lock = self._parts.tree(at.part).find(MAIN + "sheetProtection")
        if lock is None or lock.get("sheet") not in ("1", "true"):
            return set()
        open_styles = self._book.styles.inputs
        return {address for address, style in at.styles() if style not in open_styles}

    # Changing

    def set_formula(self, sheet, address, formula, value, array=None):
        """Replace a cell's formula and its stored value; its style stays.

        formula: with or without '='. value: a number, text, logical, `CellError` or None.
        array: the range ("A8:H28") that it fills as an array formula from this cell; give
        the other cells their values with `set_value`. The cells of an array can have
        formulas of their own once its first cell has a plain formula or a value.
        Raises `Trouble` if the formula or a text is longer than Excel takes.
        """
        self._at(sheet).set_formula(address, formula, value, array)
        self._book.forget_order()

    def set_value(self, sheet, address, value):
        """Make a cell a plain value, or empty for None; its style stays, a formula goes."""
        if self._at(sheet).set_value(address, value):
            self._book.forget_order()

    def grey(self, sheet, address):
        """Make the letters of a cell grey; all else of its look stays."""
        at = self._at(sheet)
        content = at.cells().get(address)
        at.set_style(address, self._book.styles.greyed(content.style if content else 0))

    def freeze_values(self, predicate):
        """Make formulas their stored values, to the last digit.

        predicate: called with sheet, address and formula; true for a cell to be frozen.
        Returns [(sheet, address)] of those for which the file stores no value; they are
        empty now.
        """
        empty = []
        for name, sheet in self._sheets.items():
            for address, content in sheet.cells().items():
                if content.formula is not None and predicate(name, address, content.formula):
                    self._book.forget_order()
                    if not sheet.freeze(address):
                        empty.append((name, address))
        return empty

    def add_sheet(
        self, name, rows, widths=None, freeze=None, merges=(), heights=None, hidden=False
    ):
        """Add a worksheet after the last, protected without a password; its name as used.

        rows: (row number from 1, [(column number from 1, formula or None, value, style)]); a
        list of them in any order, or one after the other in order.
        style: a key of `styles.LOOKS`, (a key, a number format), the number of a style of
        the file, or None. widths: in characters, {column number: width} or a list from
        column 1. freeze: the first cell that scrolls ("B5"). merges: ranges. heights:
        {row number: points}. A name that is taken gets " 2" and so on; what Excel does not
        allow in a name is left out.
        """
        name = free_name(name, [other for other, _, _ in self._book.listed()])
        content = sheet_xml(name, rows, self._book.styles.number, widths, freeze, merges, heights)
        self._sheets[name] = self._sheet(name, self._book.append(name, content, hidden))
        self._resolver = None
        return name

    def take_sheet(self, other, name):
        """Take in a worksheet of another `Package`, after the last; what is left behind, in words.

        Its formulas stay as they are. Raises ValueError if there is a sheet of this name.
        """
        if name.lower() in (known.lower() for known, _, _ in self._book.listed()):
            raise ValueError(f"there is a sheet {name!r} already")
        if self._foreign is None or self._foreign[0] is not other:
            self._foreign = (other, Foreign(other._parts, other._book, self._parts, self._book))
        inside = {a for a, content in other.cells(name).items() if content.in_array is not None}
        foreign = self._foreign[1]
        part = foreign.take(name, other._at(name).part, inside, other._book.is_hidden(name))
        self._sheets[name] = self._sheet(name, part)
        self._resolver = None
        return list(foreign.left)

    def add_name(self, name, text, sheet=None):
        """Give something a name. text: what it means, without '='; sheet: its own, if any."""
        self._book.add_name(name, text, sheet)
        self._resolver = None

    def charts(self, sheet):
        """[the formulas of its ranges] of each chart on a sheet."""
        return charts_on(self._parts, self._at(sheet).part)

    @property
    def other_sheets(self):
        """The names of sheets that are no worksheets, such as charts on sheets of their own."""
        return [name for name, _, kind in self._book.listed() if kind != "worksheet"]

    def to_bytes(self):
        """The file with its changes. The same file and changes give the same bytes."""
        return self._parts.to_bytes()
