"""Which recorded steps stand in a column of their own, and which are folded into others.

A formula that is not long may hold many steps, and a step that is short may be written again
wherever it is used. What is long and used more than once stands alone at first, as does what many
rows have in common; then one after another is folded into all that use it, that which makes the
text grow least for a cell first, as long as no formula becomes too long by it.
"""

import heapq

from ..recorded import words
from ..recorded.words import IN_WORDS
from .formula_text import constant_text

# A folded formula is kept about this short, in characters.
LONGEST = 515

# What makes the text grow by no more than this is done again wherever it is used.
LITTLE_GROWTH = 110

# So many characters more, all rows together, are worth a cell less.
MOST_GROWTH = 1000

# What a reference to another cell adds to a formula, in characters.
REFERENCE = 6


class Folding:
    """The steps that stand alone.

    order: every step, parts before wholes. shown: the steps that stand alone in any case. rows: a
    function of a step that gives in how many rows of the table it differs; None for a table of one.
    `alone` is the outcome.
    """

    def __init__(self, order, shown, rows):
        self.alone = set(shown)
        self._order = order
        self._rows = {step: rows(step) for step in order} if rows else dict.fromkeys(order, 1)
        self._lengths = {}  # of the formula of each step that stands alone, or has
        self._inner = {}  # {a step alone: {a step that may be folded: how often it refers to it}}
        self._stand_what_is_used()
        self._fold_what_is_short(self.alone.difference(shown))

    # What stands alone at first

    def _stand_what_is_used(self):
        rows, alone, uses = self._rows, self.alone, self._uses()
        inside = {}  # how long each step is in the formula of another
        for step in self._order:
            kind = step.kind
            if kind == "constant":
                inside[step] = len(constant_text(step.what))
                continue
            if kind == "input":
                table, key = step.what
                inside[step] = table.length_of(key)
                continue
            length = _length(step, inside)
            if length > LONGEST:
                length = self._shortened(step, inside)
            if step not in alone:
                used, mine = uses[step], rows[step]
                if used <= mine or used / mine * (length - REFERENCE) - length <= LITTLE_GROWTH:
                    inside[step] = length
                    continue
            self._stand(step, length)
            inside[step] = REFERENCE

    def _uses(self):
        """In how many cells each step is written, if none stands alone."""
        uses = dict.fromkeys(self._order, 0)
        for step, mine in self._rows.items():
            if step.kind == IN_WORDS:
                mine *= words.uses(step)
            for part in step.parts:
                uses[part] += mine
        return uses

    def _shortened(self, step, inside):
        """How long a step's formula is, parts that would make it too long standing alone."""
        worked_out = [part for part in step.parts if part.parts]
        while True:
            length = _length(step, inside)
            longest = max(worked_out, key=inside.__getitem__, default=None)
            if length <= LONGEST or longest is None or inside[longest] <= REFERENCE:
                return length
            self._stand(longest, inside[longest])
            inside[longest] = REFERENCE

    def _stand(self, step, length):
        self.alone.add(step)
        self._lengths[step] = length

    # What is folded then

    def _fold_what_is_short(self, foldable):
        users = self._users(foldable)
        heap = [
            (self._growth(step, users[step]), number, step)
            for number, step in enumerate(self._order)
            if step in users
        ]
        heapq.heapify(heap)
        while heap:
            known, number, step = heapq.heappop(heap)
            now = self._growth(step, users[step])
            if now > known:
                if now <= MOST_GROWTH:
                    heapq.heappush(heap, (now, number, step))
            elif now <= MOST_GROWTH:
                self._fold(step, users)

    def _users(self, foldable):
        """{a step that may be folded: {a step alone: how often its formula refers to the first}}.

        What another's formula refers to by a step, {step: how often}, is known for the step, or
        there is nothing. It may be that of its part, and is copied before more is added.
        """
        users, alone, refers = {}, self.alone, {}
        for step in self._order:
            found, is_own = None, False
            for part in step.parts:
                theirs = refers.get(part)
                if theirs is None:
                    continue
                if found is None:
                    found = theirs
                    continue
                if not is_own:
                    found, is_own = dict(found), True
                for one, count in theirs.items():
                    found[one] = found.get(one, 0) + count
            if found is not None and step.kind == IN_WORDS:
                found = {one: count * words.times(step) for one, count in found.items()}
                is_own = True
            if step not in alone:
                if found is not None:
                    refers[step] = found
                continue
            if found is not None:
                self._inner[step] = found = found if is_own else dict(found)
                for one, count in found.items():
                    users.setdefault(one, {})[step] = count
            if step in foldable:
                refers[step] = {step: 1}
        return users

    def _growth(self, step, users):
        """By how much the text grows for each cell less; without end if one becomes too long."""
        more, longer = 0, self._lengths[step] - REFERENCE
        for user, count in users.items():
            if self._lengths[user] + count * longer > LONGEST:
                return float("inf")
            more += self._rows[user] * count * longer
        return more / self._rows[step] - self._lengths[step]

    def _fold(self, step, users):
        longer, inner = self._lengths[step] - REFERENCE, self._inner
        self.alone.discard(step)
        mine = inner.get(step, {})
        for one in mine:
            del users[one][step]
        for user, count in users.pop(step).items():
            self._lengths[user] += count * longer
            theirs = inner[user]
            del theirs[step]
            for one, often in mine.items():
                theirs[one] = theirs.get(one, 0) + often * count
                users[one][user] = theirs[one]


def _length(step, inside):
    """How long a step's formula is. inside: how long its parts are in it."""
    kind, parts = step.kind, step.parts
    if len(parts) == 2 and kind != IN_WORDS:
        return len(kind) + 2 + inside[parts[0]] + inside[parts[1]]
    if kind == IN_WORDS:
        return words.length(step, inside[parts[0]])
    return len(kind) + 2 + sum([inside[part] for part in parts])
