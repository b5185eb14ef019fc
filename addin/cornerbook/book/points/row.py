"""A row of a block as a file holds it, and the units of length that a file may use."""

from dataclasses import dataclass

from ...cells.block import CROWN, POINT_KEYS, ROD_MOUNT, VALUE_KEYS, VALUES, key_of
from ..make.texts.units import MM_PER_INCH

MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH}
"""Millimetres in each unit of length that a file or a workbook may use."""

_SPELLED = {
    "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "inch": "in", "inches": "in", '"': "in",
    "degree": "deg", "degrees": "deg", "\N{DEGREE SIGN}": "deg",
}  # fmt: skip

ANGLE_KEYS = {key_of(name) for name in VALUES[1:]}
TEXT_KEYS = {key_of(ROD_MOUNT)}

KNOWN_KEYS = POINT_KEYS | VALUE_KEYS | TEXT_KEYS

_LENGTH_VALUES = {key_of(VALUES[0]), key_of(CROWN)}


@dataclass(frozen=True)
class Row:
    """A row of a block: its name, x, y and z or one number or text, and its unit.

    unit: that of its lengths or angle as it was found; '' where none is said.
    """

    name: str
    values: tuple
    unit: str = ""

    @property
    def key(self):
        """The name as it is compared."""
        return key_of(self.name)

    @property
    def is_triple(self):
        """Whether it has all of x, y and z."""
        return len(self.values) == 3


def unit_named(text):
    """A unit as we spell it: mm, cm, m, in or deg; another text comes back as it is."""
    plain = text.strip().strip("[]()").strip().lower().rstrip(".")
    return _SPELLED.get(plain, plain)


def converted(value, given, wanted):
    """A length in another unit. Twelve digits are kept: 254 mm reads 10 in, not 9.9999999999."""
    if given == wanted:
        return value
    return float(f"{value * MM[given] / MM[wanted]:.12g}")


def of_known_length(key):
    """Whether a row's numbers are lengths; a row of the user's own says so by its unit."""
    return key in POINT_KEYS or key in _LENGTH_VALUES
