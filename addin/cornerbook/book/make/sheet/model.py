"""A workbook in memory: sheets of cells, names, charts; no file format in it.

Rows and columns count from zero.
"""

from itertools import accumulate

from ...file.address import cell_name
from ...file.trouble import Trouble

ROW_HEIGHT = 13.5
"""Of a row with no height of its own, in points."""

TITLE_HEIGHT = 30
"""Of the row of a sheet's title, likewise."""

_ROW_PIXELS = 18
"""The same in pixels, of which four are three points."""

_WINDOW = 1480
"""How much of a sheet's width such a window shows, in pixels."""

_GAP = 6
"""The height of a row that holds nothing, in points."""


class CellTrouble(Trouble):
    """A `Trouble` with the formula of one cell; its text begins with the cell's address."""

    def __init__(self, sheet, row, column, message):
        super().__init__(f"{sheet}!{cell_name(row, column)}: {message}")
        self.sheet = sheet
        self.row = row
        self.column = column


class Cell:
    """One cell: a value or a formula (then `value` is what it computes), and a look.

    look: the name of a style of `make/written/style.py`. number_format: as Calc and Excel have
    it. rule: for an input, what may be typed: a `Rule`. link: where a click leads, a `Link`.
    typed: of an input, what it is in a scenario: a `Typed`.
    """

    __slots__ = (
        "array", "formula", "link", "look", "number_format", "rule", "span", "typed", "value",
    )  # fmt: skip

    def __init__(
        self, value=None, formula=None, look="plain", number_format=None, rule=None, link=None
    ):
        self.value = value
        self.formula = formula
        self.look = look
        self.number_format = number_format
        self.rule = rule
        self.link = link
        self.span = None
        self.array = None
        self.typed = None


class Typed:
    """What an input is in a scenario.

    path: of the key that gives it its value. part: which of several values of that key it is: 0 to
    2 of a list, a word of a table, (row, place) from 0 of a list of rows, or None where it is the
    only one. kind: of its quantity. may_be_blank: whether a scenario may leave the key out.
    """

    __slots__ = ("kind", "may_be_blank", "part", "path")

    def __init__(self, path, part, kind):
        self.path = tuple(path)
        self.part = part
        self.kind = kind
        self.may_be_blank = False


class Link:
    """A cell of the same workbook, to which a click leads."""

    def __init__(self, sheet, cell="A1"):
        self.sheet = sheet
        self.cell = cell


class Array:
    """One formula that fills a range of cells, from row and column to row and column."""

    def __init__(self, formula, top, left, bottom, right, look, number_format):
        self.formula = formula
        self.place = (top, left, bottom, right)
        self.look = look
        self.number_format = number_format


class Rule:
    """What may be typed into an input: 'decimal' or 'whole' within limits, or a 'list'.

    listed: (sheet, first row, column, last row) of a list that stands on a sheet; a word that is
    not on it is then asked about, not refused.
    """

    def __init__(self, kind, least=None, most=None, choices=(), title="", message=""):
        self.kind = kind
        self.least = least
        self.most = most
        self.choices = tuple(choices)
        self.listed = None
        self.title = title
        self.message = message


