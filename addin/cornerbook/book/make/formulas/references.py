"""Which cells of a book a reference in a formula means."""

import re
from functools import lru_cache

from ...file.address import column_number
from ...file.trouble import Trouble
from ..texts.text_files import near

_CELL = re.compile(r"^\$?([A-Z]{1,3})\$?([1-9]\d{0,6})$", re.IGNORECASE)


class References:
    """The references of a `Book`, each read once."""

    def __init__(self, book):
        self._book = book
        self._names = {name.lower(): place for name, place in book.names.items()}
        self._read = {}

    def block(self, reference, sheet):
        """(sheet, top, left, bottom, right) of a name or of cells, as a formula on a sheet has it.

        Raises `Trouble` for what is neither.
        """
        key = reference, sheet.name
        if key not in self._read:
            self._read[key] = self._names.get(reference.lower()) or self._cells(reference, sheet)
        return self._read[key]

    def _cells(self, reference, sheet):
        cells = reference
        if "!" in reference:
            name, cells = reference.rsplit("!", 1)
            sheet = self._book.sheet(name.strip("'").replace("''", "'"))
        corners = [_place(end) for end in cells.split(":")]
        if len(corners) > 2 or None in corners:
            meant = near(reference, self._book.names)
            said = f'; did you mean "{meant}"?' if meant else ""
            raise Trouble(f"{reference} is neither a name nor cells{said}")
        return (sheet, *corners[0], *corners[-1])


@lru_cache(maxsize=16384)
def _place(cell):
    """(row, column) of a cell such as $B$7; None for what is none."""
    found = _CELL.match(cell)
    return None if found is None else (int(found[2]) - 1, column_number(found[1]))
