"""Read templates, chapters and scenarios (TOML), and say in which line something is wrong."""

import difflib
import math
import re
import sys
from pathlib import Path

from ...file.trouble import Trouble
from .lines import Lines
from .mistakes import PlacedTrouble

if sys.version_info >= (3, 11):
    import tomllib
else:
    import tomli as tomllib

LARGEST_FILE = 500_000
"""Bytes; ours have a fiftieth of it."""

LONGEST_LINE = 5000

DEEPEST = 12
"""How many tables and lists may stand in one another; ours go to 7."""

LARGEST_NUMBER = 1e9

LONGEST_TEXT = 8000

LONGEST_LIST = 2000

_AT = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")
_COMMA = re.compile(r"[=\[,]\s*([+-]?\d+),(\d+)\s*(?:#.*)?$")
_TWICE = re.compile(r"overwrite a value|declare .* twice|[Dd]uplicate|already exist|defined")
_KEY_OF_LINE = re.compile(r"^\s*(?:\[+\s*(.+?)\s*\]+|([^=#]+?)\s*=)")


class TextFile:
    """A TOML file's content, with what is needed to speak of its lines.

    content: tables and arrays as `tomllib` gives them. Raises `Trouble` for a file that
    cannot be read or is no TOML. text: what to take in place of what the file holds.
    """

    def __init__(self, path, text=None):
        self.path = Path(path)
        self.name = self.path.name
        self.text = text_in(self.path) if text is None else text
        self._lines: Lines | None = None
        self.content = self._parsed()

    # ---------------------------------------------------------------- reading

    def _parsed(self):
        try:
            content = tomllib.loads(self.text)
        except RecursionError as error:
            raise self._wrong(_DEEP, self._fullest()) from error
        except ValueError as error:
            raise self._no_toml(str(error)) from error
        if _depth(content) > DEEPEST:
            raise self._wrong(_DEEP, self._fullest())
        return content

    def _fullest(self):
        """The line with the most brackets and dots: the likeliest one of what is nested too far."""
        counts = [sum(map(line.count, "[{.")) for line in self.text.split("\n")]
        return counts.index(max(counts)) + 1

    def _no_toml(self, said):
        """A `Trouble` in our words for what the library says."""
        if "integer string" in said:
            longest = max(self.text.split("\n"), key=lambda line: sum(map(str.isdigit, line)))
            return self._wrong("a number has thousands of digits", self._number_of(longest))
        found = _AT.search(said)
        line = int(found.group(1)) if found and found.group(1) else self._last()
        text = self.text.split("\n")[line - 1]
        comma, named = _COMMA.search(text), _KEY_OF_LINE.match(text)
        if comma:
            said = f"a decimal is written with a point: {comma.group(1)}.{comma.group(2)}"
        elif _TWICE.search(said) and named:
            what, name = ("table", named.group(1)) if named.group(1) else ("key", named.group(2))
            said = f"the {what} {name} stands twice"
        else:
            said = "this is no TOML: " + _AT.sub("", said)
        return self._wrong(said, line)

    def _number_of(self, line):
        return self.text.split("\n").index(line) + 1

    def _last(self):
        return self.text.rstrip("\n").count("\n") + 1

    def _wrong(self, message, line=1):
        return _placed(self, message, line)

    # ---------------------------------------------------------------- speaking of lines

    @property
    def lines(self):
        """The `Lines` of the file."""
        if self._lines is None:
            self._lines = Lines(self.text, lambda key: next(iter(tomllib.loads(f"{key} = 0"))))
        return self._lines

    @property
    def is_empty(self):
        """Whether nothing but blanks and comments stands in it."""
        return not self.content

    def at(self, message, *path):
        """A `PlacedTrouble` at a path of the file, or at the nearest one around it."""
        return PlacedTrouble([(self.name, self.lines.of(path), message)])

    def line_of(self, word, sheet=None, block=None, after=0):
        """The line that first speaks of a word, in a block of a sheet where given.

        A line that has it for a key, word = ..., goes before one that has it in a text;
        comments are passed over. The first line at all if the word is None. after: the number
        of a line to begin at.
        """
        lines = [line for line in self._numbered(sheet, block) if line[0] >= after]
        if word is None:
            return lines[0][0] if lines else None
        whole = r"(?<![\w-])%s(?![\w-])" % re.escape(word)
        for wanted in (whole + r"\s*=", whole):
            for number, line in lines:
                if not line.lstrip().startswith("#") and re.search(wanted, line):
                    return number
        return None

    def _numbered(self, sheet, block):
        """(number, line) of the file, of one of its sheets, or of a block of that."""
        path = () if sheet is None else ("sheet", sheet)
        if block is not None:
            path = (*path, "block", block)
        first, last = self.lines.span(path)
        yield from list(enumerate(self.text.split("\n"), 1))[first - 1 : last]

    def head_trouble(self, message, key, item=None):
        """A `PlacedTrouble` at a key of the file's head, and an item of its list if given."""
        items = self.content.get(key)
        if isinstance(items, list) and item in items:
            return self.at(message, key, items.index(item))
        return self.at(message, key)

    def trouble(self, message, word=None, sheet=None, block=None):
        """A `PlacedTrouble` at the line of a word, or of the block where it is not found."""
        line = self.line_of(word, sheet, block) or self.line_of(None, sheet, block)
        return self._wrong(message, line)


