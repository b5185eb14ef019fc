"""What ECMA-376 asks of workbook, styles and sheets beyond what a schema can say.

Source: ECMA-376 Part 1, chapter 18 (SpreadsheetML), from memory of the standard, and
Microsoft's page "Excel specifications and limits" for the lengths. These are the rules whose
breach makes Excel offer to repair a file: places out of range, things twice, things in
disorder. The wording is ours.
"""

import functools
import re
from collections import Counter
from itertools import accumulate

from openpyxl.utils import FORMULAE
from openpyxl.utils.cell import column_index_from_string, range_boundaries

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
REL = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"

ROWS, COLUMNS = 1048576, 16384
LONGEST_FORMULA = 8192
DEEPEST = 64
LONGEST_TEXT = 32767
LONGEST_LIST = 255
"""Of a choice typed into a data validation, in characters."""
WIDEST, HIGHEST = 255.0, 409.5
FIRST_OWN_FORMAT = 164
"""Number formats below are built in."""

_CELL = re.compile(r"\$?([A-Z]{1,3})\$?([1-9][0-9]{0,6})$")
_NAME = re.compile(r"(?:_xlnm\.)?[^\W\d][\w.\\]*$")
_COLOUR = re.compile(r"[0-9A-Fa-f]{8}$")
_OURS = re.compile(r"(?:_xldudf_CORNER_|CORNER[._])[A-Z0-9_]+$", re.IGNORECASE)


def mistakes(package):
    """Sentences on what the standard does not allow in the workbook's parts."""
    styles = package.xml("xl/styles.xml")
    found = _workbook(package) + _styles(styles)
    strings = _children(package, "xl/sharedStrings.xml", "si")
    for name, part in sheets(package).items():
        found += _Sheet(name, package.xml(part), styles, strings).mistakes()
    return found


def sheets(package):
    """{sheet name: part}, in the workbook's order."""
    known = package.relationships("xl/workbook.xml")
    listed = package.xml("xl/workbook.xml").find(MAIN + "sheets")
    return {one.get("name"): known[one.get(REL + "id")][1] for one in listed}


def _children(package, part, tag):
    return package.xml(part).findall(MAIN + tag) if part in package.bytes else []


def _workbook(package):
    root, found = package.xml("xl/workbook.xml"), []
    listed = root.findall(f"{MAIN}sheets/{MAIN}sheet")
    for key in ("name", "sheetId"):
        found += _twice("workbook: sheet " + key, [one.get(key).lower() for one in listed])
    for one in listed:
        name = one.get("name")
        if not 1 <= len(name) <= 31 or set(name) & set("[]:*?/\\") or name.strip("'") != name:
            found.append(f"workbook: {name!r} is no name for a sheet")
    names = root.findall(f"{MAIN}definedNames/{MAIN}definedName")
    found += _twice(
        "workbook: name", [(n.get("name").lower(), n.get("localSheetId", "")) for n in names]
    )
    for one in names:
        name, text = one.get("name"), one.text or ""
        if not _NAME.match(name) or _CELL.match(name.upper()) or name.upper() in ("R", "C"):
            found.append(f"workbook: {name!r} is no defined name")
        if int(one.get("localSheetId", "0")) >= len(listed):
            found.append(f"workbook: {name} belongs to a sheet that is not there")
        found += _formula(f"workbook: {name}", text)
    for view in root.iter(MAIN + "workbookView"):
        if int(view.get("activeTab", "0")) >= len(listed):
            found.append("workbook: the active tab is not there")
    return found


def _twice(about, given):
    times = Counter(given)
    return [f"{about} {one} is given twice" for one in sorted(times) if times[one] > 1]


