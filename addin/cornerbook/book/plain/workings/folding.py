"""Which recorded steps stand in a column of their own, and which are folded into others.

A formula that is not long may hold many steps, and a step that is short may be written again
wherever it is used. What is long and used more than once stands alone at first, as does what many
rows have in common; then one after another is folded into all that use it, that which makes the
text grow least for a cell first, as long as no formula becomes too long by it.
"""

import heapq

from .formula_text import constant_text

# A folded formula is kept about this short, in characters.
LONGEST = 515

# What makes the text grow by no more than this is done again wherever it is used.
LITTLE_GROWTH = 110

# So many characters more, all rows together, are worth a cell less.
MOST_GROWTH = 1000

# What a reference to another cell adds to a formula, in characters.
_REFERENCE = 6


class Folding:
    """The steps that stand alone.

    order: every step, parts before wholes. shown: the steps that stand alone in any case. rows: a
    function of a step that gives in how many rows of the table it differs; None for a table of one.
    `alone` is the outcome.
    """

    def __init__(self, order, shown, rows):
        self.alone = set(shown)
        self._shown = shown
        self._order = order
        self._lengths = {}
        self._rows = {step: rows(step) for step in order} if rows else dict.fromkeys(order, 1)
        self._stand_what_is_used()
        self._fold_what_is_short()

    # What stands alone at first

    def _stand_what_is_used(self):
        rows, lengths, alone = self._rows, self._lengths, self.alone
        uses = dict.fromkeys(self._order, 0)
        for step in self._order:
            # In how many cells a step is written, if it stands alone nowhere, for each of its own.
            mine = rows[step]
            for part in step.parts:
                uses[part] += mine
        inside = {}  # how long each step is in the formula of another
        for step in self._order:
            kind = step.kind
            if kind == "constant":
                lengths[step] = inside[step] = len(constant_text(step.what))
                continue
            if kind == "input":
                lengths[step] = inside[step] = _length_of_input(step)
                continue
            length = len(kind) + 2
            for part in step.parts:
                length += inside[part]
            if length > LONGEST:
                length = self._shortened(step, inside)
            lengths[step] = inside[step] = length
            more = uses[step] / rows[step]
            if step in alone:
                inside[step] = _REFERENCE
            elif more > 1 and more * (length - _REFERENCE) - length > LITTLE_GROWTH:
                alone.add(step)
                inside[step] = _REFERENCE

    def _shortened(self, step, inside):
        """How long a step's formula is, parts that would make it too long standing alone."""
        worked_out = [part for part in step.parts if part.parts]
        while True:
            length = len(step.kind) + 2 + sum(inside[part] for part in step.parts)
            longest = max(worked_out, key=inside.__getitem__, default=None)
            if length <= LONGEST or longest is None or inside[longest] <= _REFERENCE:
                return length
            self.alone.add(longest)
            inside[longest] = _REFERENCE

    # What is folded then

    def _fold_what_is_short(self):
        users = self._users()
        heap = [
            (self._growth(step, users[step]), number, step)
            for number, step in enumerate(self._order)
            if step in self.alone and step not in self._shown and users.get(step)
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

    def _users(self):
        """{a step alone: {a step alone: how often its formula refers to the first}}."""
        inner, users, alone = {}, {}, self.alone
        self._inner = inner
        for step in self._order:
            if not step.parts:
                continue
            found, own = {}, True
            for part in step.parts:
                if part in alone:
                    mine = {part: 1}
                elif part.parts:
                    mine = inner[part]
                else:
                    continue
                if not mine:
                    continue
                if not found:
                    # It may be that of a part until another one is added.
                    found, own = mine, part in alone
                    continue
                if not own:
                    found, own = dict(found), True
                for one, count in mine.items():
                    found[one] = found.get(one, 0) + count
            if step in alone:
                found = found if own else dict(found)
                for one, count in found.items():
                    users.setdefault(one, {})[step] = count
            inner[step] = found
        return users

    def _growth(self, step, users):
        """By how much the text grows for each cell less; without end if one becomes too long."""
        more, longer = 0, self._lengths[step] - _REFERENCE
        for user, count in users.items():
            if self._lengths[user] + count * longer > LONGEST:
                return float("inf")
            more += self._rows[user] * count * longer
        return more / self._rows[step] - self._lengths[step]

    def _fold(self, step, users):
        longer, inner = self._lengths[step] - _REFERENCE, self._inner
        self.alone.discard(step)
        mine = inner[step]
        for one in mine:
            del users[one][step]
        for user, count in users.pop(step).items():
            self._lengths[user] += count * longer
            theirs = inner[user]
            del theirs[step]
            for one, often in mine.items():
                theirs[one] = theirs.get(one, 0) + often * count
                users[one][user] = theirs[one]


def _length_of_input(step):
    """How long an input is in a formula: a reference to a cell, of another sheet as it stands."""
    table, key = step.what
    return len(table.direct[key][0]) if key in table.direct else _REFERENCE
