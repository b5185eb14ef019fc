"""The cells of a workbook for many cars at once, some of its cells being spread.

What is the same for all cars is worked out as for one (`formula/values.py`). Of the
rest, formulas of ours run on arrays, and so do operators and the few functions below. A car
whose cell would show a sentence, a text or an error has NaN, and what is worked out from that
has NaN too: a comparison with a text, or a value in place of an error, is not made up.
"""

import math

import numpy as np

from ....catalogue import FORMULAS, call
from ....cells.inputs import value_of
from ....cells.mend import Mend
from ...file.address import cell_name
from ...file.cell_error import CellError
from ...file.trouble import Trouble
from ...formula.evaluate import FUNCTIONS, Evaluator, number_of
from ...formula.parse import parse
from ...formula.rewrite import Call, has_call, put_together, taken_apart
from .numbers import Cars, Many, ManyCorner, NotForMany


def own_spelling(formula):
    """A formula with calls of ours as CORNER.NAME, however the program spells them."""
    if not has_call(formula):
        return formula

    def spelled(one):
        arguments = ["" if a is None else put_together(a, spelled) for a in one.arguments]
        return f"CORNER.{one.name}({','.join(arguments)})"

    parts = taken_apart(formula)
    if not any(isinstance(part, Call) for part in parts):
        return formula
    return "=" + put_together(parts, spelled)


class ManyCells:
    """Cells for many cars.

    package: the `Package`. values: its `Values` for the car as drawn.
    """

    def __init__(self, package, values):
        self.package = package
        self.values = values
        self.spread = frozenset()
        self._trees = {}
        self._needs = {}
        self._places = {}

    def tree(self, sheet, address):
        """The parsed formula of a cell, None for one that has none that can be read."""
        key = (sheet, address)
        if key not in self._trees:
            content = self.values.cells[sheet].get(address)
            tree = None
            if content is not None and content.formula is not None:
                try:
                    tree = parse(own_spelling(content.formula))
                except Trouble:
                    tree = None
            self._trees[key] = tree
        return self._trees[key]

    def place(self, reference, sheet, address):
        """(sheet, top, left, bottom, right) of a reference, None for what is no range."""
        key = (reference, sheet, address if "!" not in reference else None)
        if key not in self._places:
            try:
                self._places[key] = self.package.resolve(reference, sheet, address)
            except Trouble:
                self._places[key] = None
        return self._places[key]

    def blocks_behind(self, cells):
        """Ranges that formulas take as blocks on the way to these cells, in order, once each."""
        found, seen, waiting = {}, set(), list(reversed(cells))
        while waiting:
            cell = waiting.pop()
            if cell in seen:
                continue
            seen.add(cell)
            for reference, is_block in _references(self.tree(*cell)):
                place = self.place(reference, *cell)
                if place is None:
                    continue
                if is_block:
                    found[place] = None
                else:
                    waiting.extend(_cells_of(place))
        return list(found)

    def spread_cells(self, cells):
        """Say which cells, as (sheet, address), differ from car to car."""
        self.spread = frozenset(cells)
        self._needs = dict.fromkeys(cells, True)

    def differs(self, sheet, address):
        """Whether a cell is spread, or worked out from one that is."""
        key = (sheet, address)
        if key not in self._needs:
            self._needs[key] = False  # also while it is looked for: a circle adds nothing
            for reference, _ in _references(self.tree(sheet, address)):
                place = self.place(reference, sheet, address)
                if place is not None and any(self.differs(*cell) for cell in _cells_of(place)):
                    self._needs[key] = True
                    break
        return self._needs[key]

    def evaluate(self, wanted, amounts, count):
        """The values of cells for some cars: for each cell an array of shape (count,).

        wanted: [(sheet, address)]. amounts: {spread cell: what is added to it, an array of
        shape (count,)}. NaN stands for what is no number. Raises `NotForMany` for a cell that
        cannot be had this way.
        """
        with np.errstate(all="ignore"):
            work = _Work(self, amounts, Cars(count))
            return [_as_array(work.at(*cell), count) for cell in wanted]


def _as_array(value, count):
    if isinstance(value, tuple):
        value = value[0][0]
    if isinstance(value, Many):
        return value.array
    is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    return np.full(count, float(value) if is_number else math.nan)


