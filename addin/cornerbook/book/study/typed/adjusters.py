"""A table of adjusters, read back."""

from ...file.address import cell_name

NAME, MOVES = "Adjuster", "what it moves"
"""Headings of a table of adjusters."""

_FORMER = (
    (0, "name", "text"), (1, "moves", "text"), (2, 0, "length"), (3, 1, "length"), (4, 2, "length"),
)  # fmt: skip
"""(column, what it is of an adjuster, kind) of the cells that every such table has."""

_MORE = (
    (6, "least", "count"), (7, "most", "count"), (8, "side", "text"), (9, "step", "text"),
    (10, "plus", "text"), (11, "minus", "text"),
)  # fmt: skip
"""The same of those that have had them since an adjuster has steps and limits."""

_WORDS = ("step", "plus", "minus")


class Adjusters:
    """Reads tables of adjusters. cells: all `Yellow`s; holding: the `Holding`; taken: the `Taken`
    to which they go."""

    def __init__(self, cells, holding, taken):
        self._cells = cells
        self._by_cell = {yellow.cell: yellow for yellow in cells}
        self._holding = holding
        self._taken = taken

    def take(self, sheet, key):
        """Take the rows of a sheet's tables; the `Yellow`s of them. key: a path."""
        used = []
        for yellow in self._cells:
            if yellow.heading != NAME or yellow.sheet.lower() != sheet.lower():
                continue
            row = self._row(yellow, _FORMER)
            if None in row.values() or row["moves"].heading != MOVES:
                continue
            more = self._row(yellow, _MORE)
            if None not in more.values():
                row.update(more)
            used += row.values()
            if not used[: -len(row)]:
                # Even where no row is left, a scenario says that there are none.
                self._taken.values.setdefault(tuple(key), {})
            self._one(row, key)
        return used

    def _row(self, first, columns):
        return {
            what: self._by_cell.get((first.sheet, cell_name(first.row, first.column + column)))
            for column, what, _ in columns
        }

    def _one(self, row, key):
        kinds = {what: kind for _, what, kind in (*_FORMER, *_MORE)}
        held = {what: self._holding.held(yellow, kinds[what]) for what, yellow in row.items()}
        if all(each.value is None and not each.wrong for each in held.values()):
            return
        wrong = [(row[what], each.wrong) for what, each in held.items() if each.wrong]
        needed = [what for _, what, _ in _FORMER]
        blank = [row[w] for w in (*needed, "least", "most") if w in held and held[w].value is None
                 and not held[w].wrong]  # fmt: skip
        self._taken.wrong += wrong
        self._taken.blank += blank
        said = {what: each.value for what, each in held.items()}
        if any(said[what] is None for what in needed):
            return
        path = (*key, said["name"])
        if path in self._taken.values:
            self._taken.wrong.append((row["name"], "is the name of another adjuster, too"))
            return
        found = {"moves": said["moves"], "turn": [said[axis] for axis in range(3)]}
        for what in ("least", "most", "side"):
            if said.get(what) is not None:
                found[what] = said[what]
            if isinstance(said.get(what), float) and said[what].is_integer():
                found[what] = int(said[what])
        for what in _WORDS:
            if what in said:
                found[what] = said[what] or ""
        self._taken.values[path] = found
        self._taken.values.pop(tuple(key), None)
