"""A template: which sheets, and which blocks stand on each, as text that anyone can edit.

`BLOCKS` says what each kind of block may hold. A template is checked whole before
anything is built from it.
"""

from . import units
from .text_files import TextFile, kind_name, nearest

TEXT, NUMBER, TRUTH, LIST = "a text", "a number", "true or false", "a list in square brackets"

_ANY_BLOCK = {"kind": TEXT, "heading": TEXT, "note": TEXT}

BLOCKS = {
    "title": {"text": TEXT, "below": TEXT},
    "text": {"lines": LIST, "look": TEXT},
    "picture": {"file": TEXT, "width": NUMBER, "rows": NUMBER, "alt": TEXT},
    "inputs": {"rows": LIST},
    "corner": {"name": TEXT, "from": TEXT},
    "points": {"name": TEXT, "from": TEXT},
    "results": {"columns": LIST, "rows": LIST},
    "table": {
        "name": TEXT, "corner": TEXT, "over": TEXT, "start": TEXT, "end": TEXT,
        "held": TEXT, "wheelbase": TEXT, "points": NUMBER, "quantities": LIST,
        "like": TEXT, "every": NUMBER,
    },
    "series": {
        "name": TEXT, "over": TEXT, "kind_over": TEXT, "start": TEXT, "end": TEXT,
        "points": NUMBER, "columns": LIST, "like": TEXT, "every": NUMBER,
    },
    "chart": {
        "table": TEXT, "title": TEXT, "quantities": LIST, "width": NUMBER, "height": NUMBER,
        "beside": TRUTH, "x": TEXT,
    },
    "variants": {
        "corner": TEXT, "from": TEXT, "count": NUMBER, "inputs": LIST, "rows": LIST,
    },
    "grid": {
        "name": TEXT, "formula": TEXT, "rows": NUMBER, "columns": NUMBER, "unit": TEXT,
        "heat": TRUTH,
    },
    "heat": {"corner": TEXT, "quantities": LIST, "rack": TEXT, "wheelbase": TEXT},
    "adjusters": {
        "corner": TEXT, "from": TEXT, "quantities": LIST, "rack": TEXT, "wheelbase": TEXT,
    },
    "outline": {"name": TEXT, "corner": TEXT, "points": LIST, "pose": TEXT},
    "drawing": {
        "title": TEXT, "tables": LIST, "across": TEXT, "up": TEXT, "range_across": LIST,
        "range_up": LIST, "width": NUMBER,
    },
    "self check": {},
    "formula list": {},
}  # fmt: skip

_REQUIRED = {
    "title": ("text",),
    "text": ("lines",),
    "picture": ("file", "width", "rows", "alt"),
    "inputs": ("rows",),
    "corner": ("name", "from"),
    "points": ("name", "from"),
    "results": ("columns", "rows"),
    "table": ("name", "corner", "over", "quantities"),
    "series": ("name", "over", "kind_over", "columns"),
    "chart": ("table", "title", "quantities"),
    "variants": ("corner", "from", "count", "rows"),
    "grid": ("formula", "rows", "columns", "unit"),
    "heat": ("corner", "quantities"),
    "adjusters": ("corner", "from", "quantities"),
    "outline": ("name", "corner", "points", "pose"),
    "drawing": ("title", "tables", "across", "up", "range_across", "range_up"),
}

_ROWS = {
    "inputs": {
        "label": TEXT, "name": TEXT, "from": TEXT, "kind": TEXT, "note": TEXT,
        "least": NUMBER, "most": NUMBER, "value": None,
    },
    "results": {
        "label": TEXT, "formula": TEXT, "formulas": LIST, "kind": TEXT, "band": TEXT,
        "note": TEXT, "name": TEXT, "names": LIST,
    },
}  # fmt: skip

_COLUMN = {"title": TEXT, "kind": TEXT, "formula": TEXT}

_ROWS_REQUIRED = {"inputs": ("label", "kind"), "results": ("label", "kind")}

_SHEET = {
    "name": TEXT, "widths": LIST, "block": LIST, "landscape": TRUTH, "colour": TEXT,
}  # fmt: skip
_TOP = {"title": TEXT, "sheet": LIST, "about": TEXT}


