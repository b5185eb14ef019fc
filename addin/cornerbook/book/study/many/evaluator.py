"""The value of a formula for many cars."""

from ...formula.evaluate import Evaluator
from .choices import either, of_each, truths
from .columns import Column
from .formulas import ManyFormulas
from .functions import ManyFunctions


class ManyEvaluator(Evaluator):
    """An evaluator to which a value may be a `Column`.

    What it is asked that does not differ from car to car it works out as for one.
    """

    def __init__(self, reader, cars):
        super().__init__(reader)
        self.functions = ManyFunctions(reader, cars, super().work)
        self.formulas = ManyFormulas(reader, cars)

    def work(self, function, values, kinds):
        differs = self.reader.differs
        differing = [k for k, v in zip(kinds, values, strict=True) if differs(v, k)]
        if not differing:
            return super().work(function, values, kinds)
        return self.functions.value(function, values, kinds, differing)

    def select(self, truth, one, other):
        if not isinstance(truth, Column):
            return super().select(truth, one, other)
        truth = truths(truth)
        if (truth.array == 1.0).all():
            return one()
        if (truth.array == 0.0).all():
            return other()
        return either(truth, self._asked(one), self._asked(other))

    def pick(self, truth, one, other):
        if isinstance(truth, Column):
            return of_each(truths(truth), one, other)
        return super().pick(truth, one, other)

    def ours(self, name, raw):
        if not any(self.reader.differs(value, "cells") for value in raw):
            return super().ours(name, raw)
        return self.formulas.value(name, raw)
