"""Gives a workbook the macros of xlwings' template, part by part; all else stays as it is."""

import io
import posixpath
import zipfile

from . import pages
from .trouble import InstallError

SETTINGS = "xlwings.conf"
"""The page that xlwings' macros look for."""

_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
_VBA = "http://schemas.microsoft.com/office/2006/relationships/vbaProject"
_RELATIONS = "{http://schemas.openxmlformats.org/package/2006/relationships}"
_TYPES = "{http://schemas.openxmlformats.org/package/2006/content-types}"
_MAIN = "{%s}" % pages.MAIN
_RELATED = "{%s}" % pages.RELATED
_ALTERNATIVES = "{http://schemas.openxmlformats.org/markup-compatibility/2006}AlternateContent"

_PLAIN = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"
_WITH_MACROS = "application/vnd.ms-excel.sheet.macroEnabled.main+xml"
_SHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
_DRAWING = "application/vnd.openxmlformats-officedocument.drawing+xml"
_MACROS = "application/vnd.ms-office.vbaProject"

_FIXED_TIME = (1980, 1, 1, 0, 0, 0)


class Workbook:
    """A workbook in memory, as its parts. content: its bytes. called: for sentences."""

    def __init__(self, content, called="the workbook"):
        try:
            with zipfile.ZipFile(io.BytesIO(content)) as archive:
                self.parts = {
                    i.filename: archive.read(i) for i in archive.infolist() if not i.is_dir()
                }
            self.types = self._tree("[Content_Types].xml")
            root = self._tree("_rels/.rels")
            (self.path,) = (
                r.get("Target").lstrip("/")
                for r in root
                if r.get("Type") == _OFFICE + "officeDocument"
            )
            self.book = self._tree(self.path)
            self.relations_path = _relations_path(self.path)
            self.relations = self._tree(self.relations_path)
            self.sheets = self.book.find(_MAIN + "sheets")
        except (zipfile.BadZipFile, KeyError, ValueError, SyntaxError, NotImplementedError,
                RuntimeError) as problem:  # fmt: skip
            raise InstallError(
                f"{called} is no .xlsx workbook that can be read; is it damaged, or locked with "
                "a "
                "password?"
            ) from problem
        if self.sheets is None:
            raise InstallError(f"{called} is no .xlsx workbook")

    def _tree(self, path):
        from lxml import etree

        parser = etree.XMLParser(resolve_entities=False, no_network=True)
        return etree.fromstring(self.parts[path], parser)

    @property
    def names(self):
        """The names of its sheets."""
        return [sheet.get("name") for sheet in self.sheets]

    @property
    def kind(self):
        """The content type of the workbook itself."""
        for entry in self.types:
            if entry.get("PartName") == "/" + self.path:
                return entry.get("ContentType")
        return ""

    def macros(self):
        """The bytes of its VBA project, or None."""
        for relation in self.relations:
            if relation.get("Type") == _VBA:
                return self.parts[self._target(relation)]
        return None

    def add_macros(self, project):
        """Make it a macro workbook. project: the bytes of a VBA project."""
        path = self._beside("vbaProject.bin")
        self.parts[path] = project
        self._declare(path, _MACROS)
        self._relate(self.relations, _VBA, "vbaProject.bin")
        self._declare(self.path, _WITH_MACROS)
        properties = self.book.find(_MAIN + "workbookPr")
        if properties is None:
            properties = self.book.makeelement(_MAIN + "workbookPr")
            before = [_MAIN + "fileVersion", _MAIN + "fileSharing"]
            self.book.insert(sum(child.tag in before for child in self.book), properties)
        properties.set("codeName", "ThisWorkbook")

    def forget_where_it_lay(self):
        """Take out the folder in which its maker saved it, which is none of the user's."""
        for element in self.book.findall(_ALTERNATIVES):
            if b"absPath" in _bytes(element):
                self.book.remove(element)

    def put_sheet(self, name, rows, widths, code_name, drawing=None, instead=None):
        """Add a sheet at the end, or put it in the place of the sheet called `instead`.

        code_name: VBA's name of it, left out where another sheet has that. drawing: its XML.
        """
        if instead is None:
            number = 1
            while self._beside(f"worksheets/sheet{number}.xml") in self.parts:
                number += 1
            target = f"worksheets/sheet{number}.xml"
            entry = self.sheets.makeelement(_MAIN + "sheet")
            entry.set("name", name)
            entry.set("sheetId", str(1 + max(int(s.get("sheetId")) for s in self.sheets)))
            entry.set(_RELATED + "id", self._relate(self.relations, _OFFICE + "worksheet", target))
            self.sheets.append(entry)
            path = self._beside(target)
            self._declare(path, _SHEET)
        else:
            (entry,) = (s for s in self.sheets if s.get("name") == instead)
            entry.set("name", name)
            wanted = entry.get(_RELATED + "id")
            (path,) = (self._target(r) for r in self.relations if r.get("Id") == wanted)
        self.parts.pop(path, None)
        if any(b'codeName="%s"' % code_name.encode() in part for part in self._worksheets()):
            code_name = None
        relation = self._draw(path, drawing) if drawing else None
        self.parts[path] = pages.sheet(rows, widths, code_name, relation).encode()

    def _worksheets(self):
        return (part for path, part in self.parts.items() if "worksheets/" in path)

    def _draw(self, sheet, drawing):
        number = 1
        while self._beside(f"drawings/drawing{number}.xml") in self.parts:
            number += 1
        path = self._beside(f"drawings/drawing{number}.xml")
        self.parts[path] = drawing.encode()
        self._declare(path, _DRAWING)
        relations = self.relations.makeelement(_RELATIONS + "Relationships", nsmap={
            None: _RELATIONS[1:-1]
        })  # fmt: skip
        made = self._relate(
            relations, _OFFICE + "drawing", posixpath.relpath(path, posixpath.dirname(sheet))
        )
        self.parts[_relations_path(sheet)] = _bytes(relations)
        return made

    def to_bytes(self):
        """The workbook as bytes; the same parts give the same bytes."""
        parts = {
            **self.parts,
            "[Content_Types].xml": _bytes(self.types),
            self.path: _bytes(self.book),
            self.relations_path: _bytes(self.relations),
        }
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
            for name, content in parts.items():
                entry = zipfile.ZipInfo(name, _FIXED_TIME)
                entry.compress_type = zipfile.ZIP_DEFLATED
                archive.writestr(entry, content)
        return packed.getvalue()

    # Paths and relations

    def _beside(self, target):
        return posixpath.join(posixpath.dirname(self.path), target)

    def _target(self, relation):
        target = relation.get("Target")
        return posixpath.normpath(target[1:] if target.startswith("/") else self._beside(target))

    @staticmethod
    def _relate(relations, kind, target):
        taken = {relation.get("Id") for relation in relations}
        number = len(taken) + 1
        while f"rId{number}" in taken:
            number += 1
        entry = relations.makeelement(_RELATIONS + "Relationship")
        for key, value in (("Id", f"rId{number}"), ("Type", kind), ("Target", target)):
            entry.set(key, value)
        relations.append(entry)
        return entry.get("Id")

    def _declare(self, path, kind):
        for entry in self.types:
            if entry.get("PartName") == "/" + path:
                entry.set("ContentType", kind)
                return
        entry = self.types.makeelement(_TYPES + "Override")
        entry.set("PartName", "/" + path)
        entry.set("ContentType", kind)
        self.types.append(entry)


