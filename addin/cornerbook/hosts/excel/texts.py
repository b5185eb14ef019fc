"""What a user puts into xlwings Lite, as text. Needs no xlwings, so any computer can write it."""

from .names import shown

MAIN_PY = """\
# The formulas of cornerbook: type ={} in a cell.
from cornerbook.hosts.excel.lite import *

# The buttons of cornerbook, in the menu beside Run.
from cornerbook.scripts import *
""".format(shown(""))
"""For the tab `main.py`. Lite registers what it finds in this file and nowhere else."""


def main_py():
    """The text for the tab `main.py`."""
    return MAIN_PY


def requirements_txt(package="cornerbook"):
    """The text for the tab `requirements.txt`.

    package: the name under which an index has it, or the https address of its wheel.
    """
    return f"xlwings\n{package}\n"