class Template:
    """A checked template. `sheets`: its sheets in order, as tables of plain values."""

    def __init__(self, path):
        self.file = TextFile(path)
        content = self.file.content
        self._keys(content, _TOP, ("title", "sheet"), "the template")
        self.title = content["title"]
        self.sheets = content["sheet"]
        for number, sheet in enumerate(self.sheets):
            if not isinstance(sheet, dict):
                raise self.file.trouble("a sheet begins with [[sheet]]", "sheet")
            self._keys(sheet, _SHEET, ("name", "block"), "a sheet", number)
            for place, block in enumerate(sheet["block"]):
                self._block(block, number, place)

    def trouble(self, message, word, sheet, block):
        """A `Trouble` about a word in a block; numbers count from zero."""
        return self.file.trouble(message, word, sheet, block)

    def _block(self, block, sheet, place):
        if not isinstance(block, dict):
            raise self.file.trouble("a block begins with [[sheet.block]]", "block", sheet)
        kind = block.get("kind")
        if kind not in BLOCKS:
            said = "a block has no kind" if kind is None else f'the kind "{kind}" is not known'
            raise self.file.trouble(f"{said}; {nearest(str(kind), BLOCKS)}", "kind", sheet, place)
        known = {**_ANY_BLOCK, **BLOCKS[kind]}
        self._keys(block, known, _REQUIRED.get(kind, ()), f'a block of kind "{kind}"',
                   sheet, place)  # fmt: skip
        if kind in _ROWS:
            for row in block["rows"]:
                if not isinstance(row, dict):
                    raise self.file.trouble(
                        "a row is %s; { label = ..., ... } was expected" % kind_name(row),
                        "rows", sheet, place,
                    )  # fmt: skip
                self._row(row, kind, sheet, place)

        if kind in ("table", "series"):
            self._running(block, sheet, place)
        if kind == "series":
            for column in block["columns"]:
                self._column(column, sheet, place)

    def _running(self, block, sheet, place):
        """What runs is given by its ends and a number of points, or as in another table."""
        ends = {"start", "end", "points"}
        if ("like" in block) == bool(ends & set(block)) or not (
            "like" in block or ends <= set(block)
        ):
            raise self.file.trouble(
                "what runs needs start, end and points, or like alone", "over", sheet, place
            )

    def _column(self, column, sheet, place):
        if not isinstance(column, dict):
            raise self.file.trouble(
                "a column is %s; { title = ..., kind = ..., formula = ... } was expected"
                % kind_name(column),
                "columns", sheet, place,
            )  # fmt: skip
        name = f'the column "{column.get("title", "?")}"'
        self._keys(column, _COLUMN, tuple(_COLUMN), name, sheet, place)
        self._kind(name, column["kind"], sheet, place)

    def _row(self, row, kind, sheet, place):
        name = f'the row "{row.get("label", "?")}"'
        self._keys(row, _ROWS[kind], _ROWS_REQUIRED[kind], name, sheet, place)
        self._kind(name, row["kind"], sheet, place)
        given = [key for key in ("from", "value", "formula", "formulas") if key in row]
        if len(given) != 1:
            wanted = "from or value" if kind == "inputs" else "formula or formulas"
            raise self.file.trouble(f"{name} needs one of: {wanted}", row["label"], sheet, place)

    def _kind(self, name, kind, sheet, place):
        if kind not in units.KINDS:
            raise self.file.trouble(
                f'in {name} the kind "{kind}" is not known; {nearest(kind, units.KINDS)}',
                kind, sheet, place,
            )  # fmt: skip

    def _keys(self, table, known, required, what, sheet=None, block=None):
        for key, value in table.items():
            if key not in known:
                raise self.file.trouble(
                    f'the key "{key}" is not known in {what}; {nearest(key, known)}',
                    key, sheet, block,
                )  # fmt: skip
            wanted = known[key]
            if wanted is not None and kind_name(value) != wanted:
                raise self.file.trouble(
                    f'in {what} the key "{key}" is {kind_name(value)}; {wanted} was expected',
                    key, sheet, block,
                )  # fmt: skip
        for key in required:
            if key not in table:
                raise self.file.trouble(f'the key "{key}" is missing in {what}', None, sheet, block)
