"""Several inputs of a workbook changed so that several results come to their targets.

`solve` reads what is asked, finds the least movement (`least_movement.py`) and puts it into
the workbook; formulas that follow get their new values, so that every program shows them.
"""

import math

import numpy as np

from ....cells.mend import is_number
from ...file.trouble import Trouble
from ..point_cells import PointCells
from ..recalculate import Recalculation
from .doubts import is_refused, said_of_blocks
from .fights import fights
from .inputs import inputs_asked
from .least_movement import Problem
from .least_movement import solve as least_movement
from .moving import hold_moving
from .targets import numbers_now, targets_asked


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


class Task:
    """What is asked of a workbook, read and found good; nothing is searched for yet.

    path: a workbook, which is only read. change: input cells, each a name, "Sheet!B7" or a
    point such as "Front: upper ball joint x". make: "cell=value" texts. within:
    "cell=low..high" texts; either end may be left out. Raises `Trouble` for what cannot be
    asked.
    """

    def __init__(self, path, change, make, within=()):
        self._book = book = Recalculation.read(path)
        self._points = PointCells(book.package, book.cells)
        self._targets = targets_asked(book, make)
        self._inputs = inputs_asked(book, self._points, change, within)
        both = {i.cell for i in self._inputs} & {target.cell for target in self._targets}
        if both:
            raise Trouble(f"{book.said(both.pop())} is both an input and a target")
        function = book.function(
            [i.cell for i in self._inputs], [target.cell for target in self._targets]
        )
        self._before = numbers_now(function([i.value for i in self._inputs]), self._targets)
        self._problem = _problem(function, self._inputs, self._targets)
        hold_moving(book, self._inputs, self._targets, self._before, self._problem)

    def solve(self):
        """The `Solution`: the least movement that brings all results to their targets."""
        outcome = least_movement(self._problem)
        solution = Solution(self._inputs, self._targets, self._before, outcome)
        if not solution.met:
            solution.fights = fights(self._problem, self._inputs, self._targets, outcome)
            return solution
        self._write(solution)
        return solution

    def _write(self, solution):
        """Put the movement into the workbook, unless it makes a corner that CHECK refuses."""
        package, cells = self._book.package, [i.cell for i in solution.inputs]
        was = said_of_blocks(package, self._points, cells)
        changes = dict(zip(cells, solution.moved, strict=True))
        lost = self._book.write(changes)
        for name, said in said_of_blocks(package, self._points, cells).items():
            if said == was[name]:
                continue
            words = said.lstrip("# ").rstrip(".")
            if is_refused(said) and not is_refused(was[name]):
                solution.met = False
                solution.fights.append(
                    f"It takes a corner that the check refuses. {name}: {words}."
                )
            elif said != "ok":
                solution.messages.append(f"The check of {name} says: {words}.")
        if solution.met:
            solution.lost = [self._book.said(cell) for cell in lost]
            solution.messages = package.warnings() + self._book.values.doubts() + solution.messages
            solution.content = package.to_bytes()


def solve(path, change, make, within=()):
    """The `Solution` of a `Task`; see there for what each argument is."""
    return Task(path, change, make, within).solve()


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
