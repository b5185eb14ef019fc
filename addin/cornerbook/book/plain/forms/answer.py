"""What the cell of a formula shows, in recorded steps: its result, or what is wrong."""

from typing import Any, NamedTuple


class AsDrawn(NamedTuple):
    """The answer as drawn, which stands for no travel and no rack of a table of poses.

    points: the points' `Table`. answer: its step there, or a tuple of them. asked: the steps
    for travel and rack of the table of poses. It needs fewer rows of the block than a pose.
    """

    points: Any
    answer: Any
    asked: tuple

    def part(self, place):
        """The same for one number of several."""
        return self._replace(answer=self.answer[place])


class Answer:
    """What a formula shows, as steps of a table.

    entry: the `Formula`. missing: what is shown where the linkage does not reach; None for
    the formula's own sentence.
    """

    def __init__(self, entry, missing=None):
        self._entry = entry
        self._missing = missing

    def shown(self, table, result, said, drawn=None):
        """The step that shows a result or what is said; a tuple of them for several numbers.

        result: a step, or ((step, ...),) for a row of numbers. said: a step that is a sentence
        where an input is wrong, else an empty text. drawn: for a table of poses, `AsDrawn`.
        """
        if isinstance(result, tuple):
            return tuple(
                self.shown(table, part, said, drawn and drawn.part(place))
                for place, part in enumerate(result[0])
            )
        recorder = table.recorder
        step = recorder.where(recorder.make("=", said, ""), self._good(recorder, result), said)
        if drawn is not None:
            travel, rack = drawn.asked
            as_drawn = table.import_step(drawn.points, drawn.answer)
            still = recorder.where(recorder.make("=", rack, 0.0), as_drawn, step)
            step = recorder.where(recorder.make("=", travel, 0.0), still, step)
        name = self._entry.name
        return table.show(step, "Results", name if self._missing is None else f"{name} or #N/A")

    def _good(self, recorder, result):
        """What is shown while nothing is wrong with the inputs."""
        if self._entry.shape == "text":
            return recorder.step(result)
        beyond = self._missing
        if beyond is None:
            beyond = recorder.sentence(self._entry.beyond)
        return recorder.where(recorder.make("ISNUMBER", result), result, beyond)
