"""The workbook's own part of a spreadsheet file, and what all its sheets share."""

import posixpath

from .content_types import SPREADSHEET
from .markup import MAIN, RELATED, whole
from .properties import add_title
from .styles import Styles
from .trouble import Trouble
from .values import plain_text

_STRICT = "http://purl.oclc.org/ooxml/"


class Workbook:
    """The list of a file's sheets and names, and the texts and styles that its cells share.

    parts: the `Parts`. It is seen to that the file is saved as a plain workbook. Raises
    `Trouble` if it is none, or of a kind that cannot be kept.
    """

    def __init__(self, parts):
        self._parts = parts
        self.part = _found(parts)
        self._strings = None
        self._styles = None
        self._ordered = True
        self._listed_as_worked_out = bool(parts.relations.targets(self.part, "calcChain"))
        if any(kind.lower().endswith("macrosheet") for _, _, kind in self.listed()):
            raise Trouble(
                f"{parts.where} has sheets of Excel 4 macros, which no .xlsx may hold; delete "
                "them first"
            )
        if parts.types.of(self.part) != SPREADSHEET + "sheet.main+xml":
            parts.types.declare(self.part, SPREADSHEET + "sheet.main+xml")

    def listed(self):
        """(name, part, kind such as "worksheet") of each sheet of any kind, in order."""
        related = {relation.id: relation for relation in self._parts.relations.of(self.part)}
        for entry in self._parts.tree(self.part).iterfind(MAIN + "sheets/" + MAIN + "sheet"):
            name = entry.get("name")
            if not name:
                raise Trouble(f"{self._parts.where} is damaged: a sheet has no name")
            relation = related.get(entry.get(RELATED + "id"))
            if relation is None or relation.target not in self._parts:
                raise Trouble(f"{self._parts.where} is damaged: its sheet {name} is missing")
            yield name, relation.target, relation.kind

    @property
    def names(self):
        """[(name, sheet that it is limited to or None, text without '=')]; see `Package`."""
        sheets = [name for name, _, _ in self.listed()]
        root = self._parts.tree(self.part)
        found = []
        for entry in root.iterfind(MAIN + "definedNames/" + MAIN + "definedName"):
            name, scope = entry.get("name"), entry.get("localSheetId")
            if not name:
                raise Trouble(f"{self._parts.where} is damaged: a defined name is empty")
            if scope is not None:
                try:
                    scope = sheets[whole(scope, len(sheets) - 1)]
                except ValueError:
                    raise Trouble(
                        f"{self._parts.where} is damaged: the name {name} is of a sheet that there "
                        "is not"
                    ) from None
            found.append((name, scope, (entry.text or "").removeprefix("=")))
        return found

    @property
    def is_calculated(self):
        """Whether the program that saved the file worked out its values; see `Package`."""
        settings = self._parts.tree(self.part).find(MAIN + "calcPr")
        if settings is not None and settings.get("fullCalcOnLoad") in ("1", "true"):
            return False
        for part in self._parts.relations.targets("", "extended-properties"):
            if part in self._parts:
                program = self._parts.tree(part).findtext("{*}Application") or ""
                if program.startswith("LibreOffice"):
                    return True
                return program == "Microsoft Excel" and self._listed_as_worked_out
        return False

    @property
    def title(self):
        """The title in the file's properties, '' if it has none."""
        for part in self._parts.relations.targets("", "core-properties"):
            if part in self._parts:
                return self._parts.tree(part).findtext("{*}title") or ""
        return ""

    @property
    def since_1904(self):
        """Whether its days are counted from 1904, as old files of the Macintosh do."""
        properties = self._parts.tree(self.part).find(MAIN + "workbookPr")
        return properties is not None and properties.get("date1904") in ("1", "true")

    def strings(self):
        """The texts that cells share, in the order of their numbers."""
        if self._strings is None:
            self._strings = []
            for part in self._parts.relations.targets(self.part, "sharedStrings"):
                root = self._parts.tree(part)
                self._strings += [plain_text(item) for item in root.iterchildren(MAIN + "si")]
        return self._strings

    @property
    def styles(self):
        """The `Styles` of the file."""
        if self._styles is None:
            self._styles = Styles(self._parts, self.part)
        return self._styles

    def append(self, name, content, hidden=False):
        """Put in a worksheet after the last; the name of its part. content: its bytes."""
        parts = self._parts
        part = self._free_part()
        before = [other for other, _, kind in self.listed() if kind == "worksheet"]
        parts.add(part, content, SPREADSHEET + "worksheet+xml")
        sheets = parts.change(self.part).find(MAIN + "sheets")
        entry = sheets.makeelement(MAIN + "sheet", name=name, sheetId=str(_free_id(sheets)))
        if hidden:
            entry.set("state", "hidden")
        entry.set(RELATED + "id", parts.relations.add(self.part, "worksheet", part))
        sheets.append(entry)
        add_title(parts, name, before)
        self.forget_order()
        return part

    def is_hidden(self, name):
        """Whether a sheet is hidden."""
        entries = self._parts.tree(self.part).iterfind(f"{MAIN}sheets/{MAIN}sheet")
        states = {entry.get("name"): entry.get("state", "visible") for entry in entries}
        return states[name] != "visible"

    def add_name(self, name, text, sheet=None):
        """Give something a name; see `Package.add_name`."""
        root = self._parts.change(self.part)
        names = root.find(MAIN + "definedNames")
        if names is None:
            names = root.makeelement(MAIN + "definedNames")
            above = [c for c in root if c.tag in (MAIN + "sheets", MAIN + "externalReferences")]
            above[-1].addnext(names)
        entry = names.makeelement(MAIN + "definedName", name=name)
        if sheet is not None:
            entry.set("localSheetId", str([each for each, _, _ in self.listed()].index(sheet)))
        entry.text = text
        names.append(entry)

    def _free_part(self):
        folder, number = posixpath.dirname(self.part), 1
        while True:
            part = posixpath.join(folder, f"worksheets/sheet{number}.xml")
            if part not in self._parts:
                return part
            number += 1

    def forget_order(self):
        """Leave out the order of calculation: it lists formula cells, and is made anew."""
        if self._ordered:
            self._parts.unrelate(self.part, {"calcChain"})
            self._ordered = False


def _found(parts):
    """The name of the workbook's part; `Trouble` if there is none that we read."""
    where = parts.where
    found = parts.relations.targets("", "officeDocument")
    if not found or not found[0]:
        raise Trouble(f"{where} is not a spreadsheet file")
    declared = parts.types.of(found[0])
    if "sheet.binary" in declared:
        raise Trouble(f"{where} is a binary workbook (.xlsb); save it as .xlsx first")
    if "spreadsheetml" not in declared and "ms-excel" not in declared:
        raise Trouble(f"{where} is not a spreadsheet file")
    root = parts.tree(found[0])
    if root.tag.startswith("{" + _STRICT):
        raise Trouble(
            f"{where} is saved as Strict Open XML; save it as a plain .xlsx workbook first"
        )
    if root.tag != MAIN + "workbook" or root.find(MAIN + "sheets") is None:
        raise Trouble(f"{where} is damaged: it holds no workbook")
    return found[0]


def _free_id(sheets):
    taken = {entry.get("sheetId") for entry in sheets}
    number = len(taken) + 1
    while str(number) in taken:
        number += 1
    return number
