"""What keeps targets from being met, in sentences."""

import numpy as np

from .least_movement import can_be_met
from .words import listed, number_text


def fights(problem, inputs, targets, outcome):
    """Which targets fight which, and which inputs are at a limit.

    outcome: the nearest that was found, with some target missed.
    """
    said = _between(problem, targets) if len(targets) > 1 else [_alone(targets[0])]
    # Results that are no numbers there are not held back by a limit.
    missed = np.abs(outcome.result - problem.targets) > problem.allowed
    for one, new in zip(inputs, outcome.x, strict=True):
        end = one.end_at(new)
        if end and missed.any():
            said.append(f"{one.words} is at its {end} limit.")
    return said


def _alone(target):
    number = number_text(target.number)
    return f"{target.words} was not seen to reach {number} within the limits."


def _between(problem, targets):
    """Those that cannot be met even alone; else those without which the rest can be."""
    numbers = np.arange(len(targets))
    relieving = [n for n in numbers if can_be_met(problem.without(n))]
    alone = []
    if not relieving or len(targets) == 2:
        alone = [n for n in numbers if not can_be_met(problem.only(numbers == n))]
    if alone:
        return [
            f"{targets[n].words} cannot come to {number_text(targets[n].number)} even alone."
            for n in alone
        ]
    if not relieving:
        return ["Each can be met alone; leaving out any one is not enough for the rest."]
    said = []
    for number in relieving:
        rest = [target.words for n, target in enumerate(targets) if n != number]
        said.append(
            f"{targets[number].words} fights the rest: without it, {listed(rest)} can be met."
        )
    return said
