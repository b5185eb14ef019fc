"""Finds LibreOffice's programs on Linux, macOS and Windows."""

import glob
import os
import shutil
from pathlib import Path

OVERRIDE = "CORNERBOOK_LIBREOFFICE"
"""The environment variable that names LibreOffice's program folder, for unusual places."""

_LINUX = (
    "/usr/lib/libreoffice/program",
    "/usr/lib64/libreoffice/program",
    "/usr/local/lib/libreoffice/program",
    "/opt/libreoffice*/program",
)
_MACOS = (
    "/Applications/LibreOffice*.app/Contents/MacOS",
    "~/Applications/LibreOffice*.app/Contents/MacOS",
)
_WINDOWS = (
    r"%ProgramW6432%\LibreOffice*\program",
    r"%ProgramFiles%\LibreOffice*\program",
    r"%ProgramFiles(x86)%\LibreOffice*\program",
    r"%LocalAppData%\Programs\LibreOffice*\program",
)


class LibreOfficeMissing(Exception):
    """LibreOffice was not found; the text says where it was looked for and what to do."""


def find_program(name, folder=None):
    """The path of one of LibreOffice's programs, such as 'unopkg' or 'soffice'.

    folder: LibreOffice's program folder (or the program itself); looked for in the
        environment variable CORNERBOOK_LIBREOFFICE, the search path and the usual
        places if not given.
    Raises LibreOfficeMissing.
    """
    given = folder or os.environ.get(OVERRIDE)
    if given:
        given = Path(given).expanduser()
        found = _program_in(given if given.is_dir() else given.parent, name)
        if found is None:
            raise LibreOfficeMissing(
                f"There is no {name} in {given}. Give the folder that holds LibreOffice's "
                "programs, often called program."
            )
        return found
    for place in _places():
        found = _program_in(place, name)
        if found is not None:
            return found
    raise LibreOfficeMissing(
        f"LibreOffice was not found. Install it, or if it is installed set {OVERRIDE} to its "
        f"program folder, the one that holds {name}."
    )


def _program_in(folder, name):
    # On Windows the .com is the one that writes to the console and waits until it is done.
    for ending in (".com", ".exe") if os.name == "nt" else ("",):
        path = folder / (name + ending)
        if path.is_file():
            return path
    return None


def _places():
    # A program on the search path is often a link into the folder that holds the rest.
    for name in ("unopkg", "soffice", "libreoffice"):
        path = shutil.which(name)
        if path:
            yield Path(path).resolve().parent
            yield Path(path).parent
    for pattern in _LINUX + _MACOS + _WINDOWS:
        pattern = os.path.expandvars(os.path.expanduser(pattern))
        # The newest version first, where several stand side by side.
        for path in sorted(glob.glob(pattern), reverse=True):
            yield Path(path)
