"""A block's points as a DXF drawing in three dimensions, written."""

import io
import math

from ....cells.block import Block
from ....cells.corner import Corner
from ....cells.mend import Mend
from ...file.trouble import Trouble
from ..row import Row
from .marks import APPLICATION, BESIDE, INSUNITS, library
from .pieces import Pieces
from .side import Side

_TEXT_SIZE = 0.03
"""Height of a label, in tyre radii, or of the drawing's size where there is no wheel."""


def _in_one_line(row):
    """A row whose name and words have no line breaks or tabs, which the format cannot hold."""
    values = [" ".join(v.split()) if isinstance(v, str) else v for v in row.values]
    return Row(" ".join(row.name.split()), tuple(values), row.unit)


def dxf_of(rows, unit, axle=False):
    """(bytes, sentences): the drawing of `Row`s in their own unit of length, DXF R2010.

    unit: of the points, '' where it is not known. axle: whether the right-hand corner,
    mirrored, is drawn on layers of its own.
    """
    rows = [_in_one_line(row) for row in rows]
    doc = library().new("R2010")
    doc.header["$INSUNITS"] = INSUNITS.get(unit, 0)
    doc.header["$MEASUREMENT"] = 0 if unit == "in" else 1
    doc.appids.add(APPLICATION)
    points, messages = _drawable(rows)
    cells = [(r.name, *r.values, *[None] * (3 - len(r.values))) for r in rows]
    corner = Corner(cells)
    size = _size(corner, points)
    height = _TEXT_SIZE * size
    pieces = Pieces(Block(cells), corner, size)
    left = Side(doc, True, height)
    _write_points(left, points)
    _write_values(left, rows, _ahead_of(points, size))
    messages += pieces.draw(left)
    if axle:
        right = Side(doc, False, height)
        _write_points(right, points)
        # What cannot be drawn is the same on both sides.
        pieces.draw(right)
    _settle_view(doc, size, height)
    text = io.StringIO()
    doc.write(text)
    return text.getvalue().encode(doc.output_encoding, "dxfreplace"), messages


def _drawable(rows):
    """(rows that are points, sentences on those that are not all numbers)."""
    points, messages = [], []
    for row in rows:
        numbers = [isinstance(v, float) and math.isfinite(v) for v in row.values]
        if len(numbers) == 3 and all(numbers):
            points.append(row)
        elif len(numbers) > 1:
            messages.append(f"{row.name} is not drawn: x, y and z are not all numbers.")
    if not points:
        raise Trouble("the block has no row with three numbers, so there is nothing to draw")
    return points, messages


def _size(corner, points):
    """The tyre's radius; without a wheel what the points span."""
    try:
        return corner.drawn.radius
    except Mend:
        spans = [
            max(p.values[i] for p in points) - min(p.values[i] for p in points) for i in (0, 1, 2)
        ]
        return max(spans) or 1.0


def _ahead_of(points, size):
    """Where texts begin that belong to no point: ahead of all of them."""
    x, y = (max(point.values[i] for point in points) for i in (0, 1))
    return x + 1.2 * size, y, min(point.values[2] for point in points)


def _write_points(side, points):
    """Each with its name in its data, and a label beside it."""
    for row in points:
        x, y, z = place = side.at(row.values)
        entity = side.space.add_point(place, dxfattribs=side.layer("POINTS"))
        tags = [(1000, row.name), (1000, "left" if side.is_left else "right")]
        entity.set_xdata(APPLICATION, tags)
        away = BESIDE * side.height
        label = side.text(row.name, (x + away, y + away, z))
        label.set_xdata(APPLICATION, [(1000, row.name), (1000, "label")])


def _write_values(side, rows, place):
    """Single numbers and words, as lines of text from a place down."""
    x, y, z = place
    for row in rows:
        if len(row.values) != 1 or not isinstance(row.values[0], (float, str)):
            continue
        value = row.values[0]
        number = isinstance(value, float)
        text = f"{row.name} = {repr(value) if number else value}"
        label = side.text(" ".join(filter(None, (text, row.unit))), (x, y, z))
        tags = [(1000, row.name), (1000, "value"), (1040, value) if number else (1000, value)]
        label.set_xdata(APPLICATION, [*tags, (1000, row.unit)])
        y -= 1.8 * side.height


def _settle_view(doc, size, height):
    """Show points as crosses, and all of them when the drawing is opened."""
    doc.header["$PDMODE"] = 3
    doc.header["$PDSIZE"] = height
    places = [e.dxf.location for e in doc.modelspace().query("POINT")]
    low = [min(p[i] for p in places) for i in (0, 1)]
    high = [max(p[i] for p in places) for i in (0, 1)]
    middle = tuple((a + b) / 2.0 for a, b in zip(low, high, strict=True))
    shown = max(b - a for a, b in zip(low, high, strict=True)) + 2.5 * size
    doc.set_modelspace_vport(shown, middle)
