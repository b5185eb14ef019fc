"""A chapter: a sheet, or the few sheets that belong together, with what it needs and gives."""

from functools import lru_cache

from ..sheet.declare import LIST, TEXT, list_of, needed
from ..sheet.groups import GROUPS
from ..texts.mistakes import Mistakes, PlacedTrouble, hold_all
from ..texts.places import workbooks
from ..texts.text_files import TextFile, text_in
from .check import wrong_keys
from .sheets import Sheets

_TOP = {
    "about": needed(TEXT), "group": TEXT.but(among=tuple(GROUPS)),
    "needs": list_of(TEXT), "needs_anywhere": list_of(TEXT),
    "gives": list_of(TEXT), "tables": list_of(TEXT), "sheet": needed(LIST),
}  # fmt: skip

FOLDER = "chapters"

GIVEN = {"gives": "name", "tables": "table"}
"""The keys under which a chapter promises what it gives, and what each of it is."""


class Chapter(Sheets):
    """A checked chapter.

    name: the file's name without its ending, by which other chapters speak of it.
    about: what it shows, in a line. group: that of its sheets, one of `GROUPS` or None.
    needs: names of chapters that must stand above it. needs_anywhere: of those that may stand
    below it too, as a first page may show a result of any sheet.
    given: {"gives": names of cells, "tables": names of tables}, as its head promises them.
    mistakes: the `Mistakes` to which those found are added; they are raised if it is None.
    text: what to take in place of what the file holds.
    """

    def __init__(self, path, mistakes=None, text=None):
        found = Mistakes() if mistakes is None else mistakes
        file = TextFile(path, text)
        if file.path.parent == workbooks() / FOLDER:
            # A scenario or a chapter of the user's may have the same name.
            file.name = f"{FOLDER}/{file.name}"
        found.files.append(file.name)
        self.name = file.path.stem
        head = file.content
        for where, said in wrong_keys(head, _TOP, "the chapter", ()):
            found.take(file.at(said, *where))
        super().__init__(file, found)
        self.about = _text(head, "about") or ""
        self.group = _text(head, "group")
        self.needs = _texts(head, "needs")
        self.needs_anywhere = _texts(head, "needs_anywhere")
        for key in ("needs", "needs_anywhere"):
            if self.name in getattr(self, key):
                found.take(
                    file.head_trouble(f'the chapter "{self.name}" needs itself', key, self.name)
                )
        self.given = {key: _texts(head, key) for key in GIVEN}
        if mistakes is None:
            found.hold()

    @property
    def said(self):
        """What it is called in a sentence."""
        return f'the chapter "{self.name}"'

    def hold_promise(self, names, tables):
        """`Trouble` unless these names and tables, which its blocks gave, are those promised."""
        hold_all([*self._broken("gives", names), *self._broken("tables", tables)])

    def _broken(self, key, found):
        what, promised = GIVEN[key], self.given[key]
        for each in promised:
            if each not in found:
                said = f'promises the {what} "{each}", and no block of it gives that'
                yield self.file.head_trouble(f"{self.said} {said}", key, each)
        for each in found:
            if each not in promised:
                said = f'gives the {what} "{each}" and does not promise it; add it to {key}'
                yield self.file.head_trouble(f"{self.said} {said} in its head", key)


def chapter_in(path, mistakes):
    """The `Chapter` of a file. One with nothing wrong in it is checked once for each text that the
    file has: a workbook is laid out more than once where its yellow cells are read back."""
    text = text_in(path)
    try:
        chapter = _sound(path, text)
    except PlacedTrouble:
        return Chapter(path, mistakes, text)
    mistakes.files.append(chapter.file.name)
    return chapter


@lru_cache(maxsize=128)
def _sound(path, text):
    """A `Chapter`, which whoever has it only reads; raises `PlacedTrouble` where one is wrong."""
    return Chapter(path, text=text)


def _text(head, key):
    """The text of a key of the head; None where it is none."""
    return head[key] if isinstance(head.get(key), str) else None


def _texts(head, key):
    """The texts of a list of the head, as far as it is one."""
    given = head.get(key, [])
    return [each for each in given if isinstance(each, str)] if isinstance(given, list) else []
