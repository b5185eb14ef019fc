"""What the frame is given at each of its points in each load case of a workbook, as a CSV file.

Forces are those of the left front corner on the frame.
"""

import csv
import io

from ...catalogue.forces.loads import NO_FORCE, carried, force_at
from ...cells.corner import Corner, has_rocker
from ...cells.mend import Mend
from ..file.package import Package
from ..file.trouble import Trouble
from ..formula.load_cases import NAME, cases_of
from .block import PointBlock
from .csv_file import in_a_line

HEADING = ("case", "point", "x", "y", "z", "Fx", "Fy", "Fz", "Mx", "My", "Mz")

_FORCE = {"mm": "N", "in": "lbf"}
"""The unit of force that a workbook of ours has with a unit of length."""

_PICKUPS = (
    "lower front pickup", "lower rear pickup", "upper front pickup", "upper rear pickup",
)  # fmt: skip


def frame_forces(book, block="Front", cases=NAME, unit=None):
    """(bytes of the CSV file, sentences): a line for each point of the frame in each case.

    book: an .xlsx file, which is only read. block: the corner's. cases: the name, or address, of
    the range of cases. unit: of the workbook's lengths, where it does not say. Raises `Trouble`
    with the case for a load or a pose that gives no forces.
    """
    package = Package.read(book)
    found = PointBlock(package, block, unit)
    corner = Corner([(row.name, *row.values, *[""] * (3 - len(row.values))) for row in found.rows])
    lines = []
    for case in cases_of(package, found.values, cases):
        for point, place, force, couple in _given(corner, case):
            numbers = map(_number, (*place, *force, *couple))
            lines.append([in_a_line(case.name), point, *numbers])
    force, length = _FORCE.get(found.unit, ""), found.unit
    moment = f"{force} {length}" if force else ""
    units = ["", "", *[length] * 3, *[force] * 3, *[moment] * 3]
    heading = [f"{name} ({u})" if u else name for name, u in zip(HEADING, units, strict=True)]
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([heading, *lines])
    said = [
        "Forces of the left front corner on the frame, x forward, y to the left, z up; those of "
        "the right one are the mirror of its own loads.",
        "In each case they add up to the load on the wheel. They are forces under the assumptions "
        "of the sheet Loads, and no check of strength.",
    ]
    if not length:
        said.append("The workbook does not say its unit of length, so the file does not.")
    return text.getvalue().encode("utf-8"), said


def _number(value):
    return repr(value + 0.0)


def _given(corner, case):
    """(point, place, force, couple) of each point of the frame that is loaded in a case."""
    try:
        found = carried(corner, *case.load)
        points = [
            (name, corner.block.point(name), force_at(found, corner.block, name))
            for name in _PICKUPS
        ]
        points.append(("tie rod inner", found.pose.tie_inner, found.on_rack()))
        points.append(("spring frame", found.places.frame, found.on_spring_frame()))
        lines = [(name, place, force, (0.0, 0.0, 0.0)) for name, place, force in points]
        if has_rocker(corner.block):
            bearing = found.on_bearing()
            lines.append(("rocker pivot", bearing.about, bearing.force, bearing.moment))
    except Mend as mend:
        raise Trouble(f"{case.name}: {mend}") from None
    except (ZeroDivisionError, OverflowError):
        raise Trouble(f"{case.name}: {NO_FORCE}") from None
    if any(value != value for _, *vectors in lines for vector in vectors for value in vector):
        raise Trouble(f"{case.name}: {NO_FORCE}")
    return lines