def _references(tree):
    """(text, whether it is given as a block) of every reference in a tree."""
    if tree is None:
        return
    kind = tree[0]
    if kind == "reference":
        yield tree[1], False
    elif kind == "call":
        entry = FORMULAS.get(tree[1][len("CORNER.") :]) if tree[1].startswith("CORNER.") else None
        for number, argument in enumerate(tree[2]):
            described = entry.arguments[number : number + 1] if entry else ()
            is_block = bool(described) and described[0].kind == "block"
            for text, _ in _references(argument):
                yield text, is_block
    elif kind in ("infix", "prefix", "postfix"):
        for part in tree[2:]:
            yield from _references(part)


def _cells_of(place):
    sheet, top, left, bottom, right = place
    for row in range(top, bottom + 1):
        for column in range(left, right + 1):
            yield sheet, cell_name(row, column)


class _Work(Evaluator):
    """The cells of one set of cars."""

    def __init__(self, cells, amounts, cars):
        super().__init__(self._rows)
        self.cells = cells
        self.amounts = amounts
        self.cars = cars
        self.known = {}
        self.ranges = {}
        self.corners = {}
        self.at_work = []

    def at(self, sheet, address):
        """A cell's value: a `Many`, or what it is for every car."""
        key = (sheet, address)
        if key in self.known:
            return self.known[key]
        if key in self.cells.spread:
            drawn = self.cells.values.at(sheet, address)
            value = Many(drawn + self.amounts[key], self.cars)
        elif not self.cells.differs(sheet, address):
            value = self.cells.values.at(sheet, address)
        elif key in self.at_work:
            raise NotForMany(f"{address} needs its own result")
        else:
            self.at_work.append(key)
            try:
                value = self._of(self.cells.tree(sheet, address), sheet)
            except CellError as error:
                value = error
            except Trouble as trouble:
                raise NotForMany(str(trouble)) from None
            finally:
                self.at_work.pop()
        self.known[key] = value
        return value

    def _place(self, reference, sheet):
        address = self.at_work[-1][1] if self.at_work else None
        place = self.cells.place(reference, sheet, address)
        if place is None:
            raise NotForMany(f"{reference} is no plain range of cells")
        return place

    def _rows(self, reference, sheet):
        place = self._place(reference, sheet)
        if place not in self.ranges:
            where, top, left, bottom, right = place
            self.ranges[place] = tuple(
                tuple(_single(self.at(where, cell_name(r, c))) for c in range(left, right + 1))
                for r in range(top, bottom + 1)
            )
        return self.ranges[place]

    # Operators

    def _of(self, tree, sheet):
        kind = tree[0]
        if kind == "infix":
            left, right = self._single(tree[2], sheet), self._single(tree[3], sheet)
            if isinstance(left, Many) or isinstance(right, Many):
                return self._infix(tree[1], left, right)
            return super()._of(("infix", tree[1], ("number", left), ("number", right)), sheet)
        if kind in ("prefix", "postfix"):
            value = self._single(tree[2], sheet)
            if not isinstance(value, Many):
                return super()._of((kind, tree[1], ("number", value)), sheet)
            if kind == "postfix":
                return value / 100.0
            return -value if tree[1] == "-" else value
        return super()._of(tree, sheet)

    def _infix(self, operator, left, right):
        if operator == "&":
            raise NotForMany("a text that differs from car to car")
        if operator in _COMPARED:
            return self._compared(operator, left, right)
        return self._finite(_ARITHMETIC[operator](_number(left), _number(right)))

    def _compared(self, operator, left, right):
        # In a spreadsheet any text comes after any number, and a logical after both.
        one, other = (
            value.array if isinstance(value, Many) else _order(value) for value in (left, right)
        )
        truth = _COMPARED[operator](one, other)
        known = ~(np.isnan(one) | np.isnan(other))
        return self.cars.number(np.where(known, truth, np.nan))

    def _finite(self, array):
        return self.cars.number(np.where(np.isfinite(array), array, np.nan))

    # Functions

    def _call(self, name, arguments, sheet):
        if name.startswith("CORNER."):
            return self._ours(name[len("CORNER.") :], arguments, sheet)
        if name == "IF":
            return self._if(arguments, sheet)
        if name == "INDEX" and len(arguments) == 2 and arguments[0][0] == "reference":
            row = self._single(arguments[1], sheet)
            if not isinstance(row, Many):
                return self._indexed(arguments[0][1], row, sheet)
        if name == "ROWS":
            # How many rows a range has is the same for every car.
            return FUNCTIONS[name](self._of(arguments[0], sheet))
        if name == "IFERROR":
            value = self._caught(arguments[0], sheet)
            if isinstance(value, Many):
                raise NotForMany("IFERROR, of what differs from car to car")
            if isinstance(value, CellError):
                return self._of(arguments[1], sheet)
            return value
        if name not in FUNCTIONS:
            raise NotForMany(f"the function {name}")
        if name.startswith("IS"):
            values = [self._caught(arguments[0], sheet)]
        else:
            values = [self._of(a, sheet) if a is not None else None for a in arguments]
        if not any(isinstance(value, Many) for value in _flat(values)):
            return FUNCTIONS[name](*values)
        if name not in _FOR_MANY:
            raise NotForMany(f"the function {name}")
        found = _FOR_MANY[name](*values)
        return self._finite(np.broadcast_to(found, (self.cars.count,)))

    def _if(self, arguments, sheet):
        condition = self._single(arguments[0], sheet)
        if not isinstance(condition, Many):
            return super()._call("IF", [("number", condition), *arguments[1:]], sheet)
        choices = []
        for tree in (*arguments[1:3], None)[:2]:
            try:
                value = False if tree is None else self._single(tree, sheet)
            except CellError:
                value = math.nan
            choices.append(value)
        if all(isinstance(value, str) for value in choices):
            raise NotForMany("a text that differs from car to car")
        one, other = (np.nan if isinstance(value, str) else _number(value) for value in choices)
        truth = condition.array
        found = np.where(np.isnan(truth), np.nan, np.where(truth != 0.0, one, other))
        if (found == found[0]).all():
            return float(found[0])  # the same for all: poses at it are then solved once
        return self.cars.number(found)

    def _indexed(self, reference, row, sheet):
        """One cell of a column, without working out the others."""
        where, top, left, bottom, _ = self._place(reference, sheet)
        place = int(_number(row))
        if not 1 <= place <= bottom - top + 1:
            raise CellError("#REF!")
        value = _single(self.at(where, cell_name(top + place - 1, left)))
        if isinstance(value, CellError):
            raise value
        return value

    # Formulas of ours

    def _ours(self, name, arguments, sheet):
        if name not in FORMULAS:
            raise NotForMany(f"CORNER.{name}, which is no formula")
        raw = [self._of(a, sheet) if a is not None else None for a in arguments]
        if not any(isinstance(value, Many) for value in _flat(raw)):
            return super()._ours(name, [("number", value) for value in raw], sheet)
        entry = FORMULAS[name]
        if len(raw) > len(entry.arguments):
            return call(name, *([None] * len(raw)))
        with self.cars.apart() as marks:
            try:
                result = self._run(entry, raw)
            except Mend as mend:
                return mend.sentence
            except (ZeroDivisionError, OverflowError):
                return "# no real number"
            except (TypeError, ValueError, AttributeError, LookupError):
                # A formula that works on floats alone; what it does is its own affair.
                raise NotForMany(f"CORNER.{name}, which takes one car at a time") from None
        if result is None:
            raise CellError("#N/A")
        failed = marks[0] if marks else None
        if isinstance(result, tuple):
            return tuple(tuple(self._shown(part, failed) for part in row) for row in result)
        return self._shown(result, failed)

    def _run(self, entry, raw):
        values = []
        for number, argument in enumerate(entry.arguments):
            value = raw[number] if number < len(raw) else None
            if argument.kind == "block" and isinstance(value, tuple):
                values.append(self._corner(argument, value))
            elif isinstance(value, Many) or any(isinstance(v, Many) for v in _flat([value])):
                values.append(self._limited(argument, _single(value)))
            else:
                values.append(value_of(argument, value))
        return entry.function(*values)

    def _corner(self, argument, rows):
        if not any(isinstance(cell, Many) for cell in _flat([rows])):
            return value_of(argument, rows)
        # The rows are kept beside the corner, so that no others get their identity.
        if id(rows) not in self.corners:
            self.corners[id(rows)] = (rows, ManyCorner(rows, self.cars))
        return self.corners[id(rows)][1]

    def _limited(self, argument, value):
        if argument.kind != "number" or not isinstance(value, Many):
            raise NotForMany(f"{argument.name} that differs from car to car")
        within = np.isfinite(value.array)
        if argument.above is not None:
            within &= value.array > argument.above
        if argument.below is not None:
            within &= value.array < argument.below
        self.cars.number(within).hold("", ())
        return value

    def _shown(self, value, failed):
        if value is None:
            return CellError("#N/A")
        if isinstance(value, str):
            if failed is not None:
                raise NotForMany("a text that differs from car to car")
            return value
        array = value.array if isinstance(value, Many) else np.full(self.cars.count, value)
        found = np.isfinite(array) if failed is None else np.isfinite(array) & ~failed
        return self.cars.number(array if found.all() else np.where(found, array, np.nan))


