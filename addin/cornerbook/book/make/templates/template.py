"""A template: which chapters make a workbook, in which order, as text that anyone can edit.

A template may hold sheets of its own too, after the chapters or alone. It is checked whole,
with its chapters, before anything is built from it.
"""

from ...file.trouble import Trouble
from ..sheet.declare import LIST, TEXT, list_of, needed
from ..texts.mistakes import Mistakes, PlacedTrouble
from ..texts.places import find, names_in
from ..texts.text_files import TextFile, nearest
from .chapter import FOLDER, GIVEN, chapter_in
from .check import wrong_keys
from .sheets import Sheets

FIRST_PAGES = ("overview", "how-to-use")
"""Chapters without which no workbook of ours is made: the way to each sheet, and the cautions."""

_TOP = {"title": needed(TEXT), "chapters": list_of(TEXT), "sheet": LIST, "about": TEXT}


class Template:
    """A checked template.

    chapters: its `Chapter`s in order. parts: these and the template's own sheets, in the
    order of the workbook. whole: whether every chapter that is needed is there. misplaced: those
    that stand below one that needs them.
    mistakes: the `Mistakes` to which those found are added; they are raised if it is None.
    only: names of its chapters to which it is cut; what they need comes along, and so do its
    first pages, with the way to each sheet and the cautions.
    """

    def __init__(self, path, mistakes=None, only=None):
        self.mistakes = Mistakes() if mistakes is None else mistakes
        self.file = TextFile(path)
        self.mistakes.files.append(self.file.name)
        content = self.file.content
        wrong = list(wrong_keys(content, _TOP, "the template", ()))
        for where, said in wrong:
            self._wrong(said, *where)
        if not wrong and "chapters" not in content and "sheet" not in content:
            self._wrong("the template needs chapters, or sheets of its own")
        self.title = str(content.get("title", ""))
        self.whole = True
        self.misplaced = []
        self.chapters = self._read(content.get("chapters", []))
        if only is not None:
            self.chapters = self._cut(only)
        self._hold_names()
        own = [Sheets(self.file, self.mistakes)] if "sheet" in content else []
        self.parts: list[Sheets] = [*self.chapters, *own]
        if mistakes is None:
            self.mistakes.hold()

    def _wrong(self, message, *path):
        self.mistakes.take(self.file.at(message, *path))

    def _cut(self, only):
        """Those of the chapters that are asked for or needed by these, in their order."""
        named = {chapter.name: chapter for chapter in self.chapters}
        for name in only:
            if name not in named:
                said = f'--chapters: the template {self.file.name} has no chapter named "{name}"'
                self.mistakes.take(Trouble(f"{said}; {nearest(name, sorted(named))}"))
        wanted, waiting = set(), [*FIRST_PAGES, *only]
        while waiting:
            name = waiting.pop()
            if name in named and name not in wanted:
                wanted.add(name)
                waiting += [*named[name].needs, *named[name].needs_anywhere]
        return [chapter for name, chapter in named.items() if name in wanted]

    def _read(self, listed):
        """The chapters of the list, each once, with their needs held."""
        read = {}
        for place, given in enumerate(listed if isinstance(listed, list) else ()):
            chapter = self._chapter(given, place)
            if chapter is None:
                self.whole = False
            elif chapter.name in (other.name for other in read.values()):
                self._wrong(f"{chapter.said} is in the list twice", "chapters", place)
            else:
                read[place] = chapter
        if self.whole:
            self._hold_needs(read)
        return list(read.values())

    def _chapter(self, given, place):
        """The chapter at a place of the list; None, and the mistake kept, where there is none."""
        if not isinstance(given, str):
            return None  # said by the list's own check
        try:
            return chapter_in(find(FOLDER, given, self.file.path.parent), self.mistakes)
        except PlacedTrouble as trouble:
            self.mistakes.take(trouble)
        except Trouble as trouble:
            self._wrong(str(trouble), "chapters", place)
        return None

    def _hold_needs(self, read):
        """Each chapter's needs in the list, and above it where they must be.

        read: {place in the list: chapter}. What several need is said once.
        """
        named = {chapter.name: chapter for chapter in read.values()}
        above, said = set(), set()
        for place, chapter in read.items():
            for key in ("needs", "needs_anywhere"):
                for need in getattr(chapter, key):
                    if need in said or need == chapter.name:
                        continue
                    if need not in named:
                        said.add(need)
                        self.whole = False
                        self._missing(chapter, key, need, place, named)
                    elif key == "needs" and need not in above:
                        said.add(need)
                        self.misplaced.append(named[need])
                        self._wrong(
                            f'{chapter.said} needs the chapter "{need}", which stands below it; '
                            "put it above",
                            "chapters",
                            place,
                        )
            above.add(chapter.name)

    def _missing(self, chapter, key, need, place, named):
        said = f'{chapter.said} needs the chapter "{need}", which is not'
        known = sorted({*names_in(FOLDER), *named})
        if need in known:
            where = "above" if key == "needs" else "there too"
            self._wrong(f"{said} in the list; put it {where}", "chapters", place)
        else:
            said = f"{said} known; {nearest(need, known)}"
            self.mistakes.take(chapter.file.head_trouble(said, key, need))

    def _hold_names(self):
        """No name of cells, and no table, is given by two chapters."""
        givers: dict = {}
        for chapter in self.chapters:
            for key, what in GIVEN.items():
                for each in chapter.given[key]:
                    first = givers.setdefault((key, each.lower()), chapter)
                    if first is not chapter:
                        self.mistakes.take(
                            chapter.file.head_trouble(
                                f'the {what} "{each}" is given by two chapters, "{first.name}" '
                                f'and "{chapter.name}"',
                                key,
                                each,
                            )
                        )
