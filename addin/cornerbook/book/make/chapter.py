"""A chapter: a sheet, or the few sheets that belong together, with what it needs and gives."""

from .check import check_keys
from .declare import LIST, TEXT, list_of, needed
from .sheets import Sheets
from .text_files import TextFile

_TOP = {
    "about": needed(TEXT), "needs": list_of(TEXT), "needs_anywhere": list_of(TEXT),
    "gives": list_of(TEXT), "tables": list_of(TEXT), "sheet": needed(LIST),
}  # fmt: skip

GIVEN = {"gives": "name", "tables": "table"}
"""The keys under which a chapter promises what it gives, and what each of it is."""


class Chapter(Sheets):
    """A checked chapter.

    name: the file's name without its ending, by which other chapters speak of it.
    about: what it shows, in a line.
    needs: names of chapters that must stand above it. needs_anywhere: of those that may stand
    below it too, as a first page may show a result of any sheet.
    given: {"gives": names of cells, "tables": names of tables}, as its head promises them.
    """

    def __init__(self, path):
        file = TextFile(path)
        head = file.content
        check_keys(head, _TOP, "the chapter", file.trouble)
        super().__init__(file)
        self.name = file.path.stem
        self.about = head["about"]
        self.needs = head.get("needs", [])
        self.needs_anywhere = head.get("needs_anywhere", [])
        for key in ("needs", "needs_anywhere"):
            if self.name in head.get(key, []):
                raise file.head_trouble(f'the chapter "{self.name}" needs itself', key, self.name)
        self.given = {key: head.get(key, []) for key in GIVEN}

    def hold_promise(self, names, tables):
        """`Trouble` unless these names and tables, which its blocks gave, are those promised."""
        for key, found in (("gives", names), ("tables", tables)):
            what, promised = GIVEN[key], self.given[key]
            for each in promised:
                if each not in found:
                    raise self.file.head_trouble(
                        f'the chapter "{self.name}" promises the {what} "{each}", and no block '
                        "of it gives that",
                        key,
                        each,
                    )
            for each in found:
                if each not in promised:
                    raise self.file.head_trouble(
                        f'the chapter "{self.name}" gives the {what} "{each}" and does not '
                        f"promise it; add it to {key} in its head",
                        key,
                    )
