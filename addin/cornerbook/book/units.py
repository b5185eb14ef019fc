"""The kinds of quantity on a sheet, with their unit, format and conversion.

Scenarios and templates speak of kinds ("length", "angle per length"); the unit system
of a workbook, metric or inch, decides what is shown. An inch is 25.4 mm and a pound
0.45359237 kg by definition (international yard and pound agreement, 1959).
"""

from .trouble import Trouble

MM_PER_INCH = 25.4
KG_PER_POUND = 0.45359237

SYSTEMS = ("mm", "in")

# kind: (metric unit, metric format, inch unit, inch format, metric units in an inch one)
_KINDS = {
    "length": ("mm", "0.0", "in", "0.000", MM_PER_INCH),
    "angle": ("deg", "0.00", "deg", "0.00", 1.0),
    "angle per length": ("deg/mm", "0.0000", "deg/in", "0.000", 1.0 / MM_PER_INCH),
    "mass": ("kg", "0.0", "lb", "0.0", KG_PER_POUND),
    "percent": ("%", "0.0", "%", "0.0", 1.0),
    "count": ("", "0", "", "0", 1.0),
    "ratio": ("", "0.000", "", "0.000", 1.0),
    "text": ("", "@", "", "@", 1.0),
}

KINDS = tuple(_KINDS)


def unit_of(kind, system):
    """The unit's symbol, '' where there is none."""
    return _KINDS[kind][0 if system == "mm" else 2]


def format_of(kind, system):
    """The number format in which a quantity of this kind is shown."""
    return _KINDS[kind][1 if system == "mm" else 3]


def converted(value, kind, given, system):
    """A number of this kind from one unit system in another.

    Twelve digits are kept, so that 254 mm reads 10 in and not 9.9999999999.
    """
    if given == system or kind == "text":
        return value
    factor = _KINDS[kind][4]
    result = value / factor if system == "in" else value * factor
    return float("%.12g" % result)


def kind_of_unit(unit):
    """The kind for a unit as the catalogue words it, such as 'degrees'."""
    known = {
        "length": "length",
        "degrees": "angle",
        "percent": "percent",
        "degrees per length of travel": "angle per length",
        "length per length of travel": "ratio",
        "": "text",
    }
    if unit not in known:
        raise Trouble("no kind of quantity is known for the unit %r" % unit)
    return known[unit]
