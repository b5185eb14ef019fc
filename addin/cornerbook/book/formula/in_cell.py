"""What was wrong in a cell, said with the cell's name."""

from ..file.trouble import Trouble


class InCell(Trouble):
    """What was wrong in a cell; the text names it."""


def in_cell(cell, trouble):
    """The `Trouble` with the name of a cell; as it is, if it names one that the cell needs."""
    if isinstance(trouble, InCell):
        return trouble
    return InCell("%s!%s: %s" % (*cell, trouble))
