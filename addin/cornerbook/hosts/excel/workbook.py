"""A workbook whose macros and sheets can be changed; all else in it stays as it is."""

import posixpath
import zipfile

from . import pages
from .parts import OFFICE, Parts, as_bytes, no_relations
from .trouble import InstallError

PLAIN = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"
WITH_MACROS = "application/vnd.ms-excel.sheet.macroEnabled.main+xml"
"""The content types of a workbook without macros and with them."""

_VBA = "http://schemas.microsoft.com/office/2006/relationships/vbaProject"
_MAIN = "{%s}" % pages.MAIN
_RELATED = "{%s}" % pages.RELATED
_ALTERNATIVES = "{http://schemas.openxmlformats.org/markup-compatibility/2006}AlternateContent"

_SHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
_DRAWING = "application/vnd.openxmlformats-officedocument.drawing+xml"
_MACROS = "application/vnd.ms-office.vbaProject"


class Workbook:
    """A workbook in memory: its sheets and its macros. content: its bytes. called: for sentences.

    Raises `InstallError` for what is no workbook.
    """

    def __init__(self, content, called="the workbook"):
        try:
            self.parts = Parts(content)
            (self.path,) = self.parts.relations("").of_kind(OFFICE + "officeDocument")
            self.book = self.parts.tree(self.path)
            self.relations = self.parts.relations(self.path)
            self.sheets = self.book.find(_MAIN + "sheets")
        except (zipfile.BadZipFile, KeyError, ValueError, SyntaxError, NotImplementedError,
                RuntimeError) as problem:  # fmt: skip
            raise InstallError(
                f"{called} is no .xlsx workbook that can be read; is it damaged, or locked with "
                "a password?"
            ) from problem
        if self.sheets is None:
            raise InstallError(f"{called} is no .xlsx workbook")

    @property
    def names(self):
        """The names of its sheets."""
        return [sheet.get("name") for sheet in self.sheets]

    @property
    def kind(self):
        """The content type of the workbook itself."""
        return self.parts.kind(self.path)

    def macros(self):
        """The bytes of its VBA project, or None."""
        for path in self.relations.of_kind(_VBA):
            return self.parts[path]
        return None

    def add_macros(self, project):
        """Make it a macro workbook. project: the bytes of a VBA project."""
        path = self._beside("vbaProject.bin")
        self.parts[path] = project
        self.parts.declare(path, _MACROS)
        self.relations.add(_VBA, path)
        self.parts.declare(self.path, WITH_MACROS)
        properties = self.book.find(_MAIN + "workbookPr")
        if properties is None:
            properties = self.book.makeelement(_MAIN + "workbookPr")
            before = [_MAIN + "fileVersion", _MAIN + "fileSharing"]
            self.book.insert(sum(child.tag in before for child in self.book), properties)
        properties.set("codeName", "ThisWorkbook")

    def forget_where_it_lay(self):
        """Take out the folder in which its maker saved it, which is none of the user's."""
        for element in self.book.findall(_ALTERNATIVES):
            if b"absPath" in as_bytes(element):
                self.book.remove(element)

    def put_sheet(self, name, rows, widths, code_name, drawing=None, instead=None):
        """Add a sheet at the end, or put it in the place of the sheet called `instead`.

        code_name: VBA's name of it, left out where another sheet has that. drawing: its XML.
        """
        path = self._add_entry(name) if instead is None else self._rename_entry(instead, name)
        self.parts[path] = b""  # what it was called in VBA is free again
        if any(b'codeName="%s"' % code_name.encode() in part for part in self._worksheets()):
            code_name = None
        relation = self._draw(path, drawing) if drawing else None
        self.parts[path] = pages.sheet(rows, widths, code_name, relation).encode()

    def _add_entry(self, name):
        """List a new sheet; returns the path of its part, which is still to be made."""
        path = self.parts.free(self._beside("worksheets/sheet{}.xml"))
        entry = self.sheets.makeelement(_MAIN + "sheet")
        entry.set("name", name)
        entry.set("sheetId", str(1 + max(int(s.get("sheetId")) for s in self.sheets)))
        entry.set(_RELATED + "id", self.relations.add(OFFICE + "worksheet", path))
        self.sheets.append(entry)
        self.parts.declare(path, _SHEET)
        return path

    def _rename_entry(self, name, new):
        """Give a listed sheet a new name; returns the path of its part."""
        (entry,) = (s for s in self.sheets if s.get("name") == name)
        entry.set("name", new)
        return self.relations.by_identifier(entry.get(_RELATED + "id"))

    def _worksheets(self):
        return (self.parts[path] for path in self.parts if "worksheets/" in path.lower())

    def _draw(self, sheet, drawing):
        """Add a drawing's part and the sheet's relation to it; returns its identifier."""
        path = self.parts.free(self._beside("drawings/drawing{}.xml"))
        self.parts[path] = drawing.encode()
        self.parts.declare(path, _DRAWING)
        relations = no_relations(sheet)
        made = relations.add(OFFICE + "drawing", path)
        self.parts[relations.path] = as_bytes(relations.tree)
        return made

    def _beside(self, target):
        return posixpath.join(posixpath.dirname(self.path), target)

    def to_bytes(self):
        """The workbook as bytes; the same content gives the same bytes."""
        return self.parts.to_bytes({self.path: self.book, self.relations.path: self.relations.tree})
