"""The looks of another file's cells, appended to the styles of this one."""

import copy

from .markup import MAIN

_THEME = "{http://schemas.openxmlformats.org/drawingml/2006/main}"

_COLOURS = (
    "lt1", "dk1", "lt2", "dk2", "accent1", "accent2", "accent3", "accent4", "accent5", "accent6",
    "hlink", "folHlink",
)  # fmt: skip
"""The colours of a theme in the order in which styles number them."""

_GROUPS = {"fontId": "fonts", "fillId": "fills", "borderId": "borders"}

_OWN_FORMATS = 164
"""Number formats from here on are a file's own; those below are the programs'."""


class ForeignStyles:
    """Styles of another file by their numbers in it, each taken over once.

    root: its style sheet; None if it has none. theme: the root of its theme, or None: colours of a
    theme are taken as they look there. styles: the `Styles` of this file.
    """

    def __init__(self, root, theme, styles):
        self._root = root
        self._styles = styles
        self._colours = _colours_of(theme)
        self._taken = {}

    def number(self, number):
        """The number here of a cell's style there."""
        key = ("cellXfs", int(number))
        if key not in self._taken:
            self._taken[key] = self._look(int(number))
        return self._taken[key]

    def difference(self, number):
        """The number here of a difference (of a conditional format, a table) there."""
        key = ("dxfs", int(number))
        if key not in self._taken:
            element = self._nth("dxfs", number)
            self._taken[key] = "0" if element is None else self._put("dxfs", element)
        return self._taken[key]

    def _look(self, number):
        there = self._nth("cellXfs", number)
        if there is None:
            return "0"
        look = copy.deepcopy(there)
        for key, group in _GROUPS.items():
            element = self._nth(group, look.get(key, "0"))
            look.set(key, "0" if element is None else self._put(group, element))
        code = int(look.get("numFmtId", "0"))
        if code >= _OWN_FORMATS:
            look.set("numFmtId", str(self._styles.number_format(self._code(code))))
        look.set("xfId", "0")
        for applied in ("NumberFormat", "Font", "Fill", "Border"):
            look.set("apply" + applied, "1")
        return self._put("cellXfs", look)

    def _code(self, number):
        for entry in self._root.iterfind(f"{MAIN}numFmts/{MAIN}numFmt"):
            if entry.get("numFmtId") == str(number):
                return entry.get("formatCode")
        return None

    def _nth(self, group, number):
        found = None if self._root is None else self._root.find(MAIN + group)
        inside = [] if found is None else list(found.iterchildren(MAIN + "*"))
        return inside[int(number)] if int(number) < len(inside) else None

    def _put(self, group, element):
        element = copy.deepcopy(element)
        element.tail = None
        for scheme in list(element.iter(MAIN + "scheme")):
            scheme.getparent().remove(scheme)  # the font has a name; that of the theme is another
        for colour in element.iter():
            theme = colour.get("theme")
            if theme is not None and theme.isdigit() and int(theme) in self._colours:
                del colour.attrib["theme"]
                colour.set("rgb", self._colours[int(theme)])
        return self._styles.part(group, element)


def _colours_of(theme):
    """{number: colour} of a theme."""
    found = {}
    scheme = None if theme is None else theme.find(f"{_THEME}themeElements/{_THEME}clrScheme")
    for number, name in enumerate(_COLOURS) if scheme is not None else ():
        for colour in scheme.iterfind(f"{_THEME}{name}/*"):
            value = colour.get("lastClr") or colour.get("val") or ""
            if len(value) == 6:
                found[number] = "FF" + value.upper()
    return found
