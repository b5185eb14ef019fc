"""The sheets that one text file describes, each with its blocks: checked whole."""

from ..sheet.declare import LIST, NUMBER, TEXT, TRUTH, list_of, needed
from ..sheet.groups import GROUPS
from ..texts.mistakes import Mistakes
from ..texts.wish import keys_of_wish
from .check import wrong_block, wrong_keys

LONGEST_NAME = 31

_NAME = TEXT.but(
    form=(
        r"(?!')[^\[\]:*?/\\\n\t]{1,%d}(?<!')" % LONGEST_NAME,
        f"a name of at most {LONGEST_NAME} letters without any of [ ] : * ? / \\ and with no ' "
        "at its ends",
    )
)

_SHEET = {
    "name": needed(_NAME), "widths": list_of(NUMBER.but(least=1, most=200)), "block": needed(LIST),
    "about": TEXT, "group": TEXT.but(among=tuple(GROUPS)),
    "paper": TRUTH,
    "colour": TEXT.but(form=("#[0-9A-Fa-f]{6}", "a colour such as #2F4B66")),
}  # fmt: skip

MOST_COLUMNS = 100

_NAMING = ("from", "across_of", "up_of")
"""The keys by which a block, or a row of it, names a key of the scenario."""

_WISHING = ("band", "wish")
"""The same of a wish, which a scenario may give in one of two tables."""


class Sheets:
    """The sheets of a text file that holds [[sheet]] tables.

    file: a `TextFile`. sheets: its sheets in order, as tables of plain values. left_out: (sheet,),
    (sheet, block) and (sheet, block, row) of those with a mistake, by their numbers from zero.
    keys: the keys of a scenario that its blocks name.
    mistakes: the `Mistakes` to which those found are added; they are raised if it is None.
    """

    about = ""
    group = None

    def __init__(self, file, mistakes=None):
        self.file = file
        self.sheets = file.content.get("sheet", [])
        self.left_out = set()
        self.keys = frozenset(keys_named(file.content))
        found = Mistakes() if mistakes is None else mistakes
        if not isinstance(self.sheets, list):
            self.sheets = []
        for number, sheet in enumerate(self.sheets):
            self._check(sheet, number, found)
        if mistakes is None:
            found.hold()

    def trouble(self, message, word, sheet=None, block=None):
        """A `Trouble` about a word of the file, in a sheet and block; these count from zero."""
        return self.file.trouble(message, word, sheet, block)

    @property
    def said(self):
        """What it is called in a sentence."""
        return "the template"

    def hold_promise(self, names, tables):
        """Nothing: sheets without a head promise no names, and may give any."""

    def _check(self, sheet, number, mistakes):
        path = ("sheet", number)
        if not isinstance(sheet, dict):
            mistakes.take(self.file.at("a sheet begins with [[sheet]]", *path))
            self.left_out.add((number,))
            return
        for where, said in _wrong_sheet(sheet, path):
            mistakes.take(self.file.at(said, *where))
            self.left_out.add((number,))
        blocks = sheet.get("block")
        for at, block in enumerate(blocks if isinstance(blocks, list) else ()):
            for where, said in wrong_block(block, (*path, "block", at)):
                mistakes.take(self.file.at(said, *where))
                # Of a row with a mistake the block can do without, to show those of the others.
                row = where[5:6] if where[4:5] == ("rows",) else ()
                self.left_out.add((number, at, *row))


def _wrong_sheet(sheet, path):
    found = list(wrong_keys(sheet, _SHEET, "a sheet", path))
    yield from found
    if not found and len(sheet.get("widths", ())) > MOST_COLUMNS:
        yield (*path, "widths"), f"a sheet has at most {MOST_COLUMNS} columns with widths"
    if not found and sheet["name"].lower() == "history":
        yield (*path, "name"), "Excel keeps the name History for itself"


def keys_named(content):
    """The keys of a scenario that the blocks of a text file name, whatever else is wrong in it."""
    for sheet in _tables(content.get("sheet")):
        for block in _tables(sheet.get("block")):
            for table in (block, *_tables(block.get("rows"))):
                yield from (table[key] for key in _NAMING if isinstance(table.get(key), str))
                for key in _WISHING:
                    if isinstance(table.get(key), str):
                        yield from keys_of_wish(table[key])


def _tables(given):
    return [each for each in given if isinstance(each, dict)] if isinstance(given, list) else []
