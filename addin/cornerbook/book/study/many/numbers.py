"""Numbers that stand for many cars at once: one value of each car, in an array.

A `Many` takes the place of a float in the geometry and the catalogue, as a recorded step or a
dual does. A condition that does not hold (`cells/mend.hold`) stops no car but those for
which it fails: they are marked, and the formula that asked has NaN for them, where the cell of
such a car would show a sentence.
"""

import contextlib
import operator

import numpy as np

from ....cells.block import Block
from ....cells.corner import Corner, DrawnPose
from ....geometry.numbers import again, mapped
from ....geometry.vec import Vec


class NotForMany(Exception):
    """Something that is worked out for one car at a time only; the text says what."""


class Many:
    """A number (or a truth) of each car. Made by `Cars.number`; `array` has shape (cars,)."""

    __slots__ = ("array", "cars")

    # NumPy then leaves an operation with an array on the left to the methods here.
    __array_ufunc__ = None

    # Equality is asked car by car, so a set or a key goes by identity.
    __hash__ = object.__hash__

    def __init__(self, array, cars):
        self.array = array
        self.cars = cars

    def __repr__(self):
        return f"Many({self.array!r})"

    def __str__(self):
        # Asked by a formula that takes it for no number, in the sentence that says so.
        raise NotForMany("a formula that takes one car at a time")

    def __array_namespace__(self, **_):
        return self.cars

    def __bool__(self):
        raise NotForMany("a choice between texts, or between ways of working, by a value")

    def __float__(self):
        raise NotForMany("a single number of all cars")

    def __neg__(self):
        return Many(-self.array, self.cars)

    def rounded(self, digits):
        """For a sentence, which nobody reads here."""
        return self

    def hold(self, sentence, values):
        """Mark the cars for which this condition fails."""
        if not self.array.all():
            self.cars.mark(~self.array)


def _operation(work, reflected=False):
    def method(self, other):
        if type(other) is Many:
            other = other.array
        elif not isinstance(other, (float, int)):
            return NotImplemented
        return Many(work(other, self.array) if reflected else work(self.array, other), self.cars)

    return method


for _name in ("add", "sub", "mul", "truediv"):
    setattr(Many, f"__{_name}__", _operation(getattr(operator, _name)))
    setattr(Many, f"__r{_name}__", _operation(getattr(operator, _name), reflected=True))
for _name in ("lt", "gt", "le", "ge", "eq", "ne"):
    setattr(Many, f"__{_name}__", _operation(getattr(operator, _name)))


def _plain(value):
    return value.array if type(value) is Many else value


class Cars:
    """The cars that are worked out at once, and the functions that their numbers answer with.

    count: how many. failed: None, or an array of truths: the cars marked since it was cleared.
    """

    def __init__(self, count):
        self.count = count
        self.failed = None

    def number(self, array):
        """A `Many` of an array of shape (cars,)."""
        return Many(array, self)

    def mark(self, failing):
        """Mark cars; failing: an array of truths, or None for no car."""
        if failing is not None:
            self.failed = failing if self.failed is None else self.failed | failing

    @contextlib.contextmanager
    def apart(self):
        """Collect the marks made meanwhile in a list, one at most, and not in `failed`."""
        before, self.failed = self.failed, None
        found: list = []
        try:
            yield found
            if self.failed is not None:
                found.append(self.failed)
        finally:
            self.failed = before

    # The functions that geometry/numbers.py asks a namespace for

    def sqrt(self, x):
        return Many(np.sqrt(x.array), self)

    def sin(self, x):
        return Many(np.sin(x.array), self)

    def cos(self, x):
        return Many(np.cos(x.array), self)

    def tan(self, x):
        return Many(np.tan(x.array), self)

    def log(self, x):
        return Many(np.log(x.array), self)

    def abs(self, x):
        return Many(np.abs(x.array), self)

    def atan2(self, y, x):
        return Many(np.arctan2(_plain(y), _plain(x)), self)

    def maximum(self, x, floor):
        return Many(np.maximum(x.array, floor), self)

    def again(self, needed, work, given, found):
        """See `numbers.again`: it is done with the cars' plain arrays."""

        def work_plainly(*plain):
            return mapped(_plain, work(*plain))

        plain = again(needed.array, work_plainly, mapped(_plain, given), mapped(_plain, found))
        return mapped(
            lambda number: number if isinstance(number, float) else Many(number, self), plain
        )

    def where(self, condition, if_true, if_false):
        if isinstance(if_true, str) or isinstance(if_false, str):
            raise NotForMany("a text that differs from car to car")
        return Many(np.where(condition.array, _plain(if_true), _plain(if_false)), self)


class ManyBlock(Block):
    """A block in which a cell may be a `Many`."""

    @staticmethod
    def _number(name, what, cell):
        return cell if type(cell) is Many else Block._number(name, what, cell)


class ManyDrawnPose(DrawnPose):
    """The pose as drawn of many cars; a car whose row is no good has NaN in it."""

    __slots__ = ("cars",)

    def __init__(self, block, cars):
        super().__init__(block)
        self.cars = cars

    def __getattr__(self, name):
        with self.cars.apart() as marks:
            value = super().__getattr__(name)
        for failing in marks:
            doubt = Many(np.where(failing, np.nan, 0.0), self.cars)
            value = value.shifted(doubt) if isinstance(value, Vec) else value + doubt
            setattr(self, name, value)
            self.cars.mark(failing)
        return value


class ManyCorner(Corner):
    """A corner of many cars.

    What is worked out once, such as the linkage, marks the same cars each time that a formula
    uses it.
    """

    def __init__(self, rows, cars):
        super().__init__(rows)
        self.block = ManyBlock(rows)
        self.drawn = ManyDrawnPose(self.block, cars)
        self.cars = cars
        self._made = {}

    def _marked(self, what, make):
        if what not in self._made:
            with self.cars.apart() as marks:
                value = make()
            self._made[what] = (value, marks)
        value, marks = self._made[what]
        for failing in marks:
            self.cars.mark(failing)
        return value

    @property
    def linkage(self):
        return self._marked("linkage", lambda: Corner.linkage.fget(self))  # type: ignore[attr-defined]

    @property
    def actuation(self):
        return self._marked("actuation", lambda: Corner.actuation.fget(self))  # type: ignore[attr-defined]

    def pose(self, travel, rack):
        if not _is_drawn(travel, rack):
            self.hold_linkage()
        return super().pose(travel, rack)

    def opposite(self, travel, rack):
        if not _is_drawn(travel, rack):
            self.hold_linkage()
        return super().opposite(travel, rack)

    def motion(self, travel, rack):
        self.hold_linkage()
        return super().motion(travel, rack)

    def actuated(self, travel, rack):
        self.hold_linkage()
        _ = self.actuation
        return super().actuated(travel, rack)

    def on_road(self, roll, heave, rack):
        if not _is_drawn(roll, heave, rack):
            self.hold_linkage()
        return super().on_road(roll, heave, rack)

    def on_road_motion(self, roll, heave, rack):
        self.hold_linkage()
        return super().on_road_motion(roll, heave, rack)


def _is_drawn(*values):
    return all(isinstance(value, float) and value == 0.0 for value in values)