def _styles(styles):
    found = []
    for group in styles:
        count = group.get("count")
        if count is not None and int(count) != len(group):
            found.append(f"styles: {_local(group)} says {count} and holds {len(group)}")
    own = [int(one.get("numFmtId")) for one in styles.iter(MAIN + "numFmt")]
    found += _twice("styles: number format", own)
    sizes = {
        "fontId": _size(styles, "fonts"),
        "fillId": _size(styles, "fills"),
        "borderId": _size(styles, "borders"),
    }
    for group in ("cellStyleXfs", "cellXfs"):
        for number, xf in enumerate(styles.findall(f"{MAIN}{group}/{MAIN}xf")):
            here = f"styles: {group} {number}"
            limits = dict(sizes)
            if group == "cellXfs":
                limits["xfId"] = _size(styles, "cellStyleXfs")
            for key, limit in limits.items():
                if int(xf.get(key, "0")) >= limit:
                    found.append(f"{here}: {key} {xf.get(key)} is not there")
            form = int(xf.get("numFmtId", "0"))
            if form >= FIRST_OWN_FORMAT and form not in own:
                found.append(f"{here}: number format {form} is not there")
    for element in styles.iter():
        colour = element.get("rgb")
        if colour is not None and not _COLOUR.match(colour):
            found.append(f"styles: {colour} is no colour")
    return found


def _size(styles, group):
    found = styles.find(MAIN + group)
    return 0 if found is None else len(found)


class _Sheet:
    """One sheet under examination."""

    def __init__(self, name, root, styles, strings):
        self.name = name
        self.root = root
        self.formats = _size(styles, "cellXfs")
        self.looks = _size(styles, "dxfs")
        self.strings = len(strings)
        self.found = []

    def say(self, sentence):
        self.found.append(f"{self.name}: {sentence}")

    def mistakes(self):
        self.columns()
        self.rows()
        self.ranges()
        self.rules()
        return self.found

    def columns(self):
        last = 0
        for col in self.root.iter(MAIN + "col"):
            low, high = int(col.get("min")), int(col.get("max"))
            if not last < low <= high <= COLUMNS:
                self.say(f"columns {low} to {high} are out of order")
            last = high
            if float(col.get("width", "0")) > WIDEST:
                self.say(f"column {low} is too wide")
            self.format_of(col.get("style"), f"column {low}")

    def rows(self):
        last = 0
        for row in self.root.iter(MAIN + "row"):
            number = int(row.get("r"))
            if not last < number <= ROWS:
                self.say(f"row {number} is out of order")
            last = number
            if float(row.get("ht", "0")) > HIGHEST:
                self.say(f"row {number} is too high")
            self.format_of(row.get("s"), f"row {number}")
            before = 0
            for cell in row:
                before = self.cell(cell, number, before)

    def cell(self, cell, row, before):
        """Examine a cell; gives its column. before: the column of the cell at its left."""
        address = cell.get("r", "")
        place = _CELL.match(address)
        if not place:
            self.say(f"{address!r} is no cell")
            return before
        column = column_index_from_string(place[1])
        if int(place[2]) != row or not before < column <= COLUMNS:
            self.say(f"{address} is out of order")
        self.format_of(cell.get("s"), address)
        kind, value, formula = cell.get("t", "n"), cell.find(MAIN + "v"), cell.find(MAIN + "f")
        text = "" if value is None else value.text or ""
        if kind == "s" and not (text.isdigit() and int(text) < self.strings):
            self.say(f"{address}: text number {text} is not there")
        if kind == "n" and text and not _is_number(text):
            self.say(f"{address}: {text!r} is no number")
        if kind == "b" and text not in ("0", "1"):
            self.say(f"{address}: {text!r} is neither true nor false")
        if kind == "e" and not text.startswith("#"):
            self.say(f"{address}: {text!r} is no error")
        for one in cell.iter(MAIN + "t"):
            text = one.text or ""
        if len(text) > LONGEST_TEXT:
            self.say(f"{address}: a text too long for a cell")
        if formula is not None:
            self.found += _formula(f"{self.name}: {address}", formula.text or "")
            if formula.get("t") == "array" and not _inside(address, formula.get("ref")):
                self.say(f"{address}: its array does not begin there")
        return column

    def format_of(self, number, where):
        if number is not None and int(number) >= self.formats:
            self.say(f"{where}: format {number} is not there")

    def ranges(self):
        merged = [one.get("ref") for one in self.root.iter(MAIN + "mergeCell")]
        arrays = [
            f.get("ref")
            for f in self.root.iter(MAIN + "f")
            if f.get("t") == "array" and f.get("ref")
        ]
        for what, given in (("merged cells", merged), ("arrays", arrays)):
            for i, one in enumerate(given):
                for other in given[:i]:
                    if _overlap(one, other):
                        self.say(f"{what} {one} and {other} overlap")
        for group in ("mergeCells", "dataValidations"):
            element = self.root.find(MAIN + group)
            if element is not None and int(element.get("count", len(element))) != len(element):
                self.say(f"{group} says {element.get('count')} and holds {len(element)}")
        given = [e.get("ref") for e in self.root if e.get("ref")] + merged
        # Not among the cells, which are most of a sheet: none of them may have such an attribute.
        beside = [part for part in self.root if part.tag != MAIN + "sheetData"]
        given += [r for part in beside for e in part.iter() for r in e.get("sqref", "").split()]
        for one in given:
            if not _is_range(one):
                self.say(f"{one!r} is no range")

    def rules(self):
        order = [one.get("priority") for one in self.root.iter(MAIN + "cfRule")]
        self.found += _twice(f"{self.name}: priority", order)
        for rule in self.root.iter(MAIN + "cfRule"):
            if int(rule.get("dxfId", "0")) >= max(self.looks, 1):
                self.say(f"a conditional format asks for look {rule.get('dxfId')}, not there")
            for formula in rule.iter(MAIN + "formula"):
                self.found += _formula(f"{self.name}: conditional format", formula.text or "")
        for one in self.root.iter(MAIN + "dataValidation"):
            for part in one:
                text = part.text or ""
                if text.startswith('"') and len(text) - 2 > LONGEST_LIST:
                    self.say(f"the choice at {one.get('sqref')} is too long")
            for key, most in (
                ("promptTitle", 32),
                ("errorTitle", 32),
                ("prompt", 255),
                ("error", 255),
            ):
                if len(one.get(key, "")) > most:
                    self.say(f"the {key} at {one.get('sqref')} is too long")


