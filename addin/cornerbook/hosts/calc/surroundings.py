"""What LibreOffice's programs are started with: the search path without other Pythons."""

import os

_OF_ANOTHER = ("pyvenv.cfg", "conda-meta")
"""What stands beside the folder of programs of a virtual environment, of either kind."""


def is_in_another():
    """Whether a virtual environment is on the search path."""
    return any(map(_is_another, _search_path()))


def surroundings():
    """The environment variables with which to start one of LibreOffice's programs.

    A LibreOffice of the system's takes the first Python on the search path for its own, looks for
    the files of its Python beside it, and fails where it does not find them.
    """
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONHOME"}
    if "PATH" in kept:
        kept["PATH"] = os.pathsep.join(each for each in _search_path() if not _is_another(each))
    return kept


def _search_path():
    return os.environ.get("PATH", "").split(os.pathsep)


def _is_another(folder):
    # Not `Path.exists`, which raises an error for a folder that this user may not look into.
    beside = os.path.dirname(folder)
    return any(os.path.exists(os.path.join(beside, each)) for each in _OF_ANOTHER)
