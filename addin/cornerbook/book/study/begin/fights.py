"""Why a wish is not met: what of the others leaves its band where that one is met."""

from . import least
from .corner import judged
from .story import names_said
from .wishes import MEASURES, missed

_AT_AN_END = 0.1
"""What part of a band's width from its end a result counts as held there."""

_MOST = 6
"""So many others are left out on trial, one after the other."""

TRIALS = 14
"""So many corners are solved on trial for all the sentences of one car: a second or so."""

EVALUATIONS = 60


class _Spent(Exception):
    """No more trials."""


def unmet(found, wishes):
    """The names of the measures that are outside of their bands, those that come first first."""
    return sorted(missed(found, wishes), key=lambda name: not MEASURES[name].first)


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
        self._left = TRIALS

    def of(self, name):
        """A sentence on what stands against a measure that is not met."""
        try:
            return self._of(name)
        except _Spent:
            return "What stands against it was not looked for any further."

    def _of(self, name):
        free = self._freed(name)
        if free is not None:
            return free
        # What is met already is asked for still, and this one most of all.
        met = dict.fromkeys(self.task.counts, least.BAND)
        there = self._outcome(self.task.changed(counts={**met, name: least.URGENT}))
        if name in there:
            others = set(self.found) - {name}
            alone = self.task.changed(left_out=others, counts={name: least.URGENT})
            if name in self._outcome(alone, (name,)):
                return "Not reached even alone."
            return self._against(name, met)
        if not there:
            return "It can be met with all others, which was not found at first."
        return f"Met only where this is not: {names_said(there)}."

    def _against(self, name, met):
        """The wishes without any one of which the measure would be met; met: what others count."""
        found = []
        for other in self._at_an_end(name):
            counts = {**met, name: least.URGENT}
            if name not in self._outcome(self.task.changed(left_out={other}, counts=counts)):
                found.append(other)
        if found:
            return f"It fights {names_said(found, 'or')}: without that it can be met."
        return "Reached only where several others are given up."

    def _at_an_end(self, name):
        """Other measures that are at an end of their band, the nearest first, or beyond it."""
        room = {}
        for other, (low, high) in self.found.items():
            wish = self.task.wishes[MEASURES[other].wish]
            asked = MEASURES[other].first or other in self.task.counts
            if other != name and asked and low == low:
                room[other] = min(low - wish.low, wish.high - high) / wish.width
        nearest = sorted(room, key=room.get)
        return [other for other in nearest if room[other] < _AT_AN_END][:_MOST]

    def _freed(self, name):
        """A sentence on what is given without which the measure would be met, None for nothing."""
        for row in sorted(self.given):
            task = self.task.changed(given=self.given - {row})
            if name not in self._outcome(task):
                return f'It fights the row "{row}" that is given: without that it can be met.'
        if not self.task.lock_moves and name not in self._outcome(
            self.task.changed(lock_moves=True)
        ):
            return (
                "It fights the rack's way to full lock that is given: without that it can be met."
            )
        return None

    def _outcome(self, task, names=None):
        """The measures that are not met once a task is solved."""
        if not self._left:
            raise _Spent
        self._left -= 1
        points, lock = task.points(task.solved(EVALUATIONS))
        found = judged(points, lock, task.wishes, task.settings)
        return [n for n in unmet(found, task.wishes) if names is None or n in names]
