"""How the cells of added sheets look, appended to the styles of an existing file."""

import copy
import posixpath

from lxml import etree

from .appearance import FAINT, FONT, GOOD, HEAD, INK, LOOK, PAPER, RULE
from .content_types import SPREADSHEET
from .markup import MAIN, whole
from .trouble import Trouble

_UNDER = {"bottom": "thin", "bottom_color": RULE}

LOOKS = {
    "plain": {},
    "title": {"bold": True, "size": 18, "color": HEAD},
    "group": {"bold": True, "size": 12, "color": HEAD, "bottom": "medium", "bottom_color": HEAD},
    "heading": {"bold": True, "color": HEAD, "wrap": True, "align": "center", **_UNDER},
    "first heading": {"bold": True, "color": HEAD, "wrap": True, **_UNDER},
    "note": {"size": 9, "color": FAINT, "wrap": True, "vertical": "top"},
    "label": _UNDER,
    "number": {"align": "right", "format": "0.0000", **_UNDER},
    "said": {"wrap": True, **_UNDER},
    "good": {"fill": GOOD[0], "color": GOOD[1], "align": "center", **_UNDER},
    "look": {"fill": LOOK[0], "color": LOOK[1], "align": "center", **_UNDER},
}
"""The looks by key. None is an input's, since no cell of an added sheet is one."""

# What a style sheet is made of, in the order that the standard asks for.
_ORDER = (
    "numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs", "cellStyles", "dxfs",
    "tableStyles", "colors", "extLst",
)  # fmt: skip

# What a font is made of, in the same way.
_FONT_ORDER = (
    "b", "i", "strike", "condense", "extend", "outline", "shadow", "u", "vertAlign", "sz",
    "color", "name", "family", "charset", "scheme",
)  # fmt: skip

# A style sheet for a file that has none.
_FEWEST = (
    b'<styleSheet xmlns="%s"><fonts count="1"><font/></fonts><fills count="2"><fill>'
    b'<patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>'
    b'</fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border>'
    b'</borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>'
    b'</cellStyleXfs><cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" '
    b'xfId="0"/></cellXfs></styleSheet>' % MAIN[1:-1].encode()
)


