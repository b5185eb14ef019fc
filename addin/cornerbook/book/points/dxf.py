"""A block's points as a DXF drawing in three dimensions, written and read.

The drawing's axes are the block's: x forward, y to the left, z up. A POINT carries its
row's name in its extended data and has a label beside it; single numbers and words are
labels such as "Static camber = -1.0 deg". What is drawn besides (arms, wheel, ground) is
for the eye and is not read back.
"""

import io
import math
from itertools import pairwise
from pathlib import Path

from ...cells.block import POINTS, Block, key_of
from ...cells.corner import Corner, has_rocker
from ...cells.mend import Mend, shown
from ..file.trouble import Trouble
from .row import MM, Row, of_known_length, unit_named

APPLICATION = "CORNERBOOK"
"""The name under which extended data of ours stands."""

RIGHT = " RIGHT"
"""What the right-hand corner's layers have after their name."""

# Layers and their colours by AutoCAD's index, on which all programs agree.
LAYERS = {
    "POINTS": 7, "LABELS": 7, "ARMS": 5, "TIE ROD": 3, "AXIS": 1, "WHEEL": 8, "GROUND": 9,
    "SPRING": 6,
}  # fmt: skip

# $INSUNITS of the DXF reference.
_INSUNITS = {"in": 1, "mm": 4, "cm": 5, "m": 6}
_UNITS = {number: unit for unit, number in _INSUNITS.items()}

_TEXT_SIZE = 0.03
"""Height of a label, in tyre radii, or of the drawing's size where there is no wheel."""

_BESIDE = 0.6
"""How far a label stands from its point along x and y, in its own height."""


def _library():
    try:
        import ezdxf
        import ezdxf.recover
    except ImportError as error:
        raise Trouble("drawings need the package ezdxf; install it: pip install ezdxf") from error
    return ezdxf


# ---------------------------------------------------------------- out


def dxf_of(rows, unit, axle=False):
    """(bytes, sentences): the drawing of `Row`s in their own unit of length, DXF R2010.

    unit: of the points, '' where it is not known. axle: whether the right-hand corner,
    mirrored, is drawn on layers of its own.
    """
    ezdxf = _library()
    doc = ezdxf.new("R2010")
    doc.header["$INSUNITS"] = _INSUNITS.get(unit, 0)
    doc.header["$MEASUREMENT"] = 0 if unit == "in" else 1
    doc.appids.add(APPLICATION)
    drawing = _Drawing(doc, rows)
    drawing.draw(1.0, "")
    if axle:
        drawing.draw(-1.0, RIGHT)
    drawing.settle_view()
    text = io.StringIO()
    doc.write(text)
    return text.getvalue().encode(doc.output_encoding, "dxfreplace"), drawing.messages


