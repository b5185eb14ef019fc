"""Inputs that move nothing and results that nothing moves, found before any search."""

import numpy as np

from ...file.trouble import Trouble

TRIED = (1e-4, 1e-2, 0.2)
"""Steps, in scales of an input, in which it must move some result."""


def hold_moving(book, inputs, targets, before, problem):
    """Raise `Trouble` for an input that moves no result, or a result that none moves.

    before: the results as they are. A result that is at its target need not move.
    """
    wanted = [target.cell for target in targets]
    moving = np.zeros((len(targets), len(inputs)), bool)
    for number, one in enumerate(inputs):
        # Nothing reads what does not change a formula on the way to a result.
        if book.between([one.cell], wanted):
            moving[:, number] = _moved(number, inputs, before, problem)
    for number, one in enumerate(inputs):
        if not moving[:, number].any():
            raise Trouble(
                f"{one.words} moves none of the results; leave it out, or give another input"
            )
    for number, target in enumerate(targets):
        missed = abs(before[number] - target.number) > problem.allowed[number]
        if not moving[number].any() and missed:
            raise Trouble(f"{target.words} is moved by none of the inputs; give one that moves it")


def _moved(number, inputs, before, problem):
    """Which results move with one input, all others being as they are."""
    one = inputs[number]
    moved = np.zeros(len(before), bool)
    for step in TRIED:
        for sign in (1.0, -1.0):
            x = np.array([i.value for i in inputs])
            x[number] += sign * step * one.scale
            if one.low <= x[number] <= one.high:
                there = problem.function(x)
                # A result that is no number there is moved, too.
                moved |= ~(np.abs(there - before) <= 1e-11 * (1.0 + np.abs(before)))
    if not moved.any() and not one.low <= one.value <= one.high:
        moved[:] = True  # Its own number is outside its limits: not tried.
    return moved
