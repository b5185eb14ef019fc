"""A template: which chapters make a workbook, in which order, as text that anyone can edit.

A template may hold sheets of its own too, after the chapters or alone. It is checked whole,
with its chapters, before anything is built from it.
"""

from ..file.trouble import Trouble
from .chapter import GIVEN, Chapter
from .check import check_keys
from .declare import LIST, TEXT, list_of, needed
from .places import find, names_in
from .sheets import Sheets
from .text_files import TextFile, nearest

_TOP = {"title": needed(TEXT), "chapters": list_of(TEXT), "sheet": LIST, "about": TEXT}


class Template:
    """A checked template.

    chapters: its `Chapter`s in order. parts: these and the template's own sheets, in the
    order of the workbook. Raises `Trouble` with the file and line to mend.
    """

    def __init__(self, path):
        self.file = TextFile(path)
        content = self.file.content
        check_keys(content, _TOP, "the template", self.file.trouble)
        if "chapters" not in content and "sheet" not in content:
            raise self.file.trouble("the template needs chapters, or sheets of its own")
        self.title = content["title"]
        self.chapters = [self._chapter(given) for given in content.get("chapters", [])]
        self._hold_needs()
        self._hold_names()
        own = [Sheets(self.file)] if "sheet" in content else []
        self.parts: list[Sheets] = [*self.chapters, *own]

    def _chapter(self, given):
        try:
            path = find("chapters", given, beside=self.file.path.parent)
        except Trouble as trouble:
            raise self.file.head_trouble(str(trouble), "chapters", given) from None
        return Chapter(path)

    def _hold_needs(self):
        """Each chapter once, and those that it needs in the list, above it where they must be."""
        names = [chapter.name for chapter in self.chapters]
        for place, chapter in enumerate(self.chapters):
            if chapter.name in names[:place]:
                raise self._list_trouble(
                    f'the chapter "{chapter.name}" is in the list twice', place
                )
            for key in ("needs", "needs_anywhere"):
                for need in getattr(chapter, key):
                    if need not in names:
                        raise self._missing(key, need, place)
            for need in chapter.needs:
                if need not in names[:place]:
                    raise self._list_trouble(
                        f'the chapter "{chapter.name}" needs the chapter "{need}", which stands '
                        "below it; put it above",
                        place,
                    )

    def _missing(self, key, need, place):
        chapter = self.chapters[place]
        said = f'the chapter "{chapter.name}" needs the chapter "{need}", which is not'
        known = sorted({*names_in("chapters"), *(each.name for each in self.chapters)})
        if need in known:
            where = "above" if key == "needs" else "there too"
            return self._list_trouble(f"{said} in the list; put it {where}", place)
        return chapter.file.head_trouble(f"{said} known; {nearest(need, known)}", key, need)

    def _list_trouble(self, message, place):
        """A `Trouble` at the place of a chapter in the list."""
        return self.file.head_trouble(message, "chapters", self.file.content["chapters"][place])

    def _hold_names(self):
        """No name of cells, and no table, is given by two chapters."""
        givers = {}
        for chapter in self.chapters:
            for key, what in GIVEN.items():
                for each in chapter.given[key]:
                    first = givers.setdefault((key, each.lower()), chapter)
                    if first is not chapter:
                        raise chapter.file.head_trouble(
                            f'the {what} "{each}" is given by two chapters, "{first.name}" and '
                            f'"{chapter.name}"',
                            key,
                            each,
                        )
