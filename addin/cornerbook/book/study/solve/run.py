"""Several inputs of a workbook changed so that several results come to their targets.

`solve` reads what is asked, finds the least movement (`least_movement.py`) and puts it into
the workbook; formulas that follow get their new values, so that every program shows them.
"""

import math

import numpy as np

from ...file.trouble import Trouble
from ..recalculate import Recalculation
from .fights import fights
from .inputs import inputs_asked
from .least_movement import Problem
from .least_movement import solve as least_movement
from .moving import hold_moving
from .targets import is_number, numbers_now, targets_asked


class Solution:
    """What was found.

    inputs: `Input`s; targets: `Target`s; before, after: results; moved: the
    inputs' new numbers; met: whether every result is at its target; fights: sentences on why
    not; lost: cells that could not be worked out; content: the new file as bytes, or None.
    """

    def __init__(self, inputs, targets, before, outcome):
        self.inputs = inputs
        self.targets = targets
        self.before = before
        self.after = list(outcome.result)
        self.moved = [float(x) for x in outcome.x]
        self.met = outcome.met
        self.fights = []
        self.lost = []
        self.messages = []
        self.content = None


def solve(path, change, make, within=()):
    """Find the least movement of input cells that brings results to their targets.

    path: a workbook, which is only read. change: input cells, each a name or "Sheet!B7".
    make: "cell=value" texts. within: "cell=low..high" texts; either end may be left out.
    Returns a `Solution`; raises `Trouble` for what cannot be asked.
    """
    book = Recalculation.read(path)
    targets = targets_asked(book, make)
    inputs = inputs_asked(book, change, within)
    both = {i.cell for i in inputs} & {target.cell for target in targets}
    if both:
        raise Trouble(f"{book.said(both.pop())} is both an input and a target")
    function = book.function([i.cell for i in inputs], [target.cell for target in targets])
    before = numbers_now(function([i.value for i in inputs]), targets)
    problem = _problem(function, inputs, targets)
    hold_moving(book, inputs, targets, before, problem)
    outcome = least_movement(problem)
    solution = Solution(inputs, targets, before, outcome)
    if not solution.met:
        solution.fights = fights(problem, inputs, targets, outcome)
        return solution
    changes = {i.cell: new for i, new in zip(inputs, solution.moved, strict=True)}
    solution.lost = [book.said(cell) for cell in book.write(changes)]
    solution.messages = book.package.warnings()
    solution.content = book.package.to_bytes()
    return solution


def _problem(function, inputs, targets):
    """The task without the workbook. function: from the inputs' numbers to cells' values."""

    def results(x):
        values = function([float(v) for v in x])
        return np.array([float(v) if is_number(v) else math.nan for v in values])

    return Problem(
        results,
        [i.value for i in inputs], [i.low for i in inputs], [i.high for i in inputs],
        [i.scale for i in inputs], [target.number for target in targets],
    )  # fmt: skip
