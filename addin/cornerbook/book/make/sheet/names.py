"""Names of cells: what Excel and LibreOffice take for one."""

import re

_NAME = re.compile(r"[^\W\d][\w.]{0,254}")
_CELL = re.compile(r"[A-Z]{1,3}\d+(\.\d+)?|R\d*(C\d*)?|C\d*|TRUE|FALSE", re.IGNORECASE)

A_NAME = (
    "letters, digits, points and _ were expected, with a letter first, and nothing that reads "
    "like a cell"
)


def is_name(text):
    """Whether a block of cells can have this name."""
    return _NAME.fullmatch(text) is not None and _CELL.fullmatch(text) is None
