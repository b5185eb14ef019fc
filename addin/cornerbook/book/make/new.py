"""From the names of a template and a scenario to the bytes of a workbook."""

from ..file.trouble import Trouble
from .build import build
from .mistakes import Mistakes
from .places import find, workbooks
from .scenario import Scenario
from .template import Template
from .write import to_xlsx


def make(template="car", scenario="lapwing", system="mm", target="calc", notes=None, chapters=None):
    """The bytes of a new workbook.

    template, scenario: a name under `workbooks/`, or the path of a .toml file.
    system: "mm" or "in". target: the spreadsheet program it is for.
    chapters: names of those that are wanted; all of the template's if None.
    notes: a list to which lines are added on what is no mistake and yet deserves a word.
    Raises `Trouble` with all that is to be mended, in the template, its chapters and the
    scenario together: a line each.
    """
    mistakes = Mistakes()
    read_template = _read(Template, "templates", template, mistakes, chapters)
    read_scenario = _read(Scenario, "scenarios", scenario, mistakes)
    if read_template is None:
        mistakes.hold()
    pictures = workbooks() / "pictures"
    book = build(read_template, read_scenario, system, target, pictures, mistakes)
    if notes is not None:
        notes += mistakes.noted()
    return to_xlsx(book)


def _read(what, folder, name, mistakes, *more):
    """A `Template` or a `Scenario`; None, and the mistake kept, where it cannot be read."""
    try:
        path = find(folder, name)
        mistakes.files.append(path.name)
        return what(path, mistakes, *more)
    except Trouble as trouble:
        mistakes.take(trouble)
        return None