class Styles:
    """Appends looks to a file's style sheet, each once; a file that has none gets one.

    parts: its `Parts`. book: the name of the workbook's part, which links to the style sheet.
    """

    def __init__(self, parts, book):
        self._parts = parts
        self._made = {}
        found = parts.relations.targets(book, "styles")
        self._sheet = found[0] if found else self._new(book)

    def _new(self, book):
        part = posixpath.join(posixpath.dirname(book), "styles.xml")
        self._parts.add(part, _FEWEST, SPREADSHEET + "styles+xml")
        self._parts.relations.add(book, "styles", part)
        return part

    @property
    def inputs(self):
        """The numbers of the styles of cells that are for typing; see `Package.inputs`."""
        root = self._parts.tree(self._sheet)
        papers = {
            number
            for number, fill in enumerate(root.iterfind(f"{MAIN}fills/{MAIN}fill"))
            if fill.find(f"{MAIN}patternFill/{MAIN}fgColor[@rgb='{_rgb(PAPER)}']") is not None
        }
        found = set()
        for number, look in enumerate(root.iterfind(f"{MAIN}cellXfs/{MAIN}xf")):
            lock = look.find(MAIN + "protection")
            is_open = lock is not None and lock.get("locked") in ("0", "false")
            if is_open or int(look.get("fillId", 0)) in papers:
                found.add(number)
        return found

    def number(self, key):
        """The number of a style.

        key: a key of `LOOKS`, or (such a key, a number format), or the number itself of a
        style that the file has, or None for the file's own default.
        """
        if key is None or isinstance(key, int):
            return key or 0
        if key not in self._made:
            look, number_format = key if isinstance(key, tuple) else (key, None)
            described = dict(LOOKS[look])
            if number_format:
                described["format"] = number_format
            self._made[key] = self._append("cellXfs", self._cell_format(described))
        return self._made[key]

    def greyed(self, number):
        """The number of a style that is like one of the file's own, with grey letters."""
        key = ("grey", number)
        if key not in self._made:
            made = self._copied("cellXfs", str(number))
            font = self._copied("fonts", made.get("fontId", "0"))
            for colour in font.findall(MAIN + "color"):
                font.remove(colour)
            font.append(etree.Element(MAIN + "color", rgb=_rgb(FAINT)))
            # The standard asks for an order, which not every writer keeps.
            font[:] = sorted(font, key=lambda child: _rank(child.tag))
            made.set("fontId", self.part("fonts", font))
            made.set("applyFont", "1")
            self._made[key] = self._append("cellXfs", made)
        return self._made[key]

    def _copied(self, group, number):
        """A copy of an element of a group by its number from 0, as an attribute has it."""
        elements = list(self._group(group).iterchildren(MAIN + "*"))
        try:
            return copy.deepcopy(elements[whole(number, len(elements) - 1)])
        except ValueError:
            raise Trouble(
                f"{self._parts.where} is damaged: {number} of its {group} is asked for, and "
                f"there are {len(elements)}"
            ) from None

    def _cell_format(self, look):
        code = self.number_format(look.get("format"))
        made = etree.Element(
            MAIN + "xf", numFmtId=str(code),
            fontId=self.part("fonts", _font(look)),
            fillId=self.part("fills", _fill(look)) if "fill" in look else "0",
            borderId=self.part("borders", _border(look)) if "bottom" in look else "0",
        )  # fmt: skip
        if self._group("cellStyleXfs", make=False) is not None:
            made.set("xfId", "0")
        for applied in ("NumberFormat", "Font", "Fill", "Border", "Alignment"):
            made.set("apply" + applied, "1")
        alignment = etree.SubElement(made, MAIN + "alignment")
        if "align" in look:
            alignment.set("horizontal", look["align"])
        alignment.set("vertical", look.get("vertical", "center"))
        if look.get("wrap"):
            alignment.set("wrapText", "1")
        return made

    def part(self, group, element):
        """The number, as text, of a font, fill, border or format that is appended to its group."""
        # The same font, fill or border under several looks stands once.
        key = (group, etree.tostring(element))
        if key not in self._made:
            self._made[key] = self._append(group, element)
        return str(self._made[key])

    def number_format(self, code):
        """The number of a number format; None is the general one."""
        if code is None or code == "General":
            return 0
        key = ("numFmts", code)
        if key not in self._made:
            group = self._group("numFmts")
            # Those below 164 are the programs' own.
            taken = {entry.get("numFmtId") for entry in group.iterchildren(MAIN + "*")}
            number = 164
            while str(number) in taken:
                number += 1
            self._append(
                "numFmts", etree.Element(MAIN + "numFmt", numFmtId=str(number), formatCode=code)
            )
            self._made[key] = number
        return self._made[key]

    def _append(self, group, element):
        """Append to a group; the place of the new element, from 0."""
        parent = self._group(group)
        parent.append(element)
        count = sum(1 for _ in parent.iterchildren(MAIN + "*"))
        parent.set("count", str(count))
        return count - 1

    def _group(self, name, make=True):
        root = self._parts.change(self._sheet)
        found = root.find(MAIN + name)
        if found is None and make:
            later = {MAIN + other for other in _ORDER[_ORDER.index(name) :]}
            place = next((i for i, child in enumerate(root) if child.tag in later), len(root))
            found = etree.Element(MAIN + name)
            root.insert(place, found)
        return found


def _rank(tag):
    name = tag.rpartition("}")[2] if isinstance(tag, str) else ""
    return _FONT_ORDER.index(name) if name in _FONT_ORDER else len(_FONT_ORDER)


def _font(look):
    font = etree.Element(MAIN + "font")
    if look.get("bold"):
        etree.SubElement(font, MAIN + "b")
    etree.SubElement(font, MAIN + "sz", val=str(look.get("size", 10)))
    etree.SubElement(font, MAIN + "color", rgb=_rgb(look.get("color", INK)))
    etree.SubElement(font, MAIN + "name", val=FONT)
    etree.SubElement(font, MAIN + "family", val="2")
    return font


def _fill(look):
    fill = etree.Element(MAIN + "fill")
    pattern = etree.SubElement(fill, MAIN + "patternFill", patternType="solid")
    etree.SubElement(pattern, MAIN + "fgColor", rgb=_rgb(look["fill"]))
    etree.SubElement(pattern, MAIN + "bgColor", indexed="64")
    return fill


def _border(look):
    border = etree.Element(MAIN + "border")
    for side in ("left", "right", "top"):
        etree.SubElement(border, MAIN + side)
    bottom = etree.SubElement(border, MAIN + "bottom", style=look["bottom"])
    etree.SubElement(bottom, MAIN + "color", rgb=_rgb(look["bottom_color"]))
    etree.SubElement(border, MAIN + "diagonal")
    return border


def _rgb(colour):
    return "FF" + colour.lstrip("#").upper()