def _relations_path(path):
    folder, name = posixpath.split(path)
    return posixpath.join(folder, "_rels", name + ".rels")


def _bytes(tree):
    from lxml import etree

    return etree.tostring(tree, xml_declaration=True, encoding="UTF-8", standalone=True)


def with_macros(template, content, called, buttons, settings):
    """The bytes of a macro workbook with our two pages.

    template: the bytes of xlwings' own. content: those of the workbook that gets its macros,
    or None for a workbook of our pages alone. called: its name in sentences. buttons: those
    beside the one that imports. settings: (interpreter, modules, xlwings' version). Raises
    InstallError.
    """
    interpreter, modules, version = settings
    rows, widths, drawing = pages.buttons_page(buttons, version)
    settings = pages.settings_page(interpreter, modules)
    if content is None:
        book = Workbook(template, "xlwings' template")
        book.forget_where_it_lay()
        first, second = book.names
        book.put_sheet(pages.IMPORT[0], rows, widths, "Sheet1", drawing, instead=first)
        book.put_sheet(SETTINGS, *settings, "Sheet2", instead=second)
        return book.to_bytes()
    book = Workbook(content, called)
    if book.macros() is not None or book.kind == _WITH_MACROS:
        raise InstallError(
            f"{called} holds macros already, which this would replace; give the workbook without "
            "macros, an .xlsx"
        )
    if book.kind != _PLAIN:
        raise InstallError(f"{called} is no plain .xlsx workbook; save it as one first")
    if SETTINGS in book.names:
        raise InstallError(f"{called} has a page {SETTINGS} already; delete it first")
    book.add_macros(Workbook(template, "xlwings' template").macros())
    name, number = pages.IMPORT[0], 1
    while name.lower() in (known.lower() for known in book.names):
        number += 1
        name = f"{pages.IMPORT[0]} {number}"
    book.put_sheet(name, rows, widths, "Sheet1", drawing)
    book.put_sheet(SETTINGS, *settings, "Sheet2")
    return book.to_bytes()
