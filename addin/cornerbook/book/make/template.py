"""A template: which sheets, and which blocks stand on each, as text that anyone can edit.

A template is checked whole before anything is built from it.
"""

from .check import check_block, check_keys
from .declare import LIST, TEXT, TRUTH, needed
from .text_files import TextFile

_SHEET = {
    "name": needed(TEXT), "widths": LIST, "block": needed(LIST), "landscape": TRUTH,
    "colour": TEXT,
}  # fmt: skip
_TOP = {"title": needed(TEXT), "sheet": needed(LIST), "about": TEXT}


class Template:
    """A checked template. `sheets`: its sheets in order, as tables of plain values."""

    def __init__(self, path):
        self.file = TextFile(path)
        content = self.file.content
        check_keys(content, _TOP, "the template", self.file.trouble)
        self.title = content["title"]
        self.sheets = content["sheet"]
        for number, sheet in enumerate(self.sheets):
            self._sheet(sheet, number)

    def trouble(self, message, word, sheet, block):
        """A `Trouble` about a word in a block; numbers count from zero."""
        return self.file.trouble(message, word, sheet, block)

    def _sheet(self, sheet, number):
        if not isinstance(sheet, dict):
            raise self.file.trouble("a sheet begins with [[sheet]]", "sheet")
        check_keys(
            sheet, _SHEET, "a sheet", lambda said, word: self.trouble(said, word, number, None)
        )
        for place, block in enumerate(sheet["block"]):
            check_block(
                block, lambda said, word, place=place: self.trouble(said, word, number, place)
            )
