"""The plain form of an ordinary formula: one value for a pose, a call, or a corner as drawn."""

from ....catalogue.corner.pose import GROUP as AT_A_POSE
from ..workings.spread import Spread
from .answer import Answer, AsDrawn
from .places import Place, Range
from .sorted_call import SortedCall


class OrdinaryForm:
    """Puts what ordinary formulas give into the table that their arguments ask for.

    workings: the `Workings`.
    """

    def __init__(self, workings):
        self._workings = workings

    def place(self, entry, given, missing=None):
        """The `Place` of a call's result, or the `Range` of a row of numbers.

        entry: the `Formula`. given: a `Given`, or None, by the name of the argument. missing:
        see `Answer`. Raises `Mend` where no edit of a number gives a result.
        """
        call, answer = SortedCall(entry, given), Answer(entry, missing)
        if call.is_as_drawn or (call.is_of_points_alone and not call.is_at_a_pose):
            table = self._workings.block(call.block).points.table
            return self._place(call, table, 0, self._as_drawn(call, answer))
        if call.is_at_a_pose:
            return self._at_a_pose(call, answer)
        holder = self._workings if call.block is None else self._workings.block(call.block)
        table = holder.calls(call)
        row = table.call_row(call.numbers())
        return self._place(call, table, row, answer.shown(table, *table.answer(entry, call.fixed)))

    def _as_drawn(self, call, answer):
        points = self._workings.block(call.block).points
        result, said = points.measure(call.pose_key, call.measure)
        return answer.shown(points.table, result, said)

    def _at_a_pose(self, call, answer):
        workings = self._workings.block(call.block)
        as_drawn = self._as_drawn(call, answer)
        pose = call.pose()
        # Measures of the pose itself stand in the poses' own table.
        if call.entry.group == AT_A_POSE:
            measures, table = workings.poses.measures, workings.poses.table
            result, said = measures.of(call.pose_key, call.measure)
            row = table.row(pose)
        else:
            table = workings.subject(call.entry.group)
            measures = table.measures
            result, said = measures.of(call.pose_key, call.measure)
            row = table.call_row(pose)
        drawn = AsDrawn(workings.points.table, as_drawn, measures.asked)
        return self._place(call, table, row, answer.shown(table, result, said, drawn))

    def _place(self, call, table, row, answer):
        """The place of an answer in a row; of several numbers, side by side in a `Spread`."""
        if not isinstance(answer, tuple):
            return Place(table, row, answer, call.guards)
        spreads = self._workings.spreads
        key = (id(table), row, tuple(map(id, answer)))
        if key not in spreads:
            spreads[key] = Spread(f"CORNER.{call.entry.name}", "xyz")
            spreads[key].add(Place(table, row, step).cell for step in answer)
        return Range(spreads[key], call.guards)
