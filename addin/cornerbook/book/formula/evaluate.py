"""The values of a workbook's formulas, so that it shows numbers before any program opens it.

This is no spreadsheet program: it knows the operators and the few functions that
templates use (`FUNCTIONS`), and every formula of the catalogue. What it does not know
stops the generator with the cell's name. The tests hold each stored value to what real
Calc computes.
"""

import inspect
import math

from ...catalogue import FORMULAS, call
from ..file.cell_error import CellError
from ..file.trouble import Trouble
from .parse import parse

NAMESPACE = "CORNER."


class Evaluator:
    """Computes formulas by asking for cells.

    range_of: a function from a reference's text (a name, "Sheet1!A1:B2", or "A1" with
        the sheet of the asking cell) and that sheet to rows of values.
    """

    def __init__(self, range_of):
        self.range_of = range_of

    def value(self, formula, sheet):
        """The value of a formula on a sheet: a number, text, logical, error or table.

        An error comes back as a `CellError`, a table as a tuple of row tuples.
        """
        try:
            return self._of(parse(formula), sheet)
        except CellError as error:
            return error

    def _of(self, tree, sheet):
        kind = tree[0]
        if kind in ("number", "text", "logical"):
            return tree[1]
        if kind == "error":
            raise CellError(tree[1])
        if kind == "reference":
            rows = self.range_of(tree[1], sheet)
            return rows[0][0] if len(rows) == 1 and len(rows[0]) == 1 else rows
        if kind == "call":
            return self._call(tree[1], tree[2], sheet)
        if kind == "infix":
            return _infix(tree[1], self._single(tree[2], sheet), self._single(tree[3], sheet))
        value = number_of(self._single(tree[2], sheet))
        if kind == "postfix":
            return value / 100.0
        return -value if tree[1] == "-" else value

    def _single(self, tree, sheet):
        value = self._of(tree, sheet)
        if isinstance(value, tuple):
            value = value[0][0] if value and value[0] else None
        if isinstance(value, CellError):
            raise value
        return value

    def _call(self, name, arguments, sheet):
        if name.startswith(NAMESPACE):
            return self._ours(name[len(NAMESPACE) :], arguments, sheet)
        if name in _CHOICES:
            least, most = _CHOICES[name]
            if not least <= len(arguments) <= most:
                raise _counted(name, arguments)
        if name == "IF":
            taken = 1 if _logical(self._single(arguments[0], sheet)) else 2
            if taken < len(arguments):
                return self._of(arguments[taken], sheet)
            return False
        if name == "IFERROR":
            try:
                value = self._of(arguments[0], sheet)
                if not isinstance(value, CellError):
                    return value
            except CellError:
                pass
            return self._of(arguments[1], sheet)
        if name not in FUNCTIONS:
            raise Trouble(
                f"the function {name} is not known to the generator; it knows "
                f"{', '.join(sorted(FUNCTIONS))}, IF, IFERROR "
                "and the CORNER formulas"
            )
        try:
            inspect.signature(FUNCTIONS[name]).bind(*arguments)
        except TypeError:
            raise _counted(name, arguments) from None
        if name.startswith("IS"):
            return FUNCTIONS[name](self._caught(arguments[0], sheet))
        values = [self._of(a, sheet) if a is not None else None for a in arguments]
        return _worked(lambda: FUNCTIONS[name](*values))

    def _caught(self, tree, sheet):
        try:
            return self._of(tree, sheet)
        except CellError as error:
            return error

    def _ours(self, name, arguments, sheet):
        if name not in FORMULAS:
            raise Trouble(f"there is no formula CORNER.{name}")
        values = [self._of(a, sheet) if a is not None else None for a in arguments]
        result = call(name, *values)
        if result is None:
            raise CellError("#N/A")
        if isinstance(result, tuple):
            missing = CellError("#N/A")
            return tuple(tuple(missing if v is None else v for v in row) for row in result)
        return result


_CHOICES = {"IF": (2, 3), "IFERROR": (2, 2)}
"""How many arguments those take that do not look at all of them."""


def _counted(name, arguments):
    count = len(arguments)
    return Trouble(f"{name} is given {count} argument{'s' * (count != 1)}, which it does not take")


def _worked(work):
    """What a function gives; the error that a spreadsheet shows where that is no number."""
    try:
        value = work()
    except ZeroDivisionError:
        raise CellError("#DIV/0!") from None
    except (OverflowError, ValueError):
        raise CellError("#NUM!") from None
    if isinstance(value, complex) or (isinstance(value, float) and not math.isfinite(value)):
        raise CellError("#NUM!")
    return value


def number_of(value):
    """A cell's value as a number, as arithmetic takes it; raises `CellError` for none."""
    if isinstance(value, bool):
        return 1.0 if value else 0.0
    if isinstance(value, (int, float)):
        return float(value)
    if value is None:
        return 0.0
    if isinstance(value, CellError):
        raise value
    raise CellError("#VALUE!")


def _logical(value):
    if isinstance(value, str):
        raise CellError("#VALUE!")
    return bool(number_of(value))


def _text(value):
    if value is None:
        return ""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, float):
        return f"{value:.15g}"
    return str(value)


