"""What LibreOffice's programs are started with: the search path without other Pythons."""

import os

_OF_ANOTHER = ("pyvenv.cfg", "conda-meta")
"""What stands beside the folder of programs of a virtual environment, of either kind."""


def is_in_another(path=None):
    """Whether a virtual environment is on the search path. path: that, if not this process's."""
    path = os.environ.get("PATH", "") if path is None else path
    return without_others(path) != path


def without_others(path):
    """A search path without the folders of virtual environments.

    A LibreOffice of the system's takes the first Python there for its own, looks for the files of
    its Python beside it, and fails where it does not find them.
    """
    return os.pathsep.join(each for each in path.split(os.pathsep) if not _is_another(each))


def surroundings():
    """The environment variables with which to start one of LibreOffice's programs."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONHOME"}
    return {**kept, "PATH": without_others(kept["PATH"])} if "PATH" in kept else kept


def _is_another(folder):
    # Not `Path.exists`, which raises an error for a folder that this user may not look into.
    beside = os.path.dirname(folder)
    return any(os.path.exists(os.path.join(beside, each)) for each in _OF_ANOTHER)