class _Drawing:
    def __init__(self, doc, rows):
        self.doc = doc
        self.space = doc.modelspace()
        self.rows = rows
        self.messages = []
        self.block = Block([(r.name, *r.values, *[None] * (3 - len(r.values))) for r in rows])
        self.corner = Corner([(r.name, *r.values, *[None] * (3 - len(r.values))) for r in rows])
        self.points = [row for row in rows if self._is_point(row)]
        if not self.points:
            raise Trouble("the block has no row with three numbers, so there is nothing to draw")
        self.size = self._size()
        self.height = _TEXT_SIZE * self.size
        self.said = False

    def _is_point(self, row):
        if len(row.values) == 3 and all(
            isinstance(v, float) and math.isfinite(v) for v in row.values
        ):
            return True
        if len(row.values) > 1:
            self.messages.append(f"{row.name} is not drawn: x, y and z are not all numbers.")
        return False

    def _size(self):
        """The tyre's radius; without a wheel what the points span."""
        try:
            return self.corner.drawn.radius
        except Mend:
            spans = [
                max(p.values[i] for p in self.points) - min(p.values[i] for p in self.points)
                for i in (0, 1, 2)
            ]
            return max(spans) or 1.0

    def draw(self, side, suffix):
        """Draw one corner; side: 1 the left-hand one, -1 its mirror image."""
        self.side, self.suffix = side, suffix
        for row in self.points:
            self._point(row)
        if side > 0:
            self._values()
        for layer, needed, piece in (
            ("ARMS", POINTS[1:7], self._arms),
            ("TIE ROD", POINTS[7:9], self._tie_rod),
            ("AXIS", (*POINTS[0:2], POINTS[4], "tyre radius"), self._axis),
            ("WHEEL", (POINTS[0], "tyre radius"), self._wheel),
            ("GROUND", (POINTS[0], "tyre radius"), self._ground),
            ("SPRING", ("rod outer", "spring frame"), self._spring),
        ):
            if not all(self.block.has(label) for label in needed):
                continue
            try:
                piece(self._layer(layer))
            except Mend as mend:
                if side > 0:
                    self.messages.append(f"{layer}: not drawn, because {mend}.")
        self.said = True

    def _layer(self, name):
        layer = name + self.suffix
        if layer not in self.doc.layers:
            self.doc.layers.add(layer, color=LAYERS[name])
        return {"layer": layer}

    def _at(self, point):
        """A place in the drawing, of a `Vec` or of x, y, z."""
        x, y, z = (point.x, point.y, point.z) if hasattr(point, "x") else point
        return (x, self.side * y if self.side < 0 else y, z)

    def _line(self, layer, *points):
        places = [self._at(point) for point in points]
        for start, end in pairwise(places):
            if start != end:
                self.space.add_line(start, end, dxfattribs=layer)

    def _text(self, layer, text, place):
        return self.space.add_text(text, height=self.height, dxfattribs={**layer, "insert": place})

    def _point(self, row):
        place = self._at(row.values)
        entity = self.space.add_point(place, dxfattribs=self._layer("POINTS"))
        tags = [(1000, row.name), (1000, "left" if self.side > 0 else "right")]
        entity.set_xdata(APPLICATION, tags)
        x, y, z = place
        away = _BESIDE * self.height
        label = self._text(self._layer("LABELS"), row.name, (x + away, y + away, z))
        label.set_xdata(APPLICATION, [(1000, row.name), (1000, "label")])

    def _values(self):
        """Single numbers and words, as lines of text ahead of everything."""
        x = max(p.values[0] for p in self.points) + 1.2 * self.size
        y = max(p.values[1] for p in self.points)
        z = min(p.values[2] for p in self.points)
        layer = self._layer("LABELS")
        for row in self.rows:
            if len(row.values) != 1 or not isinstance(row.values[0], (float, str)):
                continue
            value = row.values[0]
            number = isinstance(value, float)
            text = f"{row.name} = {repr(value) if number else value}"
            label = self._text(layer, " ".join(filter(None, (text, row.unit))), (x, y, z))
            tags = [(1000, row.name), (1000, "value"), (1040, value) if number else (1000, value)]
            label.set_xdata(APPLICATION, [*tags, (1000, row.unit)])
            y -= 1.8 * self.height

    def _arms(self, layer):
        for arm in ("lower", "upper"):
            ball = self.block.point(arm + " ball joint")
            for end in ("front", "rear"):
                self._line(layer, self.block.point(f"{arm} {end} pickup"), ball)

    def _tie_rod(self, layer):
        self._line(layer, self.block.point("tie rod inner"), self.block.point("tie rod outer"))

    def _axis(self, layer):
        drawn = self.corner.drawn
        self._line(layer, drawn.upper, drawn.lower, drawn.axis_at_ground())

    def _wheel(self, layer):
        from ezdxf.math import OCS

        drawn = self.corner.drawn
        normal = self._at(drawn.spindle)
        # A circle's centre is given in the axes that its extrusion spans.
        centre = OCS(normal).from_wcs(self._at(drawn.wheel_centre))
        self.space.add_circle(
            centre, drawn.radius, dxfattribs={**layer, "extrusion": normal}
        )  # fmt: skip

    def _ground(self, layer):
        contact = self.corner.drawn.contact_centre()
        x, y, z = self._at(contact)
        half, short = self.size, self.height
        corners = [(x + a * half, y + b * half, z) for a, b in ((1, 1), (-1, 1), (-1, -1), (1, -1))]
        self.space.add_polyline3d(corners, close=True, dxfattribs=layer)
        self.space.add_line((x - short, y, z), (x + short, y, z), dxfattribs=layer)
        self.space.add_line((x, y - short, z), (x, y + short, z), dxfattribs=layer)

    def _spring(self, layer):
        point = self.block.point
        if not has_rocker(self.block):
            self._line(layer, point("rod outer"), point("spring frame"))
            return
        self._line(layer, point("rod outer"), point("rod inner"), point("rocker pivot"),
                   point("spring rocker"), point("spring frame"))  # fmt: skip
        self._line(layer, point("rocker pivot"), point("rocker axis"))

    def settle_view(self):
        """Show points as crosses, and all of them when the drawing is opened."""
        self.doc.header["$PDMODE"] = 3
        self.doc.header["$PDSIZE"] = self.height
        places = [e.dxf.location for e in self.space.query("POINT")]
        low = [min(p[i] for p in places) for i in (0, 1)]
        high = [max(p[i] for p in places) for i in (0, 1)]
        middle = tuple((a + b) / 2.0 for a, b in zip(low, high, strict=True))
        height = max(b - a for a, b in zip(low, high, strict=True)) + 2.5 * self.size
        self.doc.set_modelspace_vport(height, middle)


# ---------------------------------------------------------------- in


def rows_of_dxf(path):
    """(rows, sentences): the `Row`s of a drawing's left-hand corner.

    A point's name is in its extended data, or is that of the label beside it where a
    program has dropped the data. Raises `Trouble` for a file that is no drawing, or has no
    such points, or where two claim one name.
    """
    ezdxf = _library()
    try:
        if not Path(path).read_bytes().strip():
            raise ValueError("an empty file")
        doc, _ = ezdxf.recover.readfile(path)
    except FileNotFoundError as error:
        raise Trouble(f"there is no file {path}") from error
    except (OSError, ezdxf.DXFError, ValueError) as error:
        # The library says by an OSError, too, that a file is of another kind.
        raise Trouble(f"{path} is no DXF drawing that can be read; save it anew as DXF") from error
    return _Reading(doc, path).rows()


