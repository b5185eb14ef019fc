"""Which recorded steps stand in a column of their own, and which are folded into others."""

from .formula_text import constant_text

# A folded formula is kept about this short, in characters.
LONGEST = 450

# A little work is done again where it is used; more than this, or often used, stands once.
MOST_WORK_TWICE = 20
MOST_WORK_OFTEN = 5

# What a reference to another cell adds to a formula, in characters.
_REFERENCE = 5


class Folding:
    """The steps that stand alone, and how long a formula each step makes with its parts in it.

    order: every step, parts before wholes. shown: the steps that stand alone in any case.
    `alone` is the outcome.
    """

    def __init__(self, order, shown):
        self.alone = set(shown)
        self._lengths = {}
        self._work = {}
        uses = dict.fromkeys(order, 0)
        for step in order:
            for part in step.parts:
                uses[part] += 1
        for step in order:
            self._fold(step)
            often, work = uses[step], self._work[step]
            if (
                step.parts
                and often > 1
                and work > (MOST_WORK_TWICE if often == 2 else MOST_WORK_OFTEN)
            ):
                self._let_stand(step)

    def _let_stand(self, step):
        self.alone.add(step)
        self._lengths[step], self._work[step] = _REFERENCE, 0

    def _fold(self, step):
        """Find a step's length and work; parts that make it too long stand alone."""
        parts, lengths = step.parts, self._lengths
        while True:
            length = len(step.kind) + 2
            for part in parts:
                length += lengths[part]
            if length <= LONGEST:
                break
            longest = max(parts, key=lengths.__getitem__)
            if lengths[longest] <= _REFERENCE or not longest.parts:
                break
            self._let_stand(longest)
        if step in self.alone or step.kind == "input":
            lengths[step], self._work[step] = _REFERENCE, 0
        elif step.kind == "constant":
            lengths[step], self._work[step] = len(constant_text(step.what)), 0
        else:
            work = 1
            for part in parts:
                work += self._work[part]
            lengths[step], self._work[step] = length, work