def text_in(path):
    """The text of a file, its lines ended by "\\n" alone; raises `Trouble` where it has none."""
    path = Path(path)
    try:
        if path.is_dir():
            raise Trouble(f"{path} is a folder; a text file (.toml) was expected")
        with open(path, "rb") as opened:
            content = opened.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:
        said = getattr(error, "strerror", None) or str(error)
        raise Trouble(f"{path} cannot be read: {said}") from error
    if len(content) > LARGEST_FILE:
        raise _placed(
            path, f"the file has more than {LARGEST_FILE // 1000} kB; text of a few was expected"
        )
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise _placed(path, "the file is stored as UTF-16; store it as UTF-8")
    try:
        # Some editors put a mark before the text, which says no more than that it is UTF-8.
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        said = "there is a letter that is not UTF-8; store it as UTF-8"
        raise _placed(path, said, line) from error
    text = text.replace("\r\n", "\n")
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            raise _placed(path, f"the line has more than {LONGEST_LINE} letters", number)
    return text


def _placed(file, message, line=1):
    """A `PlacedTrouble` of a file, which has a name."""
    return PlacedTrouble([(file.name, line, message)])


_DEEP = f"tables and lists stand in one another more than {DEEPEST} deep"


def _depth(content):
    """How many tables and lists stand in one another, without nesting calls of its own."""
    deepest, level = 0, [content]
    while level and deepest <= DEEPEST:
        deepest += 1
        inside = []
        for each in level:
            values = each.values() if isinstance(each, dict) else each
            inside += [value for value in values if isinstance(value, (dict, list))]
        level = inside
    return deepest


# ---------------------------------------------------------------- words on values


def near(word, known, alike=0.6):
    """The known word that one resembles by so much, None where there is none."""
    found = difflib.get_close_matches(word, list(known), n=1, cutoff=alike)
    return found[0] if found else None


def nearest(word, known):
    """', did you mean ...' or the list of what is known."""
    found = near(word, known)
    if found is not None:
        return f'did you mean "{found}"?'
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
    return "a table" if isinstance(value, dict) else "a date or time"


_FOLLOWS = re.compile(r"=(?![A-Za-z]{1,3}[0-9]+\b)([A-Za-z_]\w*)(?: or ([+-]?\d+(?:\.\d+)?))?")


def follows(value):
    """(name, number or None) of a value such as "=DriverMass or 78"; None for any other.

    Its cell follows the cell of that name, or is the number in a workbook that has none.
    """
    found = _FOLLOWS.fullmatch(value) if isinstance(value, str) else None
    if found is None:
        return None
    return found.group(1), None if found.group(2) is None else float(found.group(2))


def number_wrong(value):
    """Why a value is no number to work with, in words that follow 'is'; None where it is one."""
    if isinstance(value, str):
        decimal = re.fullmatch(r"\s*([+-]?\d+)[,.](\d+)\s*", value)
        if decimal:
            return (
                f'the text "{value}"; a number was expected, with a decimal point and without '
                f"quotation marks: {decimal.group(1)}.{decimal.group(2)}"
            )
        return f'the text "{value}"; a number was expected'
    if kind_name(value) != "a number":
        return f"{kind_name(value)}; a number was expected"
    if not abs(value) <= LARGEST_NUMBER:
        return f"{number_said(value)}; a number up to {LARGEST_NUMBER:.0f} was expected"
    return None


def number_said(number):
    """A number as TOML gives it, however large, in a word or two."""
    if isinstance(number, float) and math.isnan(number):
        return "nan, not a number"
    if isinstance(number, float) and math.isinf(number):
        return "infinite"
    return f"{number:.6g}" if abs(number) < 1e300 else "far too large"


def text_wrong(text):
    """Why a text cannot stand on a sheet, in words that follow 'the text'; None where it can."""
    if len(text) > LONGEST_TEXT:
        return f"has {len(text)} letters; {LONGEST_TEXT} at most were expected"
    for letter in text:
        if (letter < " " and letter not in "\t\n") or letter in "\x7f\ufffe\uffff":
            return f"has the letter with the code {ord(letter)}, which cannot be shown"
    return None
