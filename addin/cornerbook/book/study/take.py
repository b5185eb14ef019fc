"""What was edited in a shared copy, typed into the workbook that it was made of."""

from ..file.package import Package
from ..file.trouble import Trouble, some_of
from ..file.words import words_of
from .recalculate import Recalculation, lost_said
from .solve.words import aligned, number_text
from .typed.yellow import unit_of, yellow_cells

_NAMED = 5
"""How many cells a sentence names."""

_LONGEST = 40
"""Characters of a text in a table."""


def take(path, copy, edits):
    """(the changed workbook as bytes, lines that say what was taken and what was not).

    path: the workbook, which is only read. copy: the `Package` of a shared copy of it; edits: its
    `Edit`s. A cell that was changed here since the copy was made stays as it is. Raises `Trouble`
    where nothing is taken, or the copy has another unit of length.
    """
    if not edits:
        raise Trouble("no yellow cell of the copy was edited since it was made; nothing was made")
    package = Package.read(path)
    here, there = (unit_of(one.where, yellow_cells(one)) for one in (package, copy))
    if here != there:
        raise Trouble(
            f"{copy.where} has its lengths in {there} and {path} in {here}, so it is no copy of it"
        )
    sorted_out = _Sorted(package, edits)
    if not sorted_out.taken:
        raise Trouble(" ".join(["nothing was taken, and nothing was made.", *sorted_out.said()]))
    lost = Recalculation(package).write({edit.cell: edit.now for edit in sorted_out.taken})
    rows = [("", "before", "now")]
    rows += [(edit.said, _text(edit.before), _text(edit.now)) for edit in sorted_out.taken]
    lines = [*aligned(rows), *package.warnings(), *sorted_out.said(), *lost_said(lost)]
    return package.to_bytes(), lines


class _Sorted:
    """Edits by what becomes of them.

    taken: what the workbook gets; already: what it holds anyway; changed: what was changed in it
    as well; without: what is no yellow cell of it, or another one.
    """

    def __init__(self, package, edits):
        self._package = package
        self._words = {}
        self.taken, self.already, self.changed, self.without = [], [], [], []
        for edit in edits:
            self._list_of(edit).append(edit)

    def _list_of(self, edit):
        if not self._is_there(edit):
            return self.without
        content = self._package.cells(edit.sheet).get(edit.address)
        follows = content is not None and content.formula is not None
        here = None if content is None or content.value == "" else content.value
        if not follows and edit.is_now(here):
            return self.already
        if follows == edit.followed and (follows or edit.was(here)):
            return self.taken
        return self.changed

    def _is_there(self, edit):
        """Whether the workbook has this yellow cell, with the same words beside and above it."""
        if edit.sheet not in self._package.sheets:
            return False
        if edit.sheet not in self._words:
            cells, inputs = self._package.cells(edit.sheet), self._package.inputs(edit.sheet)
            self._words[edit.sheet] = words_of(cells, inputs), frozenset(inputs)
        words, inputs = self._words[edit.sheet]
        return edit.address in inputs and words.of(*edit.place) == edit.what

    def said(self):
        """Sentences on what was not taken, and on what was taken another way."""
        for edits, what in (
            (self.already, "The workbook has these already"),
            (self.changed, "Changed in the workbook too since the copy was made, and left as they "
                           "are there"),
            (self.without, "The workbook has no such yellow cell, so left out"),
            ([e for e in self.taken if e.by_formula], "Taken as the value that the formula typed "
                                                      "there gives now"),
        ):  # fmt: skip
            if edits:
                named = [f"{edit.said}: {_text(edit.now)}" for edit in edits]
                yield f"{what}: {some_of(named, _NAMED)}."


def _text(value):
    if value is None:
        return "blank"
    if isinstance(value, float):
        return number_text(value)
    text = str(value)
    return text if len(text) <= _LONGEST else text[: _LONGEST - 3] + "..."
