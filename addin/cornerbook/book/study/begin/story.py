"""Where each number of a completed scenario comes from, and which wishes are not met and why."""

import functools

from ...make.texts import units
from ..solve.words import listed, number_text
from .wishes import INFINITE, MEASURES

GIVEN, PROPORTION, SOLVED = "given", "in proportion", "solved"


class Story:
    """What became of each number.

    sources: {key with dots: text} of every number that was not given, and of those that were
    beside them; the rows of a corner count as keys. unmet: lines on wishes that are not met and
    what stands against them.
    """

    def __init__(self):
        self.sources = {}
        self._told = []
        self._ask = list

    def ask(self, what):
        """Have the lines of `unmet` from a function."""
        self._ask = what

    @functools.cached_property
    def unmet(self):
        """See the class."""
        return self._ask()

    def tell(self, key, how, text, value):
        """Note where a number, or the numbers of a row, a band or a table, come from."""
        self.sources[key] = text
        self._told.append((key, how, numbers_in(value)))

    def counts(self, shown=lambda key: True):
        """{GIVEN, PROPORTION, SOLVED: how many numbers}. shown: whether those of a key count."""
        counts = dict.fromkeys((GIVEN, PROPORTION, SOLVED), 0)
        for key, how, numbers in self._told:
            counts[how] += numbers if shown(key) else 0
        return counts

    def report(self, shown, looks=()):
        """Lines for whoever asked; none where all that the workbook shows was given.

        shown: whether the workbook shows the numbers of a key. looks: (sheet, row's name) of
        verdicts that ask for a look.
        """
        given, proportion, solved = self.counts(shown).values()
        if not proportion and not solved:
            return []
        lines = [f"Numbers: {given} given, {proportion} in proportion, {solved} solved. The "
                 "workbook says which, beside each or below the block."]  # fmt: skip
        if self.unmet:
            lines += ["Wishes for the front corner that are not met, or not quite:", *self.unmet]
        elif solved:
            lines.append("All wishes for the front corner are met.")
        if looks:
            named = listed([f"{row} ({sheet})" for sheet, row in looks])
            lines.append(f'The sheets say "look here" of: {named}.')
        return lines


def numbers_in(value):
    """How many numbers a value of a scenario holds."""
    if isinstance(value, dict):
        return sum(map(numbers_in, value.values()))
    if isinstance(value, list):
        return sum(map(numbers_in, value))
    return 0 if isinstance(value, (str, bool)) else 1


def measured_words(name, ends, wish, unit):
    """What a measure comes to and what was wanted of it, as a sentence without its full stop."""
    kind = MEASURES[name].kind
    symbol = units.unit_of(kind, unit)
    shown = " ".join(filter(None, [_range(*(_said(end, kind, unit) for end in ends)), symbol]))
    wanted = _wanted(wish, kind, unit)
    words = MEASURES[name].words
    if ends[0] != ends[0]:
        return f"{_capital(words)}: the linkage does not reach its travel and full lock"
    return f"{_capital(words)}: {shown}, wanted {wanted}"


def aimed_words(name, value, wish, unit):
    """What a measure comes to beside its aim, as a sentence without its full stop."""
    kind, words = MEASURES[name].kind, MEASURES[name].words
    shown = " ".join(filter(None, [_said(value, kind, unit), units.unit_of(kind, unit)]))
    return f"{_capital(words)}: {shown}, aimed at {_said(wish.aim, kind, unit)}; within its band"


def names_said(names, last="and"):
    """Measures in a row. last: the word before the last one."""
    words = [MEASURES[name].words for name in names]
    return listed(words) if last == "and" else f" {last} ".join(words)


def _said(value, kind, unit):
    digits = {"angle per length": 2, "ratio": 3}.get(kind, 4)
    return number_text(float(f"{units.converted(value, kind, 'mm', unit):.{digits}g}"))


def _wanted(wish, kind, unit):
    """A band in words; an end that is no limit is left out."""
    if wish.low == -INFINITE:
        return f"{_said(wish.high, kind, unit)} or less"
    if wish.high == INFINITE:
        return f"{_said(wish.low, kind, unit)} or more"
    return _range(_said(wish.low, kind, unit), _said(wish.high, kind, unit))


def _range(low, high):
    return low if low == high else f"{low} to {high}"


def _capital(words):
    return words[:1].upper() + words[1:]
