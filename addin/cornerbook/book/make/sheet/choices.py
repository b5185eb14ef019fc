"""The words that a yellow cell offers to choose from, and the sheet where long lists stand.

Beside the quantities stand the unit of each and how much of it a chart shows at least, for
what follows the user's choice of one.
"""

from ....cells.adjusted import ADJUSTERS
from ....cells.block import ACTUATION_POINTS, POINTS, ROD_MOUNT, VALUES, key_of
from ....cells.changed import MOVEMENTS
from ....cells.corner import MOUNTS
from ....cells.moved import AXES
from ....cells.quantity import name_of, quantities
from ..texts import units
from .groups import GROUPS, REFERENCE
from .model import TITLE_HEIGHT

SHEET = "Words"
"""The sheet with the lists that are too long to stand in a cell's own rule."""

QUANTITIES = "quantities"
"""The list of what a formula such as AT gives by its name."""

_NAMES = ("QuantityWords", "QuantityUnits", "QuantitySpans")
"""Names of the cells that hold these words, their units, and the spans that a chart keeps to."""

_LONGEST = 250
"""Letters of a list that a cell's rule holds; 255 in the file format."""

_ALL_POINTS = (*POINTS, *ACTUATION_POINTS)


def _sided():
    return tuple(f"{side} {point}" for side in ("left", "right") for point in _ALL_POINTS)


LISTS = {
    QUANTITIES: lambda: tuple(name_of(entry) for entry in quantities().values()),
    "inputs": lambda: (
        *MOVEMENTS, *VALUES, *(f"{point} {axis}" for point in _ALL_POINTS for axis in AXES)
    ),
    "points": _sided,
    "adjusters": lambda: ADJUSTERS,
}  # fmt: skip
"""Words of ours by what a chapter calls them, of which some are chosen."""


def words_of(choices):
    """The words of a list of `LISTS`, or those of a list as it is."""
    return LISTS[choices]() if isinstance(choices, str) else tuple(choices)


def words_of_row(label):
    """The words of a corner's row that holds a word; () for a row of the user's own."""
    return MOUNTS if key_of(label) == key_of(ROD_MOUNT) else ()


def is_long(choices):
    """Whether words are too many for a cell's own rule."""
    return len(",".join(choices)) > _LONGEST


def span_of_chosen(cell):
    """A formula, without "=", for how much a chart shows at least of the quantity named in a cell.

    It gives 0 for a word that is no quantity's.
    """
    words, _, spans = _NAMES
    return f"IFERROR(INDEX({spans},MATCH({cell},{words},0)),0)"


def put_lists(book, new_sheet, system):
    """Put every long list of words that a cell offers on a sheet of its own, once each.

    new_sheet: what makes one of a name. system: the workbook's unit system.
    """
    rules = [cell.rule for sheet in book.sheets for cell in sheet.cells.values() if cell.rule]
    long = dict.fromkeys(rule.choices for rule in rules if is_long(rule.choices))
    if not long or SHEET.lower() in (sheet.name.lower() for sheet in book.sheets):
        return
    sheet = new_sheet(SHEET)
    sheet.about = "The words that yellow cells offer to choose from."
    sheet.group, sheet.colour, sheet.printed = REFERENCE, GROUPS[REFERENCE], False
    sheet.put(0, 0, value="Words", look="title")
    sheet.heights[0] = TITLE_HEIGHT
    column = 0
    for choices in long:
        last = 2 + len(choices)
        long[choices] = (SHEET, 3, column, last)
        of_them, formats = [choices], []
        if choices == words_of(QUANTITIES):
            kinds = [units.kind_of_unit(entry.unit) for entry in quantities().values()]
            of_them.append([units.unit_of(kind, system) for kind in kinds])
            of_them.append([units.least_shown(kind, system) for kind in kinds])
            formats = [units.format_of(kind, system) for kind in kinds]
            for at, name in enumerate(_NAMES, column):
                book.name(name, sheet, 3, at, last, at)
            for at, title in enumerate(("unit", "a chart shows at least"), column + 1):
                sheet.put(2, at, value=title, look="column unit")
        for values in of_them:
            for row, value in enumerate(values, 3):
                shown = formats[row - 3] if isinstance(value, float) else None
                sheet.put(row, column, value=value, look="label", number_format=shown)
            column += 1
    sheet.widths = [26] * max(column, 3)
    sheet.put(1, 0, value=sheet.about, look="below").span = len(sheet.widths) - 1
    for rule in rules:
        rule.listed = long.get(rule.choices, rule.listed)
    book.sheets.append(sheet)
