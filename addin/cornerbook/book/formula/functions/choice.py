"""Truths, and choosing by them. What is not chosen is not worked out.

IF and its like get the evaluator and their arguments' trees: `evaluator.one(tree, here, wide)`
works one out.
"""

from ...file.cell_error import CellError
from ..cell_values import SKIPPED, number_of, truth_of
from ..ranges import cells_of
from .entry import FUNCTIONS, function
from .operators import OPERATORS


def _asking(evaluator, tree, here, wide):
    """A function that works a tree out when it is called; a range stays one."""
    return lambda: _asked(evaluator, tree, here, wide)


def _asked(evaluator, tree, here, wide):
    if tree is None:
        return 0.0
    value = evaluator.whole(tree, here, wide)
    if isinstance(value, CellError):
        raise value
    return value


def _not_available():
    raise CellError("#N/A")


@function("IF", "tree", "tree?", "tree?")
def choose_by(evaluator, trees, here, wide):
    """One of two by a truth."""
    truth = evaluator.one(trees[0], here, wide)
    if truth is True or truth is False:
        taken = 1 if truth else 2
        return _asked(evaluator, trees[taken], here, wide) if taken < len(trees) else truth
    asking = [_asking(evaluator, tree, here, wide) for tree in trees[1:]]
    if not asking:
        asking = [lambda: True]
    if len(asking) == 1:
        asking.append(lambda: SKIPPED if isinstance(truth, tuple) else False)
    return evaluator.select(truth, *asking)


@function("IFERROR", "tree", "tree")
def instead_of_error(evaluator, trees, here, wide):
    """A value, or another in place of an error."""
    return _instead(evaluator, trees, here, wide, "ISERROR")


@function("IFNA", "tree", "tree")
def instead_of_not_available(evaluator, trees, here, wide):
    """A value, or another in place of #N/A."""
    return _instead(evaluator, trees, here, wide, "ISNA")


def _instead(evaluator, trees, here, wide, question):
    value = evaluator.caught(trees[0], here, wide)
    wrong = evaluator.run(FUNCTIONS[question], [value])

    def keep():
        if isinstance(value, CellError):
            raise value
        return value

    return evaluator.select(wrong, _asking(evaluator, trees[1], here, wide), keep)


@function("IFS", "tree", "tree...", again=2)
def first_true(evaluator, trees, here, wide):
    """The value beside the first truth."""
    if len(trees) % 2:
        raise CellError("#VALUE!")
    pairs = list(zip(trees[::2], trees[1::2], strict=True))
    return _first(evaluator, pairs, _not_available, here, wide)


def _first(evaluator, pairs, otherwise, here, wide):
    """The value of the first of (condition, tree) whose condition is true.

    A condition is a tree, or a function that works one out.
    """
    for number, (condition, tree) in enumerate(pairs):
        truth = condition() if callable(condition) else evaluator.one(condition, here, wide)
        taken = _asking(evaluator, tree, here, wide)
        if isinstance(truth, tuple) or hasattr(truth, "__array_namespace__"):

            def rest(later=pairs[number + 1 :]):
                return _first(evaluator, later, otherwise, here, wide)

            return evaluator.select(truth, taken, rest)
        if truth_of(truth):
            return taken()
    return otherwise()


@function("SWITCH", "tree", "tree", "tree", "tree?...")
def switched(evaluator, trees, here, wide):
    """The value beside the first that equals what is asked for, or the last one alone."""
    wanted = evaluator.one(trees[0], here, wide)
    rest = trees[1:]
    otherwise = _asking(evaluator, rest.pop(), here, wide) if len(rest) % 2 else _not_available

    def same_as(tree):
        return lambda: evaluator.run(OPERATORS["="], [wanted, evaluator.one(tree, here, wide)])

    pairs = [(same_as(tree), value) for tree, value in zip(rest[::2], rest[1::2], strict=True)]
    return _first(evaluator, pairs, otherwise, here, wide)


@function("CHOOSE", "tree", "tree", "tree?...")
def chosen(evaluator, trees, here, wide):
    """One of several by its number."""
    number = evaluator.run(FUNCTIONS["TRUNC"], [evaluator.one(trees[0], here, wide)])

    def is_at(place):
        return lambda: evaluator.run(OPERATORS["="], [number, float(place)])

    def beyond():
        raise CellError("#VALUE!")

    pairs = [(is_at(place), tree) for place, tree in enumerate(trees[1:], 1)]
    return _first(evaluator, pairs, beyond, here, wide)


# Truths


@function("TRUE")
def true():
    return True


@function("FALSE")
def false():
    return False


@function("NOT", "number", arrays=True)
def negation(x):
    return x == 0.0


def _truths(arguments):
    """The truths among arguments; texts and empty cells of a range are passed over."""
    found = []
    for value, inside in cells_of(arguments):
        if isinstance(value, CellError):
            raise value
        if inside and (value is None or isinstance(value, str)):
            continue
        if isinstance(value, str):
            raise CellError("#VALUE!")  # written into the formula
        found.append(number_of(value) != 0.0)
    if not found:
        raise CellError("#VALUE!")
    return found


@function("AND", "cells", "cells?...", arrays=True)
def conjunction(*arguments):
    result = True
    for truth in _truths(arguments):
        result = result & truth
    return result


@function("OR", "cells", "cells?...", arrays=True)
def disjunction(*arguments):
    result = False
    for truth in _truths(arguments):
        result = result | truth
    return result


@function("XOR", "cells", "cells?...", arrays=True)
def parity(*arguments):
    result = False
    for truth in _truths(arguments):
        result = result ^ truth
    return result
