"""An old workbook made anew: by this version, with what was typed and the user's own sheets."""

from pathlib import Path

from ...file.package import Package
from ...file.trouble import Trouble
from ...formula.rewrite import has_call
from ...formula.targets import target_of
from ...make.new import made
from ...make.templates.template import Template
from ...make.texts.places import find
from ..begin.run import begin
from ..typed import former
from ..typed.own import COPY, own_sheets
from ..typed.read import taken
from .beside import left_beside
from .carry import carry
from .measures import restore


class Renewed:
    """content: the bytes of the new workbook; messages: sentences on what came of it."""

    def __init__(self, content, messages):
        self.content = content
        self.messages = messages


class _Whole:
    """A scenario's text in place of a file; see `made`."""

    wrong = ()

    def __init__(self, title, text):
        self.title = title
        self._text = text

    def text(self):
        """The text."""
        return self._text


def renew(path, template="car", chapters=None, ready=None):
    """A `Renewed` of the workbook at `path`, which is only read.

    template: by which it was made and is made again: a name, or the path of a .toml file; both
    workbooks of former times are known besides. chapters: names of those that are wanted, all if
    None. ready: as for `made`. Raises `Trouble` where it is no workbook of ours, or a yellow cell
    must be mended first.
    """
    old = Package.read(path)
    if COPY in old.sheets:
        raise Trouble(f"{path} is a copy made by share; renew the workbook that it was made of")
    read = Template(find("templates", template))
    into = None if chapters is None else Template(find("templates", template), only=chapters)
    found = taken(path, old, read, into)
    whole = _Whole(f"{Path(path).name} as a scenario", found.text())
    try:
        done = made(template, None, found.unit, _target(old), begin, whole, chapters, ready)
    except Trouble as trouble:
        if whole.title not in str(trouble):
            raise
        raise Trouble(
            f"{trouble}\nMend that in the yellow cells of {path}; cornerbook scenario writes the "
            "text that has these lines."
        ) from None
    new = Package.of_bytes(done.content, "the new workbook")
    own = own_sheets(old, read)
    carried = [*carry(old, new, own), *restore(old, new, own, found)]
    messages = [*old.warnings(), *found.sentences(), *carried]
    if not former.is_former(old):
        messages += left_beside(old, template, found)
    if own:
        messages.append(f"Sheets of yours that came along: {', '.join(own)}.")
    if done.story is not None:
        messages += done.story.report(done.shows, done.looks)
    return Renewed(new.to_bytes() if own else done.content, messages)


def _target(package):
    """The spreadsheet program for which a workbook spells our formulas."""
    for sheet in package.sheets:
        for content in package.cells(sheet).values():
            if content.formula is not None and has_call(content.formula):
                return target_of(content.formula)
    return "calc"
