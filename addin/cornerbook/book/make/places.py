"""Where templates, scenarios and pictures are: in the installed package or beside it."""

from pathlib import Path

import cornerbook

from ..file.trouble import Trouble
from .text_files import nearest

_PACKAGE = Path(cornerbook.__file__).resolve().parent


def workbooks():
    """The folder that holds templates, scenarios and pictures."""
    inside = _PACKAGE / "workbooks"
    # Run from a checkout, the folder stands beside `addin`.
    return inside if inside.is_dir() else _PACKAGE.parent.parent / "workbooks"


def find(folder, name):
    """A template or scenario by its name, or by a path to a file of the user's.

    folder: "templates" or "scenarios". Raises `Trouble` where there is none.
    """
    path = Path(name)
    if path.suffix == ".toml" or len(path.parts) > 1:
        if path.is_file():
            return path
        raise Trouble(f"there is no file {path}")
    ours = sorted(p.stem for p in (workbooks() / folder).glob("*.toml"))
    if name in ours:
        return workbooks() / folder / (name + ".toml")
    raise Trouble(
        f'there is no {folder[:-1]} named "{name}"; {nearest(name, ours)}, or the path of '
        "a .toml file of your own"
    )
