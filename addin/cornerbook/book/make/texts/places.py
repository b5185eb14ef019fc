"""Where templates, chapters, scenarios and pictures are: in the installed package or beside it."""

import functools
import os
from pathlib import Path

import cornerbook

from ...file.trouble import Trouble
from .text_files import TextFile, nearest

_PACKAGE = Path(cornerbook.__file__).resolve().parent

_ENDING = ".toml"


def workbooks():
    """The folder that holds templates, chapters, scenarios and pictures."""
    inside = _PACKAGE / "workbooks"
    # Run from a checkout, the folder stands beside `addin`.
    return inside if inside.is_dir() else _PACKAGE.parent.parent / "workbooks"


def names_in(folder):
    """The names of what we bring in a folder of text files, sorted."""
    # A plain list: each chapter of a template is looked for by its name.
    there = os.listdir(workbooks() / folder)
    return sorted(name[: -len(_ENDING)] for name in there if name.endswith(_ENDING))


@functools.cache
def chapters_of_ours():
    """The `TextFile` of each chapter that we bring, read once: whoever has them only reads them."""
    return tuple(TextFile(find("chapters", name)) for name in names_in("chapters"))


def find(folder, name, beside=None):
    """A template, chapter or scenario by its name, or by a path to a file of the user's.

    folder: "templates", "chapters" or "scenarios". beside: the folder from which a relative
    path starts; where the command runs if None. Raises `Trouble` where there is none.
    """
    path = Path(name)
    if path.suffix == _ENDING or len(path.parts) > 1:
        path = path if beside is None else Path(beside) / path
        return _held(path)
    ours = names_in(folder)
    if name in ours:
        return workbooks() / folder / (name + _ENDING)
    raise Trouble(
        f'there is no {folder[:-1]} named "{name}"; {nearest(name, ours)} (or the path '
        "of a .toml file of your own)"
    )


def _held(path):
    """The path, of a file that is there."""
    try:
        if path.is_file():
            return path
        if path.is_dir():
            raise Trouble(f"{path} is a folder; a .toml file was expected")
    except (OSError, ValueError) as error:
        # Such as a name that is too long for the system, or a folder that may not be read.
        said = getattr(error, "strerror", None) or str(error)
        raise Trouble(f"{path} cannot be read: {said}") from error
    raise Trouble(f"there is no file {path}")
