"""Slopes by many coordinates ranked in plain formulas: the largest of the first quantity on top."""

import math
from functools import cached_property

from ....catalogue.study.sensitivity import DIGITS, NOTHING, ROUNDING
from .spread import Spread


class Ranking:
    """Two tables: `work`, a row a coordinate in the order of the block, and `shown`, ranked.

    name: of the block. quantities: their names. rows: (coordinate's name, (formula, value) of a
    cell that shows its slope, for each quantity; None where it has nothing to do with it).
    wrong: those of the cells that say what is wrong with each quantity. In `work` a size is that
    of the first slope, -1 where it has none, and a text where no slope is more than rounding.
    """

    def __init__(self, name, quantities, rows, wrong):
        self._count = len(quantities)
        self._rows = rows
        self._wrong = wrong
        heads = [f"by {each}" for each in quantities]
        title = f"CORNER.SENSITIVITIES of {name}"
        self.work = Spread(f"{title}: sizes and ranks", ["coordinate", *heads, "size", "rank"])
        self.shown = Spread(title, ["coordinate", *heads])
        for at, (coordinate, slopes) in enumerate(rows):
            cells = [(None, coordinate)]
            cells += [((None, 0.0) if slope is None else slope) for slope in slopes]
            cells += [
                (lambda at=at: "=" + self._size(at), lambda at=at: self._sizes[at]),
                (lambda at=at: "=" + self._rank(at), lambda at=at: self._ranks[at]),
            ]
            self.work.add(cells)
        for at in range(len(rows)):
            self.shown.add(
                (
                    lambda at=at, column=column: self._picked(at, column),
                    lambda at=at, column=column: self._picked_now(at, column),
                )
                for column in range(self._count + 1)
            )

    # ---------------------------------------------------------------- formulas

    def _cell(self, column, at):
        return self.work.layout.reference(self._steps[column], at)

    @cached_property
    def _steps(self):
        return list(self.work.shown)

    def _column(self, column, last=None):
        last = len(self._rows) - 1 if last is None else last
        return f"{self._cell(column, 0)}:{self._cell(column, last).rpartition('!')[2]}"

    def _size(self, at):
        matters = []
        for column in range(1, self._count + 1):
            cell, every = self._cell(column, at), self._column(column)
            largest = f"MAX(MAX({every}),-MIN({every}))"
            matters.append(f"IF(ISNUMBER({cell}),ABS({cell})>{ROUNDING:.12f}*{largest},TRUE)")
        first = self._cell(1, at)
        size = f"IF({first}=0,0,ROUND(ABS({first}),{DIGITS - 1}-INT(LOG10(ABS({first})))))"
        return f'IF(OR({",".join(matters)}),IF(ISNUMBER({first}),{size},-1),"no")'

    def _rank(self, at):
        size, every = self._cell(self._count + 1, at), self._column(self._count + 1)
        alike = f"COUNTIF({self._column(self._count + 1, at)},{size})"
        return f'IF(ISNUMBER({size}),RANK({size},{every})+{alike}-1,"")'

    def _picked(self, at, column):
        ranks = self._column(self._count + 2)
        found = f"INDEX({self._column(column)},MATCH({at + 1},{ranks},0))"
        found = f"IFERROR({found}{'+0' if column else ''},NA())"
        first = (at, column) == (0, 0)
        # Below the last one stands nothing, so that a sum over the table is one of its numbers.
        beyond = f"# {NOTHING}" if first else ""
        found = f'IF(MAX({ranks})<{at + 1},"{beyond}",{found})'
        for formula, _ in reversed(self._wrong):
            wrong = formula()[1:]
            found = f'IF({wrong}="",{found},{wrong if first else "NA()"})'
        return "=" + found

    # ---------------------------------------------------------------- values of now

    @cached_property
    def _slopes(self):
        """Of each quantity, the slope of each row; None where it has none."""
        return [
            [_number(0.0 if slopes[i] is None else slopes[i][1]) for _, slopes in self._rows]
            for i in range(self._count)
        ]

    @cached_property
    def _sizes(self):
        least = [
            ROUNDING * max((abs(each) for each in column if each is not None), default=0.0)
            for column in self._slopes
        ]
        sizes = []
        for mine in zip(*self._slopes, strict=True):
            matters = any(
                each is None or abs(each) > some for each, some in zip(mine, least, strict=True)
            )
            size = -1.0 if mine[0] is None else float(f"{abs(mine[0]):.{DIGITS}g}")
            sizes.append(size if matters else "no")
        return sizes

    @cached_property
    def _ranks(self):
        known = [size for size in self._sizes if size != "no"]
        return [
            "" if size == "no"
            else float(1 + sum(each > size for each in known) + self._sizes[:at].count(size))
            for at, size in enumerate(self._sizes)
        ]  # fmt: skip

    def _picked_now(self, at, column):
        first = (at, column) == (0, 0)
        for _, value in self._wrong:
            if value() != "":
                return value() if first else math.nan
        if float(at + 1) not in self._ranks:
            return "# " + NOTHING if first else ""
        row = self._ranks.index(float(at + 1))
        if column == 0:
            return self._rows[row][0]
        value = self._slopes[column - 1][row]
        return math.nan if value is None else value


def _number(value):
    value = value() if callable(value) else value
    return value if isinstance(value, float) and value == value else None
