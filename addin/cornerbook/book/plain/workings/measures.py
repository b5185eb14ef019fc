"""Measures of a corner at a pose, recorded as steps of a table with a row for each pose."""

from ..recorded.naming import named_steps
from ..recorded.said import number_said


class Measures:
    """Formulas of a corner, a travel and a rack in one table of poses, each recorded once.

    table: the `Table`. points: the block's `Points`. asked: the table's steps for the travel
    and rack of a row. corner: a function that gives the corner that a formula sees.
    """

    def __init__(self, table, points, asked, corner):
        self.table = table
        self.asked = asked
        self._points = points
        self._corner = corner
        self._recorded = {}

    def of(self, key, function):
        """(result, said) of a function of (corner, travel, rack); key: what makes two one."""
        if key not in self._recorded:
            self._recorded[key] = self._record(function)
        return self._recorded[key]

    def _record(self, function):
        recorder = self.table.recorder
        recorder.said = []
        self._points.forget_said()
        with named_steps():
            result = function(self._corner(), *self.asked)
        besides = self._points.said_besides(self.table)
        asked = [
            number_said(recorder, step, name)
            for step, name in zip(self.asked, ("travel", "rack"), strict=True)
        ]
        points = self._points.imported_said(self.table)
        said = recorder.first_said([*asked, points, *besides, *recorder.said])
        self.table.show(said, "What is wrong", "said")
        return result, said