def _single(value):
    return value[0][0] if isinstance(value, tuple) and value and value[0] else value


def _flat(values):
    for value in values:
        if isinstance(value, tuple):
            yield from _flat(value)
        else:
            yield value


def _number(value):
    return value.array if isinstance(value, Many) else number_of(value)


def _order(value):
    if isinstance(value, CellError):
        raise value
    if isinstance(value, bool) or isinstance(value, str):
        return math.inf
    return _number(value)


def _numbers(values):
    """Those of the values that are numbers, an error stopping all."""
    found = []
    for value in _flat(values):
        if isinstance(value, CellError):
            raise value
        if isinstance(value, (Many, int, float)) and not isinstance(value, bool):
            found.append(_number(value))
    return found


def _numbers_only(values):
    """Those of the values that are numbers, texts and errors passed over."""
    kept = [value for value in _flat(values) if not isinstance(value, CellError)]
    return _numbers(kept)


def _folded(work):
    def folded(*values):
        numbers = _numbers(values)
        result = numbers[0]
        for number in numbers[1:]:
            result = work(result, number)
        return result

    return folded


def _logicals(values):
    return [_number(value) for value in _flat(values) if value is not None]


def _and(*values):
    # A NaN among them leaves the answer open.
    return np.prod(np.broadcast_arrays(*(_truth(v) for v in _logicals(values))), axis=0)


