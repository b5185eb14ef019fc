"""A range of rows as a formula takes it: parts of a car, torque over speed, gears.

An argument says which columns it has (`Column`). A row with no number in it is nothing, so a
range may be longer than what it holds; what stands in the others is judged here, in straight
lines, so that a copy without an add-in judges it too.
"""

from ..geometry.numbers import where
from .mend import Mend, Words, finite, hold, is_number, shown

_LONGEST_NAME = 60


class Column:
    """One column of numbers.

    name: as sentences say it. unit: in a word, as of an argument. needed: whether each row that
    has a number must have this one; else a blank is 0. least, most: the limits, themselves
    allowed. above: a limit that is not. rising: whether each must be above the one before it.
    """

    __slots__ = ("above", "least", "most", "name", "needed", "rising", "unit")

    def __init__(
        self, name, unit, needed=False, least=None, most=None, above=None, rising=False
    ):  # fmt: skip
        self.name = name
        self.unit = unit
        self.needed = needed
        self.least = least
        self.most = most
        self.above = above
        self.rising = rising


class Row:
    """One row. label: its name, or its number in words; given: whether anything stands in it.

    numbers: of each column, 0 for a blank. has: for each column whether it is not blank.
    """

    __slots__ = ("given", "has", "label", "numbers")

    def __init__(self, label, numbers, has):
        self.label = label
        self.numbers = numbers
        self.has = has
        self.given = _any(has)


def _any(truths):
    found = False
    for truth in truths:
        found = where(truth, True, found)
    return found


def parts_of(argument, raw):
    """(name or None, cells of numbers) of each row of a range, None where a cell is blank.

    argument: the declared one. raw: as a host gives it. Raises `Mend` for what is no such range.
    """
    if not isinstance(raw, (tuple, list)):
        raw = () if raw is None or (isinstance(raw, str) and raw == "") else ((raw,),)
    rows = [tuple(row) if isinstance(row, (tuple, list)) else (row,) for row in raw]
    if not rows:
        raise Mend(f"{argument.name} is missing; {described(argument)} was expected")
    width, least = min(map(len, rows)), argument.named + _least(argument)
    if width < least:
        raise Mend(
            f"{argument.name}: the range is {width} columns wide; {described(argument)} was "
            "expected"
        )
    start = 1 if argument.named else 0
    end = start + len(argument.columns)
    return [
        (row[0] if argument.named else None, [_cell(cell) for cell in row[start:end]])
        for row in rows
    ]


def _cell(cell):
    return None if cell is None or (isinstance(cell, str) and not cell.strip()) else cell


def _least(argument):
    """How many columns a range must have: up to the last one that is needed."""
    return max((i for i, c in enumerate(argument.columns, 1) if c.needed), default=1)


def described(argument):
    """Which columns a range has, in words."""
    names = [column.name for column in argument.columns]
    least = _least(argument)
    needed = (["a name"] if argument.named else []) + names[:least]
    more = f" and, if wanted, {', '.join(names[least:])}" if names[least:] else ""
    return f"a range of rows with {', '.join(needed)}{more} side by side"


def label_of(name, number):
    """What a row is called in a sentence: by its name, or by its number from 1."""
    if isinstance(name, str) and name.strip():
        return Words(name.strip()[:_LONGEST_NAME])
    return Words(f"row {number}")


def rows_of(argument, raw, take=None):
    """The `Row`s of a range of plain cells, judged; raises `Mend` with what is wrong.

    take: what makes a number of a cell that is no plain one, or None where it is none.
    """
    rows = []
    for number, (name, cells) in enumerate(parts_of(argument, raw), 1):
        label = label_of(name, number)
        numbers, has = [], []
        for place in range(len(argument.columns)):
            cell = cells[place] if place < len(cells) else None
            has.append(cell is not None)
            numbers.append(0.0 if cell is None else _number(argument, label, place, cell, take))
        rows.append(Row(label, tuple(numbers), tuple(has)))
    return judged(argument, rows)


def _number(argument, label, place, cell, take):
    if take is not None:
        taken = take(cell)
        if taken is not None:
            return taken
    if isinstance(cell, str) and cell.startswith("# "):
        # Another formula's sentence: what is to be mended is said once, as it stands.
        raise Mend(cell[2:])
    number = finite(cell) if is_number(cell) else None
    if number is None:
        raise Mend(
            f"{argument.name}: the {argument.columns[place].name} of {label} is {shown(cell)}, "
            "where a number was expected"
        )
    return number


def judged(argument, rows):
    """The rows as a tuple, with all said that is wrong with their numbers of any kind.

    Rows of an argument that says so may all be blank.
    """
    hold_any_given(argument, rows)
    for row in rows:
        hold_row(argument, row)
    hold_rising(argument, rows)
    return tuple(rows)


def hold_any_given(argument, rows):
    """Say where no row has a number, unless that is allowed."""
    if not argument.blank:
        hold(
            _any([row.given for row in rows]),
            f"{argument.name}: no row has a number; {described(argument)} was expected",
        )


def hold_row(argument, row):
    """Say what is wrong with the numbers of one row by themselves."""
    for place, column in enumerate(argument.columns):
        number, has = row.numbers[place], row.has[place]
        start = f"{argument.name}: the {column.name} of %s is "
        if column.needed:
            hold(
                where(row.given, has, True),
                start + "missing, where the row has other numbers",
                row.label,
            )
        _hold_limits(column, start, row, number, has)


def hold_rising(argument, rows):
    """Say where a column that must rise does not."""
    for place, column in enumerate(argument.columns):
        if not column.rising:
            continue
        before, seen = 0.0, False
        for row in rows:
            number, has = row.numbers[place], row.has[place]
            hold(
                where(has, where(seen, number > before, True), True),
                f"{argument.name}: the {column.name} of %s is %s, which is not above the one "
                "before it; each must be above the last",
                row.label,
                number,
            )
            before = where(has, number, before)
            seen = where(has, True, seen)


def _hold_limits(column, start, row, number, has):
    if column.above is not None:
        hold(
            where(has, number > column.above, True),
            start + f"%s, where a number above {shown(column.above)} was expected",
            row.label, number,
        )  # fmt: skip
    if column.least is None and column.most is None:
        return
    within = True
    if column.least is not None:
        within = where(number >= column.least, within, False)
    if column.most is not None:
        within = where(number <= column.most, within, False)
    if column.most is None:
        words = f"a number not below {shown(column.least)}"
    else:
        words = f"a number from {shown(column.least)} to {shown(column.most)}"
    hold(
        where(has, within, True),
        start + f"%s, where {words} was expected",
        row.label, number,
    )  # fmt: skip
