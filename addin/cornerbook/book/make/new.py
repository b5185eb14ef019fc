"""From the names of a template and a scenario to the bytes of a workbook."""

from pathlib import Path

from ..file.trouble import Trouble
from .build import build
from .sheet.judged import OUTSIDE
from .templates.template import Template
from .texts import units
from .texts.mistakes import Mistakes
from .texts.places import find, workbooks
from .texts.scenario import Scenario
from .texts.wish import TARGET, WANTED
from .written.write import to_xlsx


class Made:
    """A new workbook. content: its bytes; notes: lines on what is no mistake and yet deserves a
    word; story: what `complete` gave, None where nothing was missing; looks: (sheet, row's name)
    of every verdict that asks for a look; asked: the keys of a scenario that its chapters ask for.
    """

    def __init__(self, content, notes, story, looks, asked):
        self.content = content
        self.notes = notes
        self.story = story
        self.looks = looks
        self._asked = asked

    def shows(self, key):
        """Whether the workbook shows what stands under a key of its scenario.

        A wish stands on the sheet of all wishes; what chapters ask for stands under their keys.
        """
        parts = key.split(".")
        beginnings = {".".join(parts[:end]) for end in range(1, len(parts) + 1)}
        return parts[0] in (WANTED, TARGET) or bool(self._asked & beginnings)


def make(template="car", scenario="lapwing", system="mm", target="calc", notes=None, chapters=None):
    """The bytes of a new workbook, of a scenario that holds all that the template asks for.

    notes: a list to which those of `Made` are added. For the rest see `made`.
    """
    done = made(template, scenario, system, target, chapters=chapters)
    if notes is not None:
        notes += done.notes
    return done.content


def made(
    template, scenario, system="mm", target="calc", complete=None, given=None, chapters=None,
    ready=None,
):  # fmt: skip
    """A `Made`.

    template, scenario: a name under `workbooks/`, or the path of a .toml file.
    system: "mm" or "in". target: the spreadsheet program it is for.
    chapters: names of those that are wanted; all of the template's if None. complete: a function
    of a `Scenario` and the `Mistakes` that completes it in place where something is missing and
    gives a story of it; if None, what is missing is a mistake. given: more of the scenario, or the
    whole where scenario is None: a `Given`. ready: a function that is called once nothing is found
    wrong and the long part of the work begins; it may raise what stops it.
    Raises `Trouble` with all that is to be mended, in the template, its chapters and the
    scenario together: a line each.
    """
    mistakes = Mistakes()
    read_template = _read(Template, "templates", template, mistakes, chapters)
    open_ended = complete is not None

    def read(path, mistakes):
        heads = {"title": path.stem, "unit": units.SYSTEMS[0]} if open_ended else None
        return Scenario(path, mistakes, heads)

    for sentence in () if given is None else given.wrong:
        mistakes.take(Trouble(sentence))
    if scenario is None:
        read_scenario = Scenario(Path(given.title), mistakes, text=given.text())
    else:
        read_scenario = _read(read, "scenarios", scenario, mistakes)
        if given is not None and read_scenario is not None:
            given.add_to(read_scenario, mistakes)
    story = None
    if open_ended and read_scenario is not None and not read_scenario.file.is_empty:
        story = complete(read_scenario, mistakes)
    if read_template is None:
        mistakes.hold()
    pictures = workbooks() / "pictures"
    book = build(read_template, read_scenario, system, target, pictures, mistakes, ready)
    return Made(to_xlsx(book), mistakes.noted(), story, _looks(book), book.asked)


def _looks(book):
    """(sheet, row's name) of the results whose verdict asks for a look."""
    return [
        (result.sheet.name, result.said)
        for result in book.judged
        if result.sheet.cells[result.row, result.verdict].value == OUTSIDE
    ]


def _read(what, folder, name, mistakes, *more):
    """A `Template` or a `Scenario`; None, and the mistake kept, where it cannot be read."""
    try:
        path = find(folder, name)
        mistakes.files.append(path.name)
        return what(path, mistakes, *more)
    except Trouble as trouble:
        mistakes.take(trouble)
        return None