def _or(*values):
    return np.max(np.broadcast_arrays(*(_truth(v) for v in _logicals(values))), axis=0)


def _truth(value):
    return np.where(np.isnan(value), np.nan, np.not_equal(value, 0.0))


def _rounded(x, digits):
    x, scale = _number(x), 10.0 ** int(_number(digits))
    return np.copysign(np.floor(np.abs(x) * scale + 0.5) / scale, x)


def _not_known(x):
    """No car's number is a text or an error; whether a NaN is one of them is not known."""
    return np.where(np.isnan(_number(x)), np.nan, 0.0)


_ARITHMETIC = {
    "+": np.add, "-": np.subtract, "*": np.multiply, "/": np.divide, "^": np.power,
}  # fmt: skip

_COMPARED = {
    "=": np.equal, "<>": np.not_equal, "<": np.less, ">": np.greater,
    "<=": np.less_equal, ">=": np.greater_equal,
}  # fmt: skip

_FOR_MANY = {
    "ABS": lambda x: np.abs(_number(x)),
    "AND": _and,
    "AVERAGE": lambda *v: _folded(np.add)(*v) / len(_numbers(v)),
    "COS": lambda x: np.cos(_number(x)),
    "COUNT": lambda *v: sum(np.isfinite(x) * 1.0 for x in _numbers_only(v)),
    "INT": lambda x: np.floor(_number(x)),
    "ISBLANK": lambda x: 0.0,
    "ISERROR": _not_known,
    "ISNUMBER": lambda x: np.isfinite(_number(x)) * 1.0,
    "ISTEXT": _not_known,
    "MAX": _folded(np.maximum),
    "MIN": _folded(np.minimum),
    "MOD": lambda x, y: _number(x) - _number(y) * np.floor(_number(x) / _number(y)),
    "NOT": lambda x: 1.0 - _truth(_number(x)),
    "OR": _or,
    "RADIANS": lambda x: np.radians(_number(x)),
    "ROUND": _rounded,
    "SIN": lambda x: np.sin(_number(x)),
    "SIGN": lambda x: np.sign(_number(x)),
    "SQRT": lambda x: np.sqrt(_number(x)),
    "SUM": _folded(np.add),
    "SUMPRODUCT": _folded(np.add),
    "TAN": lambda x: np.tan(_number(x)),
}