class Chart:
    """Lines over a table: x and each y are ranges (sheet, first row, column, last row).

    ys: (name, range), or (name, range, a range of its own for x). limits: None, or the ends of
    both axes (left, right, low, high) of a drawing that is to scale, whose grid has lines so far
    apart across and up. shown: a pair of ranges, x and
    y, that the axes reach to, though nothing is drawn there. band: such pairs, of what is wanted.
    bars: whether x is words, and each y a bar over them.
    """

    def __init__(
        self, title, at, size, x, ys, x_title, y_title, limits=None, bars=False, grid=None
    ):
        self.title = title
        self.at = at
        self.size = size
        self.x = x
        self.ys = ys
        self.x_title = x_title
        self.y_title = y_title
        self.limits = limits
        self.bars = bars
        self.grid = grid
        self.shown = None
        self.band = []

    @property
    def rows(self):
        """How many rows it covers."""
        return -(-self.size[1] // _ROW_PIXELS) + 1


class Picture:
    """A picture file's bytes at a cell, over some rows, scaled to a width in pixels."""

    def __init__(self, name, content, at, rows, width, alt):
        self.name = name
        self.content = content
        self.at = at
        self.rows = rows
        self.width = width
        self.alt = alt


class Sheet:
    """One sheet; `cells` by (row, column).

    about: what it shows, in a line. group: one of `groups.GROUPS`. maps: whether it has the ways
    to all others. listed: the first and last row of the list of all verdicts, where it is here.
    blocks: the rows at which blocks begin. printed: whether it goes on paper; last_printed: the
    last row that does, None for all. repeat: None, or the first and last row with which each page
    below them begins. frozen: how many rows stay as one scrolls; None for the title alone.
    """

    def __init__(self, name):
        self.name = name
        self.cells = {}
        self.charts = []
        self.pictures = []
        self.widths = []
        self.heights = {}
        self.verdicts = []
        self.heats = []
        self.blocks = []
        self.printed = True
        self.last_printed = None
        self.repeat = None
        self.frozen = None
        self.colour = None
        self.about = ""
        self.group = None
        self.maps = False
        self.listed = None

    def put(self, row, column, *args, **kwargs):
        """Put a cell; see `Cell` for what it takes."""
        cell = self.cells[row, column] = Cell(*args, **kwargs)
        return cell

    def put_array(self, array):
        """Put the cells of an `Array`; the value of each is worked out with all others."""
        top, left, bottom, right = array.place
        for row in range(top, bottom + 1):
            for column in range(left, right + 1):
                cell = self.put(row, column, look=array.look, number_format=array.number_format)
                cell.array = array

    def last_row(self):
        """The last row that a cell, chart or picture reaches."""
        rows = [row for row, _ in self.cells]
        for drawn in self.charts + self.pictures:
            rows.append(drawn.at[0] + drawn.rows)
        return max(rows, default=0)

    def in_window(self):
        """The last column that a window of 1,600 pixels shows, beside what the program needs."""
        ends = accumulate(int(width * 7 + 0.5) + 5 for width in self.widths)
        within = [column for column, end in enumerate(ends) if end <= _WINDOW]
        return max(within, default=0)

    def close_gaps(self):
        """Make the rows low that hold nothing but stand between others."""
        held = {row for row, _ in self.cells}
        for drawn in self.charts + self.pictures:
            held.update(range(drawn.at[0], drawn.at[0] + drawn.rows))
        for row in range(self.last_row()):
            if row not in held:
                self.heights.setdefault(row, _GAP)

    def tops(self):
        """Where each row begins, in points from the first one's top; and where the last ends."""
        heights = (self.heights.get(row, ROW_HEIGHT) for row in range(self.last_row() + 1))
        return list(accumulate(heights, initial=0.0))


class Book:
    """A workbook: its sheets in order and its names, each for one block of cells.

    judged: every `judged.Judged` result. promised: every name that its template says it gives.
    asked: the keys of its scenario that its chapters ask for.
    """

    def __init__(self, title):
        self.title = title
        self.sheets = []
        self.names = {}
        self._taken = set()
        self.judged = []
        self.promised = set()
        self.asked = frozenset()

    def name(self, name, sheet, top, left, bottom, right):
        """Give a block of cells a name; raises `Trouble` if the name is taken."""
        if name.lower() in self._taken:
            raise Trouble(f"the name {name} is given twice")
        self._taken.add(name.lower())
        self.names[name] = (sheet, top, left, bottom, right)

    def sheet(self, name):
        """The sheet of this name."""
        for sheet in self.sheets:
            if sheet.name.lower() == name.lower():
                return sheet
        raise Trouble(f"there is no sheet named {name}")
