"""The sheets that one text file describes, each with its blocks: checked whole."""

from .check import check_block, check_keys
from .declare import LIST, TEXT, TRUTH, needed

_SHEET = {
    "name": needed(TEXT), "widths": LIST, "block": needed(LIST), "landscape": TRUTH,
    "colour": TEXT,
}  # fmt: skip


class Sheets:
    """The sheets of a text file that holds [[sheet]] tables.

    file: a `TextFile`. sheets: its sheets in order, as tables of plain values. Raises `Trouble`
    with the line of a sheet or block that is not as it may be.
    """

    def __init__(self, file):
        self.file = file
        self.sheets = file.content["sheet"]
        for number, sheet in enumerate(self.sheets):
            self._check(sheet, number)

    def trouble(self, message, word, sheet=None, block=None):
        """A `Trouble` about a word of the file, in a sheet and block; these count from zero."""
        return self.file.trouble(message, word, sheet, block)

    def hold_promise(self, names, tables):
        """Nothing: sheets without a head promise no names, and may give any."""

    def _check(self, sheet, number):
        if not isinstance(sheet, dict):
            raise self.trouble("a sheet begins with [[sheet]]", "sheet")
        check_keys(sheet, _SHEET, "a sheet", lambda said, word: self.trouble(said, word, number))
        for place, block in enumerate(sheet["block"]):
            check_block(
                block, lambda said, word, place=place: self.trouble(said, word, number, place)
            )
