"""Read templates, chapters and scenarios (TOML), and say in which line something is wrong."""

import difflib
import re
import sys
from pathlib import Path

from ..file.trouble import Trouble

if sys.version_info >= (3, 11):
    import tomllib
else:
    import tomli as tomllib

_HEADER = re.compile(r"^\s*\[\[\s*(sheet(?:\.block)?)\s*\]\]")


class PlacedTrouble(Trouble):
    """A `Trouble` whose text begins with the file, and the line where it is known."""


class TextFile:
    """A TOML file's content, with what is needed to speak of its lines.

    content: tables and arrays as `tomllib` gives them. Raises `Trouble` for a file that
    cannot be read or is no TOML.
    """

    def __init__(self, path):
        self.path = Path(path)
        self.name = self.path.name
        try:
            self.text = self.path.read_text(encoding="utf-8")
        except UnicodeDecodeError as error:
            raise Trouble(f"{path}: the file is no text (UTF-8 was expected)") from error
        except OSError as error:
            raise Trouble(f"{path} cannot be read: {error.strerror}") from error
        try:
            self.content = tomllib.loads(self.text)
        except tomllib.TOMLDecodeError as error:
            raise Trouble(f"{self.name}: {error}") from error

    def line_of(self, word, sheet=None, block=None, after=0):
        """The line that first speaks of a word, in a block of a sheet where given.

        A line that has it for a key, word = ..., goes before one that has it in a text;
        comments are passed over. The first line at all if the word is None. after: the number
        of a line to begin at.
        """
        lines = [line for line in self._lines(sheet, block) if line[0] >= after]
        if word is None:
            return lines[0][0] if lines else None
        whole = r"(?<![\w-])%s(?![\w-])" % re.escape(word)
        for wanted in (whole + r"\s*=", whole):
            for number, line in lines:
                if not line.lstrip().startswith("#") and re.search(wanted, line):
                    return number
        return None

    def _lines(self, sheet, block):
        """(number, line) of the file, of one of its sheets, or of a block of that."""
        at_sheet = at_block = -1
        for number, line in enumerate(self.text.splitlines(), 1):
            header = _HEADER.match(line)
            if header:
                if header.group(1) == "sheet":
                    at_sheet, at_block = at_sheet + 1, -1
                else:
                    at_block += 1
            if sheet in (None, at_sheet) and block in (None, at_block):
                yield number, line

    def head_trouble(self, message, key, item=None):
        """A `PlacedTrouble` at a key of the file's head, and an item of its list if given."""
        line = self.line_of(key) if key in self.content else 1
        if item is not None:
            line = self.line_of(f'"{item}"', after=line) or line
        return PlacedTrouble(f"{self.name}, line {line}: {message}")

    def trouble(self, message, word=None, sheet=None, block=None):
        """A `PlacedTrouble`: it names the file and, where the word is found, the line."""
        line = self.line_of(word, sheet, block)
        if line is None and word is not None:
            line = self.line_of(None, sheet, block)
        where = self.name if line is None else f"{self.name}, line {line}"
        return PlacedTrouble(f"{where}: {message}")


def nearest(word, known):
    """', did you mean ...' or the list of what is known."""
    near = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    if near:
        return f'did you mean "{near[0]}"?'
    return f"one of these was expected: {', '.join(known)}"


def kind_name(value):
    """A TOML value's kind in plain words."""
    if isinstance(value, bool):
        return "true or false"
    if isinstance(value, (int, float)):
        return "a number"
    if isinstance(value, str):
        return "a text"
    if isinstance(value, list):
        return "a list in square brackets"
    return "a table"
