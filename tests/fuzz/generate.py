"""Random arguments for any formula: near good ones, wild, extreme, of a wrong shape or kind."""

import decimal
import fractions
import math

import numpy as np
from cornerbook.catalogue import FORMULAS
from cornerbook.cells.example import EXAMPLE

from tests.catalogue.test_bad_input import _good
from tests.support.calls import QUANTITIES, near_call, random_blocks
from tests.support.cars import plausible_cars

SIZES = (1e-308, 5e-324, 1e-200, 1e-150, 1e-30, 1e-12, 1e-6, 1e-3, 0.1, 1.0, 10.0, 1e3, 1e5,
         1e12, 1e30, 1e100, 1e150, 1e154, 1e155, 1e200, 1e250, 1e300, 1e307, 1.7e308)  # fmt: skip
"""Sizes of numbers, from the smallest that there are to the largest."""

PLAIN = (0.0, -0.0, 1.0, -1.0, 2.0, 0.5, 45.0, 60.0, 90.0, 180.0, 360.0, 100.0, 1e-9)

NO_NUMBERS = (
    math.inf, -math.inf, math.nan, True, False, None, "", " ", "inf", "nan", "-inf", "1e400",
    "521,5", "521.5", "1.234,5", "12 mm", "#N/A", "#REF!", "# a sentence", "TRUE", "x" * 3000,
    "\x00", "'", "=1+1", "%s", "%", "{0}", "\u2212150", "\u0661", "\U0001f600", b"12",
    10**400, -(10**400), 2**63, 3, decimal.Decimal("2.5"), fractions.Fraction(5, 2), 1 + 2j,
    np.float64(2.5), np.float32(2.5), np.float16(2.5), np.int32(3), np.int64(-7), np.uint8(200),
    np.bool_(True), np.float64("nan"), np.float64("inf"), np.str_("mm"), np.longdouble(3),
    np.array(3.0), np.array([1.0, 2.0]), object, {}, set(), range(3),
)  # fmt: skip
"""What hosts and Python may pass where a number belongs."""

WORDS = (
    "travel", "rack", "x", "y", "z", "all", "mm", "in", "left", "right", "front", "rear",
    "lower arm", "upper arm", "upright", "tie rod", "wheel centre", "upper ball joint z",
    "camber", "camber, toe", "ackermann", "roll centre", "steering wheel", ",", ", ,", "camber,",
)  # fmt: skip

KINDS = ("near", "wild", "extreme", "shape", "kind")


class Generator:
    """Makes calls from a seed. `call_of(name)` gives (kind, raw arguments)."""

    def __init__(self, seed, blocks=200):
        self.draw = np.random.default_rng(seed)
        self.blocks = [*random_blocks(seed + 1, blocks), *plausible_cars(seed + 2, blocks)]
        self.blocks += [EXAMPLE] * (blocks // 10)

    def one_of(self, choices):
        """One of some things, as it is."""
        return choices[self.draw.integers(len(choices))]

    def call_of(self, name, kind=None):
        """(kind, raw arguments as a tuple) of a formula."""
        kind = kind or self.one_of(KINDS)
        near = near_call(self.draw, _good(FORMULAS[name]), name, self.one_of(self.blocks))
        raw = getattr(self, "_" + kind)(name, near)
        arguments = FORMULAS[name].arguments
        # What may be left out at the end is, now and then.
        while 1 < len(raw) <= len(arguments) and not arguments[len(raw) - 1].required:
            if self.draw.random() > 0.1:
                break
            raw = raw[:-1]
        return kind, tuple(raw)

    def good_call_of(self, name):
        """A near call's arguments by name, none left out."""
        names = [argument.name for argument in FORMULAS[name].arguments]
        near = near_call(self.draw, _good(FORMULAS[name]), name, self.one_of(self.blocks))
        return dict(zip(names, near, strict=True))

    # Kinds

    def _near(self, name, raw):
        return raw

    def _wild(self, name, raw):
        """Numbers of ordinary size that do not go together."""
        spread = self.one_of((0.3, 3.0, 30.0))
        return [self._changed(one, lambda x: x * self._factor(spread), 0.5) for one in raw]

    def _extreme(self, name, raw):
        """One number or a few, or one of a block's, as large or small as there are."""
        share = self.one_of((0.02, 0.2, 1.0))
        return [self._changed(one, lambda _: self.extreme(), share) for one in raw]

    def _kind(self, name, raw):
        """Something else in the place of an argument, or of some cells of one."""
        place = self.draw.integers(len(raw))
        if raw[place] and isinstance(raw[place], tuple) and self.draw.random() < 0.8:
            rows = [list(row) for row in raw[place]]
            for _ in range(self.draw.integers(1, 4)):
                row = self.one_of(rows)
                row[self.draw.integers(len(row))] = self.anything()
            raw[place] = tuple(map(tuple, rows))
        else:
            raw[place] = self.anything()
        return raw

    def _shape(self, name, raw):
        """Cells of a shape that the argument does not have; too many or too few arguments."""
        place = self.draw.integers(len(raw))
        way = self.draw.integers(9)
        one = raw[place]
        rows = one if isinstance(one, tuple) else ((one,),)
        if way == 0:
            raw[place] = ((one,),)
        elif way == 1:
            raw[place] = tuple(tuple(row[: self.draw.integers(0, 5)]) for row in rows)
        elif way == 2:
            raw[place] = tuple((*row, self.anything()) for row in rows)
        elif way == 3:
            raw[place] = tuple(
                rows[i]
                for i in self.draw.permutation(len(rows))[: self.draw.integers(len(rows) + 1)]
            )
        elif way == 4:
            raw[place] = self.nested(3)
        elif way == 5:
            raw[place] = [list(row) for row in rows]
        elif way == 6:
            raw = [*raw, self.anything()] if self.draw.random() < 0.5 else raw[:place]
        elif way == 7:
            raw[place] = (
                tuple(zip(*rows, strict=True)) if len({len(row) for row in rows}) == 1 else ()
            )
        else:
            raw[place] = (*rows, *rows)
        return raw

    # Parts

    def extreme(self):
        """A number at the end of what there is, or a plain one that is a border."""
        if self.draw.random() < 0.3:
            return self.one_of(PLAIN)
        factor = self.draw.uniform(0.5, 1.0) * self.one_of((-1.0, 1.0))
        return self.one_of(SIZES) * factor

    def anything(self):
        """A number, a text, a name, a range or what is nothing of these."""
        way = self.draw.random()
        if way < 0.4:
            return self.one_of(NO_NUMBERS)
        if way < 0.55:
            return self.one_of(WORDS + tuple(QUANTITIES))
        if way < 0.7:
            return self.extreme()
        if way < 0.8:
            return self.one_of(EXAMPLE)[0]
        return self.nested(2)

    def nested(self, depth):
        """Tuples and lists of odd shapes."""
        if depth == 0 or self.draw.random() < 0.2:
            return self.one_of(NO_NUMBERS)
        kind = tuple if self.draw.random() < 0.7 else list
        return kind(self.nested(depth - 1) for _ in range(self.draw.integers(0, 5)))

    def _factor(self, spread):
        sign = -1.0 if self.draw.random() < 0.15 else 1.0
        return sign * math.exp(self.draw.normal(0.0, spread))

    def _changed(self, one, change, share):
        """A number, or some numbers of cells, put through a function."""
        if isinstance(one, tuple):
            return tuple(
                tuple(self._changed(cell, change, 0.4 * share) for cell in row) for row in one
            )
        if isinstance(one, float) and self.draw.random() < share:
            return change(one)
        return one
