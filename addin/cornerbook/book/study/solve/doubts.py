"""What CHECK says of the corners that a solve has moved."""

from ....catalogue import call
from ...formula.values import Values


def said_of_blocks(package, points, cells):
    """{block: what CHECK says} of the corners among whose cells some are, as they stand now.

    points: the `PointCells` of the workbook. cells: (sheet, address) of what is moved.
    """
    names = dict.fromkeys(point.block for point in map(points.at, cells) if point)
    values = Values(package)
    found = {}
    for name in names:
        sheet, top, left, bottom = points.blocks[name]
        rows = values.block(sheet, top, left, bottom, left + 3)
        found[name] = str(call("CHECK", rows))
    return found


def is_refused(said):
    """Whether CHECK says that something is wrong, and not only unlikely."""
    return not said.startswith("ok")
