"""A workbook in memory: sheets of cells, names, charts; no file format in it.

Rows and columns count from zero.
"""

import re

from ..file.address import cell_name, column_number
from ..file.cell_error import CellError
from ..file.trouble import Trouble
from ..formula.evaluate import Evaluator


class CellTrouble(Trouble):
    """A `Trouble` with the formula of one cell; its text begins with the cell's address."""

    def __init__(self, sheet, row, column, message):
        super().__init__(f"{sheet}!{cell_name(row, column)}: {message}")
        self.sheet = sheet
        self.row = row
        self.column = column


_CELL = re.compile(r"^\$?([A-Z]{1,3})\$?(\d+)$", re.IGNORECASE)


class Cell:
    """One cell: a value or a formula (then `value` is what it computes), and a look.

    look: the name of a style of `make/style.py`. number_format: as Calc and Excel have
    it. rule: for an input, what may be typed: a `Rule`.
    """

    __slots__ = ("array", "formula", "look", "number_format", "rule", "span", "value")

    def __init__(self, value=None, formula=None, look="plain", number_format=None, rule=None):
        self.value = value
        self.formula = formula
        self.look = look
        self.number_format = number_format
        self.rule = rule
        self.span = None
        self.array = None


class Array:
    """One formula that fills a range of cells, from row and column to row and column."""

    def __init__(self, formula, top, left, bottom, right, look, number_format):
        self.formula = formula
        self.place = (top, left, bottom, right)
        self.look = look
        self.number_format = number_format


class Rule:
    """What may be typed into an input: 'decimal' or 'whole' within limits, or a 'list'."""

    def __init__(self, kind, least=None, most=None, choices=(), title="", message=""):
        self.kind = kind
        self.least = least
        self.most = most
        self.choices = tuple(choices)
        self.title = title
        self.message = message


class Chart:
    """Lines over a table: x and each y are ranges (sheet, first row, column, last row).

    ys: (name, range), or (name, range, a range of its own for x). limits: None, or the ends of
    both axes (left, right, low, high) of a drawing that is to scale.
    """

    def __init__(self, title, at, size, x, ys, x_title, y_title, limits=None):
        self.title = title
        self.at = at
        self.size = size
        self.x = x
        self.ys = ys
        self.x_title = x_title
        self.y_title = y_title
        self.limits = limits

    @property
    def rows(self):
        """How many rows it covers."""
        return -(-self.size[1] // 20) + 1


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
    """One sheet; `cells` by (row, column)."""

    def __init__(self, name):
        self.name = name
        self.cells = {}
        self.charts = []
        self.pictures = []
        self.widths = []
        self.heights = {}
        self.verdicts = []
        self.heats = []
        self.landscape = True
        self.repeat = None
        self.colour = None

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


class Book:
    """A workbook: its sheets in order and its names, each for one block of cells."""

    def __init__(self, title):
        self.title = title
        self.sheets = []
        self.names = {}

    def name(self, name, sheet, top, left, bottom, right):
        """Give a block of cells a name; raises `Trouble` if the name is taken."""
        if name.lower() in (known.lower() for known in self.names):
            raise Trouble(f"the name {name} is given twice")
        self.names[name] = (sheet, top, left, bottom, right)

    def sheet(self, name):
        """The sheet of this name."""
        for sheet in self.sheets:
            if sheet.name.lower() == name.lower():
                return sheet
        raise Trouble(f"there is no sheet named {name}")

    def compute(self):
        """Fill in the value of every formula; raises `CellTrouble` for one that has none."""
        _Computing(self).run()


class _Computing:
    def __init__(self, book):
        self.book = book
        self.evaluator = Evaluator(self.rows)
        self.done = set()
        self.under_way = set()

    def run(self):
        for sheet in self.book.sheets:
            for row, column in list(sheet.cells):
                self.cell(sheet, row, column)

    def rows(self, reference, sheet):
        sheet, top, left, bottom, right = self.place(reference, sheet)
        return tuple(
            tuple(self.cell(sheet, r, c) for c in range(left, right + 1))
            for r in range(top, bottom + 1)
        )

    def place(self, reference, sheet):
        for name, (where, *block) in self.book.names.items():
            if name.lower() == reference.lower():
                return (where, *block)
        if "!" in reference:
            name, reference = reference.rsplit("!", 1)
            sheet = self.book.sheet(name.strip("'").replace("''", "'"))
        corners = [_CELL.match(part) for part in reference.split(":")]
        if len(corners) > 2 or not all(corners):
            raise Trouble(f"{reference} is neither a name nor cells")
        at = [(int(m.group(2)) - 1, column_number(m.group(1))) for m in corners]
        return (sheet, *at[0], *at[-1])

    def cell(self, sheet, row, column):
        cell = sheet.cells.get((row, column))
        if cell is None:
            return None
        key = (sheet.name, row, column)
        if cell.array is not None:
            self.array(cell.array, sheet)
        elif cell.formula is not None and key not in self.done:
            self.work(key, cell, sheet)
        return cell.value

    def array(self, array, sheet):
        top, left, bottom, right = array.place
        key = (sheet.name, top, left)
        if key in self.done:
            return
        first = Cell(formula=array.formula)
        table = self.work(key, first, sheet)
        rows = table if isinstance(table, tuple) else ((table,),)
        for row in range(top, bottom + 1):
            for column in range(left, right + 1):
                r, c = row - top, column - left
                inside = r < len(rows) and c < len(rows[r])
                value = rows[r][c] if inside else CellError("#N/A")
                sheet.cells[row, column].value = value

    def work(self, key, cell, sheet):
        if key in self.under_way:
            raise CellTrouble(*key, f"the formula {cell.formula} needs its own result")
        self.under_way.add(key)
        try:
            value = self.evaluator.value(cell.formula, sheet)
        except CellTrouble:
            # A cell that this one needs has said already which one it is.
            raise
        except Trouble as trouble:
            raise CellTrouble(*key, str(trouble)) from None
        cell.value = value[0][0] if isinstance(value, tuple) else value
        self.under_way.discard(key)
        self.done.add(key)
        return value
