"""What single entities of a drawing say: their side, their name, the row that a label gives."""

import math

from ..row import Row, unit_named
from .marks import APPLICATION, BESIDE, RIGHT


def is_right(entity):
    """Whether it belongs to the mirrored corner, by its layer or its data."""
    data = data_of(entity)
    return entity.dxf.layer.upper().endswith(RIGHT) or data[1:2] == ["right"]


def data_of(entity):
    """What extended data of ours an entity has, without the data's kinds."""
    if not entity.has_xdata(APPLICATION):
        return []
    return [tag.value for tag in entity.get_xdata(APPLICATION) if tag.code != 1001]


def name_of(entity):
    """The row's name in an entity's data; None where there is none."""
    data = data_of(entity)
    return data[0].strip() if data and isinstance(data[0], str) and data[0].strip() else None


def place_of(entity):
    """A POINT's x, y, z."""
    return tuple(float(v) for v in entity.dxf.location)


def text_of(entity):
    """A label's text in one line, without formatting."""
    text = entity.plain_text() if entity.dxftype() in ("TEXT", "MTEXT") else ""
    return " ".join(text.split())


def anchor(entity):
    """Where the point of a label is expected: a label stands a little beside it."""
    ocs = entity.ocs() if entity.dxftype() == "TEXT" else None
    place = entity.dxf.insert if ocs is None else ocs.to_wcs(entity.dxf.insert)
    height = entity.dxf.height if ocs is not None else entity.dxf.char_height
    away = BESIDE * height
    return (float(place[0]) - away, float(place[1]) - away, float(place[2]))


def nearest(spot, places):
    """The index of the place nearest to a spot; None where there is none."""
    if not places:
        return None
    return min(range(len(places)), key=lambda i: math.dist(spot, places[i]))


def value_in(text):
    """The row of a label such as "Tyre radius = 260.0 mm"; None if it is none."""
    name, mark, rest = text.partition("=")
    name, rest = name.strip(), rest.strip()
    if not (mark and name and rest):
        return None
    first, _, unit = rest.partition(" ")
    try:
        number = float(first)
    except ValueError:
        return Row(name, (rest,))
    return Row(name, (number,), unit_named(unit))


def value_kept(data):
    """The row in the data of a label whose text gives none."""
    value = data[2]
    unit = data[3] if len(data) > 3 and isinstance(data[3], str) else ""
    return Row(data[0], (value if isinstance(value, str) else float(value),), unit)
