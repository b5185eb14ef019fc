"""Why a wish is not met: what of the others leaves its band where that one is met."""

from .corner import Task, judged
from .story import names_said
from .wishes import MEASURES


def unmet(found, wishes):
    """The names of the measures that are outside of their bands, those that come first first."""
    names = [n for n, ends in found.items() if not wishes[MEASURES[n].wish].is_met_by(*ends)]
    return sorted(names, key=lambda name: not MEASURES[name].first)


class Why:
    """Looks for what stands against wishes of one corner.

    task: the `Task` as it was solved; found: {measure: (least, most)} of the outcome; given: names
    of the rows of the linkage that were given.
    """

    def __init__(self, task, found, given):
        self.task = task
        here = judged(*task.points(task.first), task.wishes, task.settings)
        self.found = {name: ends for name, ends in found.items() if name in here}
        self.given = given
        self._failed = set(unmet(self.found, task.wishes))

    def of(self, name):
        """A sentence on what stands against a measure that is not met."""
        free = self._freed(name)
        if free is not None:
            return free
        there = self._outcome(self._again(urgent=(name,)))
        if name in there:
            alone = self._again(urgent=(name,), left_out=set(self.found) - {name})
            if name in self._outcome(alone, (name,)):
                return "Not reached even alone."
            return "Reached only where others are given up."
        fighting = [other for other in there if other not in self._failed]
        if not fighting:
            return "Others that are not met stand against it."
        return f"Met only where this leaves its band: {names_said(fighting)}."

    def _freed(self, name):
        """The row that is given without which the measure would be met."""
        for row in sorted(self.given):
            task = self._again(given=self.given - {row})
            if name not in self._outcome(task):
                return f'It fights the row "{row}" that is given: without that it can be met.'
        return None

    def _again(self, urgent=(), left_out=(), given=None):
        task = self.task
        return Task(
            task.start, self.given if given is None else given, task.lock, task.lock_moves,
            task.wishes, task.settings, {*task.left_out, *left_out}, urgent,
        )  # fmt: skip

    def _outcome(self, task, names=None):
        """The measures that are not met once a task is solved."""
        points, lock = task.points(task.solved())
        found = judged(points, lock, task.wishes, task.settings)
        return [n for n in unmet(found, task.wishes) if names is None or n in names]