def _formula(about, text):
    return [f"{about}: {one}" for one in _in_formula(text)]


_QUOTED = re.compile(r"\"[^\"]*\"|'[^']*'")
"""Texts, and names of sheets; one with a mark doubled in it is two of them."""

_BRACKET = re.compile(r"[()]")
_CALL = re.compile(r"([A-Za-z_][\w.]*)\(")


@functools.cache
def _in_formula(text):
    found = []
    if text.startswith("="):
        found.append("a stored formula has no leading =")
    if len(text) > LONGEST_FORMULA:
        found.append("a formula too long")
    bare = _QUOTED.sub("", text)
    if '"' in bare or "'" in bare:
        found.append("a quote that does not close")
    depths = list(accumulate(1 if one == "(" else -1 for one in _BRACKET.findall(bare)))
    if max(depths, default=0) > DEEPEST:
        found.append("nested too deep")
    if depths and depths[-1]:
        found.append("brackets that do not close")
    for name in set(_CALL.findall(bare)):
        known = name.upper() in FORMULAE or name.startswith("_xlfn.")
        if not known and not _OURS.match(name):
            found.append(f"{name} is not in the standard and lacks its prefix")
    return found


def _is_number(text):
    try:
        return abs(float(text)) < 1e308 and "_" not in text
    except ValueError:
        return False


def _is_range(text):
    return all(_CELL.match(end) for end in text.split(":")) and text.count(":") <= 1


def _inside(address, ref):
    return bool(ref) and ref.split(":")[0].replace("$", "") == address


def _overlap(one, other):
    a, b = range_boundaries(one), range_boundaries(other)
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def _local(element):
    return element.tag.rsplit("}", 1)[-1]