class _Reading:
    def __init__(self, doc, path):
        self.path = path
        self.messages = []
        self.unit = self._unit(doc.header.get("$INSUNITS", 0))
        space = doc.modelspace()
        self.points = [e for e in space.query("POINT") if not _is_right(e)]
        self.texts = [e for e in space.query("TEXT MTEXT") if not _is_right(e)]

    def _unit(self, number):
        if number in _UNITS or number == 0:
            return _UNITS.get(number, "")
        raise Trouble(
            f"{self.path}: its unit of length ($INSUNITS is {number}) is none of "
            f"{', '.join(MM)}; set the drawing's unit to "
            "one of them"
        )

    def rows(self):
        named, bare = {}, []
        for entity in self.points:
            name = _name_of(entity)
            if name is not None:
                self._take(named, name, entity)
            elif entity.dxf.layer.upper() == "POINTS":
                bare.append(entity)
        if bare:
            self._by_label(named, bare)
        if not named:
            raise Trouble(
                f"{self.path} has no POINT with a name: POINT entities with a label beside them "
                "were "
                "expected, on the layers POINTS and LABELS"
            )
        rows = [Row(name, place, self.unit) for name, place in named.values()]
        return rows + self._values(), self.messages

    def _take(self, named, name, entity):
        place = tuple(float(v) for v in entity.dxf.location)
        key = key_of(name)
        if key in named and named[key][1] != place:
            raise Trouble(f"{self.path}: two points are named {shown(name)}; delete one of them")
        named[key] = (name, place)

    def _by_label(self, named, bare):
        """Name the points that have no data: each by the label that stands beside it."""
        labels = []
        for entity in self.texts:
            text = _plain(entity)
            is_ours = entity.dxf.layer.upper() == "LABELS" and "=" not in text
            if is_ours and text.strip() and key_of(text) not in named:
                labels.append((text.strip(), _anchor(entity)))
        spots = [tuple(float(v) for v in entity.dxf.location) for entity in bare]
        nearest = [_nearest(spot, [at for _, at in labels]) for spot in spots]
        taken = set()
        for number, label in enumerate(nearest):
            if label is not None and _nearest(labels[label][1], spots) == number:
                self._take(named, labels[label][0], bare[number])
                taken.add(label)
        alone = [text for number, (text, _) in enumerate(labels) if number not in taken]
        without = len(bare) - len(taken)
        if alone and without:
            raise Trouble(
                f"{self.path}: it cannot be told which point is {shown(alone[0])}; put the "
                "label beside its point"
            )
        if without:
            self.messages.append(f"Points on the layer POINTS without a name, left out: {without}.")

    def _values(self):
        found = {}
        for entity in self.texts:
            data = _data_of(entity)
            is_value = len(data) >= 3 and data[1] == "value"
            text = _plain(entity)
            if not is_value and not (entity.dxf.layer.upper() == "LABELS" and "=" in text):
                continue
            # What stands in the drawing counts, for it can be seen and edited there.
            row = _value_in(text) or (_value_kept(data) if is_value else None)
            if row is None:
                continue
            if row.key in found and found[row.key] != row:
                raise Trouble(f"{self.path}: two labels give {shown(row.name)}; delete one of them")
            found[row.key] = row
        return [self._with_unit(row) for row in found.values()]

    def _with_unit(self, row):
        if not row.unit and of_known_length(row.key):
            return Row(row.name, row.values, self.unit)
        return row


def _is_right(entity):
    data = _data_of(entity)
    return entity.dxf.layer.upper().endswith(RIGHT) or data[1:2] == ["right"]


def _data_of(entity):
    """What extended data of ours an entity has, without the data's kinds."""
    if not entity.has_xdata(APPLICATION):
        return []
    return [tag.value for tag in entity.get_xdata(APPLICATION) if tag.code != 1001]


def _name_of(entity):
    data = _data_of(entity)
    return data[0].strip() if data and isinstance(data[0], str) and data[0].strip() else None


def _plain(entity):
    text = entity.plain_text() if entity.dxftype() in ("TEXT", "MTEXT") else ""
    return " ".join(text.split())


def _anchor(entity):
    """Where the point of a label is expected: a label stands a little beside it."""
    ocs = entity.ocs() if entity.dxftype() == "TEXT" else None
    place = entity.dxf.insert if ocs is None else ocs.to_wcs(entity.dxf.insert)
    height = entity.dxf.height if ocs is not None else entity.dxf.char_height
    away = _BESIDE * height
    return (float(place[0]) - away, float(place[1]) - away, float(place[2]))


def _nearest(spot, places):
    """The index of the place nearest to a spot; None where there is none."""
    if not places:
        return None
    return min(range(len(places)), key=lambda i: math.dist(spot, places[i]))


def _value_in(text):
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


def _value_kept(data):
    value = data[2]
    unit = data[3] if len(data) > 3 and isinstance(data[3], str) else ""
    return Row(data[0], (value if isinstance(value, str) else float(value),), unit)
