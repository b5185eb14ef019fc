"""The value of a formula, with the semantics of a spreadsheet: those of Calc.

    Evaluator(reader).value(parse("=SUM(A1:A3)*2"), ("Sheet1", 0, 1))

It knows the operators, the functions under `functions/` and every formula of the catalogue.
What it does not know it refuses with a `Trouble` that names it: never a value that is made up.
"""

import math

from ...catalogue import FORMULAS, call
from ..file.cell_error import CellError
from ..file.trouble import Trouble
from .cell_values import BLANK, SKIPPED, number_of, text_of, truth_of, whole_of
from .functions import OPERATORS, VOLATILE, WHOLE, function_named
from .ranges import Range, element, hold_size, size_of, smaller

NAMESPACE = "CORNER."

DEEPEST_NAME = 20
"""Names whose formulas use other names, one after another."""

_CONVERTED = {"number": number_of, "whole": whole_of, "truth": truth_of, "text": text_of}
_LITERALS = ("number", "text", "logical")


class Evaluator:
    """Works out formulas by asking a reader for cells.

    reader: has `meaning(reference, here)`, the `Range` that a text means, or the tree of a name
    that stands for a formula; and `rows(place)`, the values of a range.

    here is everywhere the asking cell: (sheet, row, column), counted from 0. wide says whether
    a formula is worked out element by element, as in an array formula.
    """

    def __init__(self, reader):
        self.reader = reader
        self._names = 0

    def value(self, tree, here, array=False):
        """What a formula comes to: a number, text, logical, `CellError`, or a table.

        array: whether it is an array formula. A formula of ours gives its table otherwise,
        too; of any other table one cell is shown.
        """
        try:
            if array or _is_ours(tree):
                value = self._of(tree, here, array)
                value = value.rows if isinstance(value, Range) else value
            else:
                value = self.one(tree, here, False)
        except CellError as error:
            return error.as_value()
        return BLANK if value is None or value is SKIPPED else value

    # Trees

    def _of(self, tree, here, wide):
        """What a tree comes to: a single value, a `Range` or a table; raises errors."""
        kind = tree[0]
        if kind in _LITERALS or kind == "rows":
            return tree[1]
        if kind == "reference":
            return self._reference(tree[1], here, wide)
        if kind == "call":
            return self._call(tree[1], tree[2], here, wide)
        if kind == "infix":
            return self._infixes(tree, here, wide)
        if kind == "error":
            raise CellError(tree[1])
        if tree[1] == "+":
            return self._of(tree[2], here, wide)
        value = self.one(tree[2], here, wide)
        return self.run(OPERATORS["minus" if kind == "prefix" else "%"], [value])

    def one(self, tree, here, wide):
        """What a tree comes to as a single value, or, where wide, as a table; raises errors."""
        if tree is None:
            return None
        if tree[0] in _LITERALS:
            return tree[1]
        value = self._of(tree, here, wide)
        if isinstance(value, Range):
            if value.is_one:
                value = value.rows[0][0]
            elif wide:
                return value.rows
            else:
                value = value.crossed(here)
        elif isinstance(value, tuple):
            if wide and size_of(value) != (1, 1):
                return value
            value = value[0][0]
        if isinstance(value, CellError):
            raise value
        return value

    def caught(self, tree, here, wide):
        """The same as `one`, an error being a value."""
        try:
            return self.one(tree, here, wide)
        except CellError as error:
            return error.as_value()

    def whole(self, tree, here, wide):
        """What a tree comes to, whole: a range stays one; an error is a value."""
        if tree is None:
            return None
        try:
            return self._of(tree, here, wide)
        except CellError as error:
            return error.as_value()

    def _reference(self, text, here, wide):
        meaning = self.reader.meaning(text, here)
        if isinstance(meaning, Range):
            return meaning
        if self._names >= DEEPEST_NAME:
            raise Trouble(f"the name {text} leads through more than {DEEPEST_NAME} names")
        self._names += 1
        try:
            return self._of(meaning, here, wide)
        finally:
            self._names -= 1

    def _infixes(self, tree, here, wide):
        # A sum of thousands of terms leans to the left: it is gone along, not into.
        leaning = []
        while tree[0] == "infix":
            leaning.append(tree)
            tree = tree[2]
        value = self.one(tree, here, wide)
        for node in reversed(leaning):
            value = self.run(OPERATORS[node[1]], [value, self.one(node[3], here, wide)])
        return value

    # Functions

    def _call(self, name, arguments, here, wide):
        if name.startswith(NAMESPACE):
            return self._ours(name[len(NAMESPACE) :], arguments, here, wide)
        function = function_named(name)
        if function is None:
            if name in VOLATILE:
                raise Trouble(
                    f"{name} gives another value whenever it is asked, so it is not worked out here"
                )
            raise Trouble(f"the function {name} is not known here")
        if function.is_lazy:
            function.kinds_of(len(arguments))
            return function.work(self, arguments, here, wide)
        values = []
        for kind, tree in zip(function.kinds_of(len(arguments)), arguments, strict=True):
            if kind in WHOLE:
                values.append(self.whole(tree, here, wide or kind == "array"))
            elif kind == "any":
                values.append(self.caught(tree, here, wide))
            else:
                values.append(self.one(tree, here, wide))
        return self.run(function, values)

    def run(self, function, values):
        """A function's value; a table, where it wants a single value and a table is given."""
        kinds = function.kinds_of(len(values))
        if tuple in map(type, values):
            for kind, value in zip(kinds, values, strict=True):
                if type(value) is tuple and kind not in WHOLE:
                    return self._each(function, values, kinds)
        return self.work(function, values, kinds)

    def _each(self, function, values, kinds):
        single = [kind not in WHOLE for kind in kinds]
        height = width = 1
        for value, is_single in zip(values, single, strict=True):
            if is_single:
                rows, columns = size_of(value)
                if function.name in OPERATORS:
                    height, width = smaller(height, rows), smaller(width, columns)
                else:
                    height, width = max(height, rows), max(width, columns)

        hold_size(height, width, f"a table of {function.name}")

        def at(row, column):
            try:
                picked = [
                    element(value, row, column) if isinstance(value, tuple) and is_single else value
                    for value, is_single in zip(values, single, strict=True)
                ]
                value = self.work(function, picked, kinds)
                return value.rows[0][0] if isinstance(value, Range) else value
            except IndexError:
                return CellError("#VALUE!")  # beyond one of the tables
            except CellError as error:
                return error.as_value()

        return tuple(tuple(at(r, c) for c in range(width)) for r in range(height))

    def work(self, function, values, kinds):
        """A function's value for arguments that are none too large; raises errors."""
        if not function.takes_all:
            values = [_handed(kind, value) for kind, value in zip(kinds, values, strict=True)]
        try:
            value = function.work(*values)
        except ZeroDivisionError:
            raise CellError("#DIV/0!") from None
        except OverflowError:
            raise CellError("#NUM!") from None
        if isinstance(value, float) and not math.isfinite(value):
            raise CellError("#NUM!")
        return value

    def select(self, truth, one, other):
        """What one or the other gives, by a truth, or by a table of them element by element.

        one, other: functions without arguments; what is not taken is not asked.
        """
        if isinstance(truth, CellError):
            raise truth
        if not isinstance(truth, tuple):
            return one() if truth_of(truth) else other()
        tables = [self._asked(choice) for choice in (one, other)]
        sizes = [size_of(table) for table in (truth, *tables)]
        height, width = (max(ends) for ends in zip(*sizes, strict=True))
        hold_size(height, width, "a table of IF")

        def at(table, row, column):
            try:
                return element(table, row, column) if isinstance(table, tuple) else table
            except IndexError:
                return CellError("#N/A")

        return tuple(
            tuple(self.pick(*(at(t, r, c) for t in (truth, *tables))) for c in range(width))
            for r in range(height)
        )

    def pick(self, truth, one, other):
        """One value or the other by a truth, an error being a value."""
        try:
            return one if truth_of(truth) else other
        except CellError as error:
            return error.as_value()

    @staticmethod
    def _asked(choice):
        try:
            value = choice()
        except CellError as error:
            return error.as_value()
        return value.rows if isinstance(value, Range) else value

    # Formulas of ours

    def _ours(self, name, arguments, here, wide):
        if name not in FORMULAS:
            raise Trouble(f"there is no formula CORNER.{name}")
        return self.ours(name, [self.argument(tree, here, wide) for tree in arguments])

    def argument(self, tree, here, wide=False):
        """What a host hands over for an argument of ours: a range as rows, an empty cell as None.

        Raises errors: a host hands none over.
        """
        value = self.whole(tree, here, wide)
        if isinstance(value, Range):
            if value.is_large:
                # Neither a block nor a list has anything where the sheet ends.
                value = value.cut()
            value = value.rows[0][0] if value.is_one else value.rows
        if isinstance(value, CellError):
            raise value
        return value

    def ours(self, name, raw):
        """The value of CORNER.name, for arguments as a host hands them over."""
        result = call(name, *raw)
        if result is None:
            raise CellError("#N/A")
        if isinstance(result, tuple):
            missing = CellError("#N/A")
            return tuple(tuple(missing if v is None else v for v in row) for row in result)
        return result


def _handed(kind, value):
    """A value as a function is handed it for an argument of a kind; raises an error that it is."""
    convert = _CONVERTED.get(kind)
    if convert is not None:
        return convert(value)
    if kind == "value" and isinstance(value, CellError):
        raise value
    return value


def _is_ours(tree):
    return tree[0] == "call" and tree[1].startswith(NAMESPACE)
