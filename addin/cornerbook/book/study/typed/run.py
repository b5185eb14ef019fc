"""A workbook's yellow cells as the text of a scenario."""

from pathlib import Path

from .... import __version__
from ...file.package import Package
from ...file.trouble import Trouble
from ...make.templates.template import Template
from ...make.texts.mistakes import Mistakes
from ...make.texts.places import find
from ...make.texts.scenario import Scenario
from ..begin.sound import is_sound
from .read import taken


class Written:
    """A scenario of what is typed. taken: the `Taken`; text: the scenario; messages: sentences on
    what was left out, or is to be mended before a workbook can be made of it."""

    def __init__(self, found, text, messages):
        self.taken = found
        self.text = text
        self.messages = messages


def scenario_of(path, name, template="car"):
    """The `Written` of the workbook at `path`, which is only read.

    name: the text's own, for messages. template: by whose chapters its cells are known: a name
    under `workbooks/`, or the path of a .toml file. Raises `Trouble`.
    """
    package = Package.read(path)
    found = taken(path, package, Template(find("templates", template)))
    text = found.text([f"What is typed in a workbook, read by cornerbook {__version__}."])
    return Written(found, text, [*package.warnings(), *found.sentences(), *_to_mend(name, text)])


def _to_mend(name, text):
    """Lines on what no workbook can be made of, such as a wish whose from is above its to."""
    mistakes = Mistakes()
    try:
        is_sound(Scenario(Path(name), mistakes, text=text), mistakes)
        mistakes.hold()
    except Trouble as trouble:
        yield f"To be mended: {trouble}"
