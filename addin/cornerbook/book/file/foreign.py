"""A worksheet of another file taken into this one: cells, looks, charts, pictures, comments."""

import copy
import posixpath

from lxml import etree

from .foreign_styles import ForeignStyles
from .markup import MAIN, RELATED

_KEPT = {
    "drawing", "vmlDrawing", "comments", "hyperlink", "table", "image", "chart", "chartUserShapes",
    "chartStyle", "chartColorStyle", "themeOverride",
}  # fmt: skip
"""What a sheet may lead to and takes along."""

_SAID = {
    "pivotTable": "pivot tables, whose cells stay as values",
    "oleObject": "embedded objects",
    "package": "embedded files",
    "control": "controls",
    "ctrlProp": "controls",
    "slicer": "slicers",
    "queryTable": "connections to outside data",
}
"""What is left behind, in words; other kinds, such as settings of a printer, are not missed."""


class Foreign:
    """Takes worksheets of another file.

    there, here: the `Parts` of both; theirs, ours: the `Workbook` of each.
    """

    def __init__(self, there, theirs, here, ours):
        self._there = there
        self._here = here
        self._ours = ours
        self._strings = [
            item
            for part in there.relations.targets(theirs.part, "sharedStrings")
            for item in there.tree(part).iterchildren(MAIN + "si")
        ]
        self._styles = ForeignStyles(
            _first(there, theirs.part, "styles"), _first(there, theirs.part, "theme"), ours.styles
        )
        self._copied = {}
        self.left = {}
        """{what is left behind, in words: None}, of the sheet that was taken last."""

    def take(self, name, part, in_array, hidden=False):
        """Put in a worksheet after the last; the name of its part. in_array: the addresses of its
        cells inside array formulas."""
        self.left = {}
        root = copy.deepcopy(self._there.tree(part))
        links, dropped = self._links(part)
        for element in list(root.iter(etree.Element)):
            self._renew(element)
            if element.get(RELATED + "id") in dropped:
                if element.tag == MAIN + "pageSetup":
                    del element.attrib[RELATED + "id"]
                else:
                    _take_out(element)
        for view in root.iterfind(f"{MAIN}sheetViews/{MAIN}sheetView"):
            view.attrib.pop("tabSelected", None)
        for cell in root.iterfind(f"{MAIN}sheetData/{MAIN}row/{MAIN}c"):
            if cell.get("t") == "s":
                self._own_text(cell, cell.get("r") in in_array)
        content = etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)
        made = self._ours.append(name, content, hidden)
        if links:
            self._here.relations.put(made, [self._link(*link) for link in links])
        return made

    def _links(self, part):
        """(the links of a part that are kept, the ids of the others)."""
        kept, dropped = [], set()
        for link in self._there.relations.links(part):
            relation = link[3]
            if relation.kind in _KEPT and (relation.target is None or relation.target in
                                           self._there):  # fmt: skip
                kept.append(link)
            else:
                dropped.add(relation.id)
                if relation.kind in _SAID:
                    self.left[_SAID[relation.kind]] = None
        return kept, dropped

    def _link(self, id_, kind, written, relation):
        if relation.target is None:
            return id_, kind, None, written
        return id_, kind, self._part(relation.target), None

    def _part(self, part):
        """The name here of a part there, which is copied with all that it leads to."""
        if part not in self._copied:
            made = self._copied[part] = self._here.free_name(part)
            links, _ = self._links(part)
            self._here.add(made, self._there.bytes_of(part), self._there.types.of(part))
            if posixpath.basename(posixpath.dirname(part)) == "tables":
                for element in self._here.change(made).iter(etree.Element):
                    self._renew(element)
            if links:
                self._here.relations.put(made, [self._link(*link) for link in links])
        return self._copied[part]

    def _renew(self, element):
        """Give an element the numbers that its styles have here."""
        if element.tag in (MAIN + "c", MAIN + "row") and element.get("s") is not None:
            element.set("s", self._styles.number(element.get("s")))
        elif element.tag == MAIN + "col" and element.get("style") is not None:
            element.set("style", self._styles.number(element.get("style")))
        for key, value in element.attrib.items():
            if key == "dxfId" or key.endswith("DxfId"):
                element.set(key, self._styles.difference(value))

    def _own_text(self, cell, in_array):
        """Have a cell hold the text itself that its file shares between cells."""
        stored = cell.find(MAIN + "v")
        number = int(stored.text) if stored is not None and (stored.text or "").isdigit() else -1
        if stored is None or not 0 <= number < len(self._strings):
            return
        item = self._strings[number]
        plain = [each for each in item if each.tag in (MAIN + "t", MAIN + "r")]
        if in_array:
            cell.set("t", "str")
            texts = (text for each in plain for text in each.iter(MAIN + "t"))
            stored.text = "".join(text.text or "" for text in texts)
            return
        cell.remove(stored)
        cell.set("t", "inlineStr")
        inline = etree.SubElement(cell, MAIN + "is")
        for each in plain:
            inline.append(copy.deepcopy(each))


def _take_out(element):
    """Remove an element, and what holds nothing else."""
    parent = element.getparent()
    parent.remove(element)
    if len(parent) == 0 and parent.tag in (MAIN + "oleObjects", MAIN + "controls", MAIN + "ext"):
        _take_out(parent)


def _first(parts, book, kind):
    """The root of the first part of a kind that a workbook leads to; None if it has none."""
    found = [part for part in parts.relations.targets(book, kind) if part in parts]
    return parts.tree(found[0]) if found else None
