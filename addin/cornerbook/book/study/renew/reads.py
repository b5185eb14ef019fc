"""What a user's own sheets read of ours, in the old workbook and in the new one."""

from ...file.address import cell_name
from ...file.trouble import Trouble
from ...file.words import words_of
from ...formula.parse import nodes, parse
from ...make.texts.units import SYMBOLS

GONE, MOVED, ELSEWHERE = "gone", "moved", "elsewhere"
"""What may have become of a cell that is read: there is no such sheet or name now, another cell
stands in its place, or it is in another workbook."""


class Reads:
    """Compares what formulas mean in two workbooks.

    old, new: the `Package`s, the new one with the user's own sheets. own: their names.
    """

    def __init__(self, old, new, own):
        self._old = old
        self._new = new
        self._own = {name.lower() for name in own}
        self._there = {name.lower(): name for name in new.sheets}
        self._names = {name.lower() for name, _, _ in new.names}
        self._words = {}

    def lost(self, formula, sheet, address="A1"):
        """[(a reference, what became of it)] of those of a formula that mean something else now.

        sheet, address: where it stands.
        """
        try:
            references = [node[1] for node in nodes(parse(formula)) if node[0] == "reference"]
        except Trouble:
            return [(formula, ELSEWHERE)] if "[" in formula else []
        found = ((each, self._lost(each, sheet, address)) for each in dict.fromkeys(references))
        return [(each, what) for each, what in found if what]

    def _lost(self, reference, sheet, address):
        if "[" in reference.partition("!")[0] and "!" in reference:
            return ELSEWHERE
        if "!" not in reference and self._is_name(reference):
            return None if reference.lower() in self._names else GONE
        try:
            place = self._old.resolve(reference, sheet, address)
        except Trouble:
            return None  # it had no meaning before
        name, top, left, bottom, right = place
        if name.lower() in self._own:
            return None
        if name.lower() not in self._there:
            return GONE
        corners = ((top, left), (bottom, right))
        same = all(self._said(self._old, name, *at) == self._said(self._new, name, *at)
                   for at in corners)  # fmt: skip
        return None if same else MOVED

    def _is_name(self, reference):
        return any(name.lower() == reference.lower() for name, _, _ in self._old.names)

    def _said(self, package, name, row, column):
        """What a cell is called: the texts left of it and above it, and its own."""
        if package is self._new:
            name = self._there[name.lower()]
        key = (package is self._new, name.lower())
        if key not in self._words:
            cells = package.cells(name)
            self._words[key] = words_of(cells, package.inputs(name), SYMBOLS), cells
        words, cells = self._words[key]
        content = cells.get(cell_name(row, column))
        is_text = content is not None and content.formula is None
        own = content.value if is_text and isinstance(content.value, str) else None
        return words.left_of(row, column), words.above(row, column), own