def _infix(operator, left, right):
    if operator == "&":
        return _text(left) + _text(right)
    if operator in ("=", "<>", "<", ">", "<=", ">="):
        return _compare(operator, left, right)
    a, b = number_of(left), number_of(right)
    if operator == "/" and b == 0.0:
        raise CellError("#DIV/0!")
    return _worked(
        {
            "+": lambda: a + b,
            "-": lambda: a - b,
            "*": lambda: a * b,
            "/": lambda: a / b,
            "^": lambda: a**b,
        }[operator]
    )


def _compare(operator, left, right):
    # Numbers come before texts and texts before logicals, as in any spreadsheet.
    def order(value):
        if isinstance(value, bool):
            return (2, float(value))
        if isinstance(value, str):
            return (1, value.lower())
        return (0, number_of(value))

    if left is None and isinstance(right, str):
        left = ""
    if right is None and isinstance(left, str):
        right = ""
    a, b = order(left), order(right)
    return {
        "=": a == b, "<>": a != b, "<": a < b, ">": a > b, "<=": a <= b, ">=": a >= b,
    }[operator]  # fmt: skip


def _flat(values):
    for value in values:
        if isinstance(value, tuple):
            for row in value:
                yield from row
        else:
            yield value


def _numbers(*values):
    for value in _flat(values):
        if isinstance(value, CellError):
            raise value
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            yield float(value)


def _countif(cells, wanted):
    if isinstance(wanted, str) and wanted[:1] in "<>=":
        raise Trouble("COUNTIF is known to the generator with a plain value only")
    same = 0
    for cell in _flat([cells]):
        if not isinstance(cell, CellError) and type(cell) is type(wanted):
            same += _compare("=", cell, wanted)
    return float(same)


def _logicals(values):
    return [_logical(v) for v in _flat(values) if v is not None]


def _is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


FUNCTIONS = {
    "ABS": lambda x: abs(number_of(x)),
    "AND": lambda *v: all(_logicals(v)),
    "AVERAGE": lambda *v: _mean(list(_numbers(*v))),
    "COS": lambda x: math.cos(number_of(x)),
    "COUNT": lambda *v: float(sum(_is_number(x) for x in _flat(v))),
    "COUNTA": lambda *v: float(sum(x is not None for x in _flat(v))),
    "COUNTIF": _countif,
    "INDEX": lambda *v: _index(*v),
    "INT": lambda x: float(math.floor(number_of(x))),
    "ISBLANK": lambda x: x is None,
    "ISERROR": lambda x: isinstance(x, CellError),
    "ISNUMBER": _is_number,
    "ISTEXT": lambda x: isinstance(x, str),
    "MATCH": lambda *v: _match(*v),
    "MAX": lambda *v: max(_numbers(*v), default=0.0),
    "MIN": lambda *v: min(_numbers(*v), default=0.0),
    "MOD": lambda x, y: number_of(x) - number_of(y) * math.floor(number_of(x) / number_of(y)),
    "NOT": lambda x: not _logical(x),
    "OR": lambda *v: any(_logicals(v)),
    "PI": lambda: math.pi,
    "RADIANS": lambda x: math.radians(number_of(x)),
    "ROUND": lambda x, digits: rounded(number_of(x), number_of(digits)),
    "ROWS": lambda v: float(len(v)) if isinstance(v, tuple) else 1.0,
    "SIN": lambda x: math.sin(number_of(x)),
    "SIGN": lambda x: float((number_of(x) > 0.0) - (number_of(x) < 0.0)),
    "SQRT": lambda x: _root(number_of(x)),
    "SUM": lambda *v: math.fsum(_numbers(*v)),
    "SUMPRODUCT": lambda v: math.fsum(_numbers(v)),
    "TAN": lambda x: math.tan(number_of(x)),
}


def _index(cells, row):
    """A cell of one column, by its number from one."""
    cells = cells if isinstance(cells, tuple) else ((cells,),)
    place = int(number_of(row))
    if not 1 <= place <= len(cells):
        raise CellError("#REF!")
    value = cells[place - 1][0]
    if isinstance(value, CellError):
        raise value
    return value


def _match(wanted, cells, kind):
    """The number of the first cell of one column that equals a value."""
    if number_of(kind) != 0.0:
        raise Trouble("MATCH is known to the generator with 0 for an exact match only")
    cells = cells if isinstance(cells, tuple) else ((cells,),)
    if any(len(row) != 1 for row in cells):
        raise CellError("#N/A")
    for place, (cell,) in enumerate(cells, 1):
        if not isinstance(cell, CellError) and _compare("=", cell, wanted):
            return float(place)
    raise CellError("#N/A")


def _mean(values):
    if not values:
        raise CellError("#DIV/0!")
    return math.fsum(values) / len(values)


def rounded(x, digits):
    """A number rounded to digits, half away from zero, as a spreadsheet does."""
    scale = 10.0 ** int(digits)
    return math.copysign(math.floor(abs(x) * scale + 0.5) / scale, x)


def _root(x):
    if x < 0.0:
        raise CellError("#NUM!")
    return math.sqrt(x)
