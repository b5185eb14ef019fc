"""An existing .xlsx file: read it, change some cells, add sheets, leave all else alone.

    package = Package.read("car.xlsx")
    package.set_formula("Corner", "B7", "=B5+B6", 12.5)
    name = package.add_sheet("Workings", [(1, [(1, None, "Steps", "title")])])
    content = package.to_bytes()

Parts that are not concerned keep their exact bytes; sheets that are keep every element but
the changed cells. The same file and the same changes give the same bytes.
"""

from .elsewhere import formulas_elsewhere
from .limits import limits_of
from .new_sheet import free_name, sheet_xml
from .parts import MAIN, RELATED, Parts
from .properties import add_title
from .resolve import Resolver
from .sheet import Sheet
from .styles import FEWEST, Styles
from .trouble import Trouble
from .values import CellContent, plain_text

__all__ = ["CellContent", "Package"]

_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml."
_STRICT = "http://purl.oclc.org/ooxml/"


class Package:
    """A spreadsheet file in memory. Made by `Package.read`."""

    def __init__(self, parts):
        self._parts = parts
        self._warnings = []
        self._settle_kind()
        self._leave_out()
        self._sheets = {}
        self._styles = None
        self._strings = None
        self._resolver = None
        self._ordered = True
        for entry, part, kind in self._all_sheets():
            if kind == "worksheet":
                self._sheets[entry.get("name")] = (part, self._sheet(entry.get("name"), part))

    @classmethod
    def read(cls, path):
        """Read the file at `path` wholly into memory.

        Raises `Trouble` if there is none, or it is damaged, locked with a password, of
        another kind, or larger than 300 MB unpacked.
        """
        return cls(Parts.read(path))

    def _settle_kind(self):
        """Find the workbook's part, and see to it that it is saved as a plain workbook."""
        parts = self._parts
        found = [r.target for r in parts.relations("") if r.kind == "officeDocument"]
        where = parts.where
        if not found or not found[0]:
            raise Trouble(f"{where} is not a spreadsheet file")
        self._book = found[0]
        declared = parts.content_type(self._book)
        if "sheet.binary" in declared:
            raise Trouble(f"{where} is a binary workbook (.xlsb); save it as .xlsx first")
        if "spreadsheetml" not in declared and "ms-excel" not in declared:
            raise Trouble(f"{where} is not a spreadsheet file")
        tag = parts.tree(self._book).tag
        if tag.startswith("{" + _STRICT):
            raise Trouble(
                f"{where} is saved as Strict Open XML; save it as a plain .xlsx workbook first"
            )
        if tag != MAIN + "workbook" or parts.tree(self._book).find(MAIN + "sheets") is None:
            raise Trouble(f"{where} is damaged: it holds no workbook")
        if any(kind.lower().endswith("macrosheet") for _, _, kind in self._all_sheets()):
            raise Trouble(
                f"{where} has sheets of Excel 4 macros, which no .xlsx may hold; delete them first"
            )
        if declared != _TYPE + "sheet.main+xml":
            parts.declare(self._book, _TYPE + "sheet.main+xml")

    def _leave_out(self):
        """Take out what would not be true of a changed .xlsx, and note what to say."""
        parts = self._parts
        say = self._warnings.append
        self._macros = parts.unrelate(self._book, {"vbaProject"})
        if self._macros:
            say("It holds macros; the copy is an .xlsx and leaves them out.")
        if parts.unrelate("", {"origin"}):
            say("It is digitally signed; the copy is changed, so it leaves the signature out.")
        if parts.unrelate(self._book, {"revisionHeaders", "usernames"}):
            say("It keeps a history of changes; the copy leaves the history out.")
        kinds = {relation.kind for relation in parts.relations(self._book)}
        if "externalLink" in kinds:
            say(
                "It takes values from other workbooks; the copy keeps these links, which work "
                "only where those files can be found."
            )
        if "connections" in kinds:
            say(
                "It has connections to outside data; the copy keeps them, and they work only "
                "where that data can be reached."
            )

    def warnings(self):
        """Sentences on what the copy leaves out, or what is worth knowing about it."""
        return list(self._warnings)

    @property
    def has_macros(self):
        """Whether the file that was read holds macros. They are never saved."""
        return self._macros

    # Reading

    def _all_sheets(self):
        """(element, part, kind) of each sheet of any kind, in order."""
        related = {r.id: r for r in self._parts.relations(self._book)}
        for entry in self._parts.tree(self._book).iterfind(MAIN + "sheets/" + MAIN + "sheet"):
            relation = related.get(entry.get(RELATED + "id"))
            if relation is None or relation.target not in self._parts:
                raise Trouble(
                    f"{self._parts.where} is damaged: its sheet {entry.get('name')} is missing"
                )
            yield entry, relation.target, relation.kind

    def _sheet(self, name, part):
        def tree(change):
            return self._parts.change(part) if change else self._parts.tree(part)

        properties = self._parts.tree(self._book).find(MAIN + "workbookPr")
        since_1904 = properties is not None and properties.get("date1904") in ("1", "true")
        return Sheet(name, tree, self._shared_strings, since_1904)

    def _shared_strings(self):
        if self._strings is None:
            self._strings = []
            for relation in self._parts.relations(self._book):
                if relation.kind == "sharedStrings":
                    root = self._parts.tree(relation.target)
                    self._strings = [plain_text(item) for item in root.iterchildren(MAIN + "si")]
        return self._strings

    def _at(self, sheet):
        if sheet not in self._sheets:
            raise ValueError(f"there is no worksheet {sheet!r}")
        return self._sheets[sheet][1]

    @property
    def sheets(self):
        """The names of the worksheets, in order; charts on sheets of their own are not."""
        return list(self._sheets)

    @property
    def names(self):
        """(name, sheet that it is limited to or None, text without '=') of each defined name."""
        sheets = [entry.get("name") for entry, _, _ in self._all_sheets()]
        root = self._parts.tree(self._book)
        found = []
        for entry in root.iterfind(MAIN + "definedNames/" + MAIN + "definedName"):
            scope = entry.get("localSheetId")
            if scope is not None:
                scope = sheets[int(scope)] if int(scope) < len(sheets) else None
            found.append((entry.get("name"), scope, (entry.text or "").removeprefix("=")))
        return found

    def cells(self, sheet):
        """{address such as "B7": `CellContent`} of every cell of a sheet that is not empty."""
        return self._at(sheet).cells()

    def resolve(self, text, sheet, at=None):
        """The range that a reference means: (sheet, top, left, bottom, right), from 0.

        text: "A1", "$A$1:B2", "Sheet!A1:B2", "A:D" or "2:5" (cut to what the sheet uses),
        or a defined name for such a range. sheet: the sheet that the reference stands on.
        at: the address of the cell that it stands in, for names without $ signs, which mean
        another range in each cell. Raises `Trouble` for anything else, naming it.
        """
        if self._resolver is None:
            self._resolver = Resolver(self.sheets, self.names, lambda name: self._at(name).used())
        return self._resolver.resolve(text, sheet, at)

    def formulas_elsewhere(self):
        """(place in words, formula) of each formula that is not in a cell.

        Those of defined names, conditional formats, data validation and table columns.
        """
        sheets = [(name, part) for name, (part, _) in self._sheets.items()]
        return formulas_elsewhere(self._parts, sheets, self.names)

    def limits(self, sheet, address):
        """(low, high, whole numbers only) that a cell's data validation asks for, or None."""
        self._at(sheet)
        return limits_of(self._parts.tree(self._sheets[sheet][0]), address)

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
        self._forget_order()

    def set_value(self, sheet, address, value):
        """Make a cell a plain value, or empty for None; its style stays, a formula goes."""
        if self._at(sheet).set_value(address, value):
            self._forget_order()

    def freeze_values(self, predicate):
        """Make formulas their stored values, to the last digit.

        predicate: called with sheet, address and formula; true for a cell to be frozen.
        Returns [(sheet, address)] of those for which the file stores no value; they are
        empty now.
        """
        empty = []
        for name, (_, sheet) in self._sheets.items():
            for address, content in sheet.cells().items():
                if content.formula is not None and predicate(name, address, content.formula):
                    self._forget_order()
                    if not sheet.freeze(address):
                        empty.append((name, address))
        return empty

    def _forget_order(self):
        # The stored order of calculation lists formula cells; programs make it anew.
        if self._ordered:
            self._parts.unrelate(self._book, {"calcChain"})
            self._ordered = False

    def add_sheet(
        self, name, rows, widths=None, freeze=None, merges=(), heights=None, hidden=False
    ):
        """Add a worksheet after the last, protected without a password; its name as used.

        rows: (row number from 1, [(column number from 1, formula or None, value, style)]).
        style: a key of `package_style.LOOKS`, (a key, a number format), the number of a
        style of the file, or None. widths: in characters, {column number: width} or a list
        from column 1. freeze: the first cell that scrolls ("B5"). merges: ranges. heights:
        {row number: points}. A name that is taken gets " 2" and so on; what Excel does not
        allow in a name is left out.
        """
        parts = self._parts
        workbook = parts.change(self._book)
        sheets = workbook.find(MAIN + "sheets")
        name = free_name(name, [entry.get("name") for entry in sheets.iterchildren(MAIN + "*")])
        content = sheet_xml(name, rows, self._style, widths, freeze, merges, heights)
        folder = self._book.rpartition("/")[0]
        number = 1
        while self._sheet_part(folder, number) in parts:
            number += 1
        part = self._sheet_part(folder, number)
        parts.add(part, content, _TYPE + "worksheet+xml")
        entry = sheets.makeelement(MAIN + "sheet", name=name, sheetId=str(_free_id(sheets)))
        if hidden:
            entry.set("state", "hidden")
        entry.set(RELATED + "id", parts.relate(self._book, "worksheet", part))
        sheets.append(entry)
        add_title(parts, name, self.sheets)
        self._sheets[name] = (part, self._sheet(name, part))
        self._resolver = None
        self._forget_order()
        return name

    def _sheet_part(self, folder, number):
        return "/".join(filter(None, (folder, "worksheets", f"sheet{number}.xml")))

    def _style(self, key):
        if self._styles is None:
            parts = self._parts
            found = [r.target for r in parts.relations(self._book) if r.kind == "styles"]
            if not found:
                found = ["/".join(filter(None, (self._book.rpartition("/")[0], "styles.xml")))]
                parts.add(found[0], FEWEST, _TYPE + "styles+xml")
                parts.relate(self._book, "styles", found[0])
            self._styles = Styles(lambda: parts.change(found[0]))
        return self._styles.number(key)

    def to_bytes(self):
        """The file with its changes. The same file and changes give the same bytes."""
        return self._parts.to_bytes()


def _free_id(sheets):
    return max((int(entry.get("sheetId", 0)) for entry in sheets), default=0) + 1
