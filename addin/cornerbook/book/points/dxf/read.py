"""The points of a left-hand corner out of a DXF drawing, ours or one that was edited since."""

from ....cells.block import key_of
from ....cells.mend import shown
from ...file.save import hold_possible
from ...file.trouble import Trouble
from ..row import MM, Row, of_known_length
from .entity import (
    anchor,
    data_of,
    is_right,
    name_of,
    nearest,
    place_of,
    text_of,
    value_in,
    value_kept,
)
from .marks import INSUNITS, library
from .numbers import hold_numbers

MOST = 20_000_000
"""Bytes of the largest drawing that is read: some hundred thousand points."""

MOST_BARE = 1000
"""Points without data, and labels, of which each is held to each."""

_UNITS = {number: unit for unit, number in INSUNITS.items()}


def rows_of_dxf(path):
    """(rows, sentences): the `Row`s of a drawing's left-hand corner.

    A point's name is in its extended data, or is that of the label beside it where a
    program has dropped the data. Raises `Trouble` for a file that is no drawing, or has no
    such points, or where two claim one name.
    """
    ezdxf = library()
    try:
        content = _content(path)
        if not content.strip():
            raise ValueError("an empty file")
        hold_numbers(content, path)
        doc = _mended(ezdxf, path)
    except FileNotFoundError as error:
        raise Trouble(f"there is no file {path}") from error
    except (OSError, ezdxf.DXFError, ValueError) as error:
        # The library says by an OSError, too, that a file is of another kind.
        raise Trouble(f"{path} is no DXF drawing that can be read; save it anew as DXF") from error
    return _Reading(doc, path).rows()


def _mended(ezdxf, path):
    """The drawing of a file, as the library mends it; ValueError where it fails at that.

    What it meets in a damaged file it does not always say by an error of its own.
    """
    try:
        return ezdxf.recover.readfile(path)[0]
    except OSError:
        raise
    except Exception as error:
        raise ValueError(f"{type(error).__name__} within the library") from error


def _content(path):
    """The bytes of a file; raises `Trouble` for one that is larger than a corner's drawing."""
    hold_possible(path)
    with open(path, "rb") as file:
        content = file.read(MOST + 1)
    if len(content) > MOST:
        raise Trouble(
            f"{path} has more than {MOST // 1000000} MB, and a drawing of points has less; save "
            "the points and their labels alone"
        )
    return content


class _Reading:
    """One drawing read: its points by their data or their labels, its values by theirs."""

    def __init__(self, doc, path):
        self.path = path
        self.messages = []
        self.unit = self._unit(doc.header.get("$INSUNITS", 0))
        space = doc.modelspace()
        self.points = [e for e in space.query("POINT") if not is_right(e)]
        self.texts = [e for e in space.query("TEXT MTEXT") if not is_right(e)]

    def _unit(self, number):
        if number in _UNITS or number == 0:
            return _UNITS.get(number, "")
        raise Trouble(
            f"{self.path}: its unit of length ($INSUNITS is {number}) is none of "
            f"{', '.join(MM)}; set the drawing's unit to one of them"
        )

    def rows(self):
        """(rows, sentences), points first."""
        named, bare = {}, []
        for entity in self.points:
            name = name_of(entity)
            if name is not None:
                self._take(named, name, entity)
            elif entity.dxf.layer.upper() == "POINTS":
                bare.append(entity)
        if bare:
            self._by_label(named, bare)
        if not named:
            raise Trouble(
                f"{self.path} has no POINT with a name: POINT entities with a label beside them "
                "were expected, on the layers POINTS and LABELS"
            )
        rows = [Row(name, place, self.unit) for name, place in named.values()]
        return rows + self._values(named), self.messages

    def _take(self, named, name, entity):
        place = place_of(entity)
        key = key_of(name)
        if key in named and named[key][1] != place:
            raise Trouble(f"{self.path}: two points are named {shown(name)}; delete one of them")
        named[key] = (name, place)

    def _by_label(self, named, bare):
        """Name the points that have no data: each by the label that stands beside it."""
        labels = []
        for entity in self.texts:
            text = text_of(entity)
            is_ours = entity.dxf.layer.upper() == "LABELS" and "=" not in text
            if is_ours and text and key_of(text) not in named:
                labels.append((text, anchor(entity)))
        if max(len(bare), len(labels)) > MOST_BARE:
            raise Trouble(
                f"{self.path}: {len(bare)} points without a name in their data and {len(labels)} "
                f"labels; up to {MOST_BARE} are told apart by their places, so save the points of "
                "the corner alone"
            )
        spots = [place_of(entity) for entity in bare]
        closest = [nearest(spot, [at for _, at in labels]) for spot in spots]
        taken = set()
        for number, label in enumerate(closest):
            if label is not None and nearest(labels[label][1], spots) == number:
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

    def _values(self, named):
        """The rows of single numbers and words. named: the points by the keys of their names,
        whose labels may look like a value, too."""
        found = {}
        for entity in self.texts:
            data = data_of(entity)
            is_value = len(data) >= 3 and data[1] == "value"
            text = text_of(entity)
            if not is_value and (
                entity.dxf.layer.upper() != "LABELS" or "=" not in text or key_of(text) in named
            ):
                continue
            # What stands in the drawing counts, for it can be seen and edited there.
            row = value_in(text) or (value_kept(data) if is_value else None)
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
