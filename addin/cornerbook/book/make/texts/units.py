"""The kinds of quantity on a sheet, with their unit, format and conversion.

Scenarios and templates speak of kinds ("length", "angle per length"); the unit system
of a workbook, metric or inch, decides what is shown. An inch is 25.4 mm and a pound
0.45359237 kg by definition (international yard and pound agreement, 1959).
"""

from ...file.trouble import Trouble

MM_PER_INCH = 25.4
KG_PER_POUND = 0.45359237
KM_PER_MILE = 1.609344
NEWTON_PER_POUND = KG_PER_POUND * 9.80665

SYSTEMS = ("mm", "in")

# kind: (metric unit, metric format, inch unit, inch format, metric units in an inch one)
_KINDS = {
    "length": ("mm", "0.0", "in", "0.000", MM_PER_INCH),
    "small length": ("mm", "0.00", "in", "0.0000", MM_PER_INCH),
    "long length": ("mm", "0", "in", "0.0", MM_PER_INCH),
    "angle": ("deg", "0.00", "deg", "0.00", 1.0),
    "angle per length": ("deg/mm", "0.0000", "deg/in", "0.000", 1.0 / MM_PER_INCH),
    "mass": ("kg", "0.0", "lb", "0.0", KG_PER_POUND),
    "inertia": ("kg m2", "0.00", "lb ft2", "0.0", KG_PER_POUND * (0.012 * MM_PER_INCH) ** 2),
    "force": ("N", "0", "lbf", "0.0", NEWTON_PER_POUND),
    "rate": ("N/mm", "0.00", "lbf/in", "0.0", NEWTON_PER_POUND / MM_PER_INCH),
    "stiffness": ("N/mm", "0", "lbf/in", "0", NEWTON_PER_POUND / MM_PER_INCH),
    "damper rate": ("N s/mm", "0.000", "lbf s/in", "0.00", NEWTON_PER_POUND / MM_PER_INCH),
    "roll stiffness": ("N mm/deg", "0", "lbf in/deg", "0", NEWTON_PER_POUND * MM_PER_INCH),
    "moment": ("N mm", "0", "lbf in", "0.0", NEWTON_PER_POUND * MM_PER_INCH),
    "torque": ("N m", "0.00", "lbf ft", "0.00", NEWTON_PER_POUND * MM_PER_INCH * 0.012),
    "large torque": ("N m", "0", "lbf ft", "0", NEWTON_PER_POUND * MM_PER_INCH * 0.012),
    "large roll stiffness": (
        "N m/deg",
        "0.0",
        "lbf ft/deg",
        "0.0",
        NEWTON_PER_POUND * MM_PER_INCH * 0.012,
    ),
    "torsional stiffness": (
        "N m/deg",
        "0",
        "lbf ft/deg",
        "0",
        NEWTON_PER_POUND * MM_PER_INCH,
    ),
    "force per angle": ("N/deg", "0.0", "lbf/deg", "0.0", NEWTON_PER_POUND),
    "yaw response": ("deg/s2/N", "0.000", "deg/s2/lbf", "0.00", 1.0 / NEWTON_PER_POUND),
    "speed": ("km/h", "0.0", "mph", "0.0", KM_PER_MILE),
    "velocity": ("m/s", "0.00", "ft/s", "0.0", 0.012 * MM_PER_INCH),
    "distance": ("m", "0.0", "ft", "0.0", 0.012 * MM_PER_INCH),
    "large length": ("m", "0.00", "ft", "0.00", MM_PER_INCH),
    "time": ("s", "0.00", "s", "0.00", 1.0),
    "rotation": ("rpm", "0", "rpm", "0", 1.0),
    "drag area": ("m2", "0.00", "ft2", "0.0", (0.012 * MM_PER_INCH) ** 2),
    "density": ("kg/m3", "0.000", "lb/ft3", "0.0000", KG_PER_POUND / (0.012 * MM_PER_INCH) ** 3),
    "pressure": ("MPa", "0.00", "psi", "0", NEWTON_PER_POUND / MM_PER_INCH**2),
    "per length": ("1/mm", "0.00000", "1/in", "0.0000", 1.0 / MM_PER_INCH),
    "lateral acceleration": ("g", "0.00", "g", "0.00", 1.0),
    "roll gradient": ("deg/g", "0.00", "deg/g", "0.00", 1.0),
    "frequency": ("Hz", "0.00", "Hz", "0.00", 1.0),
    "percent": ("%", "0.0", "%", "0.0", 1.0),
    "count": ("", "0", "", "0", 1.0),
    "ratio": ("", "0.000", "", "0.000", 1.0),
    "large ratio": ("", "0.00", "", "0.00", 1.0),
    "text": ("", "@", "", "@", 1.0),
}

KINDS = tuple(_KINDS)

# Kinds that a scenario says in its lengths, N mm or lbf in, as all else, and a sheet shows in a
# larger unit: how many of the one make one of the other.
_LARGE = {
    "large length": {"mm": 1000.0, "in": 12.0},
    "torsional stiffness": {"mm": 1000.0, "in": 12.0},
}

AS_SAID = tuple(kind for kind in KINDS if kind not in _LARGE)
"""The kinds that a sheet shows in the unit in which a scenario says them."""

SYMBOLS = frozenset(kind[column] for kind in _KINDS.values() for column in (0, 2)) - {""}
"""The symbols of all units."""

# Words that a template may use in braces for the standard acceleration of gravity, 9.80665
# m/s2, in the workbook's lengths per second squared, for the weight of a unit of mass, for
# how many of its moments (N mm, lbf in) make one of torque (N m, lbf ft), how many of its
# masses times lengths squared (kg mm2, lb in2) one of inertia (kg m2, lb ft2), how many of its
# lengths a second one of speed (km/h, mph), and how many of its lengths one of distance (m, ft).
CONSTANTS = {
    "mm": {
        "{gravity}": "9806.65",
        "{weight}": "9.80665",
        "{torque}": "1000",
        "{inertia}": "1000000",
        "{speed}": "(1000/3.6)",
        "{distance}": "1000",
    },
    "in": {
        "{gravity}": "386.088582677165",
        "{weight}": "1",
        "{torque}": "12",
        "{inertia}": "144",
        "{speed}": "17.6",
        "{distance}": "12",
    },
}


# How much of a kind a chart's axis shows at least, in metric units: less of it matters to nobody,
# and drawn large would look like much.
_LEAST_SHOWN = {
    "length": 10.0, "angle": 0.5, "ratio": 0.2, "force": 50.0, "percent": 10.0, "rate": 5.0,
    "moment": 5000.0, "torque": 5.0, "angle per length": 0.005, "per length": 0.001,
    "large length": 1000.0, "large torque": 50.0, "lateral acceleration": 0.2, "speed": 5.0,
    "distance": 5.0, "small length": 1.0,
    "large ratio": 1.0, "stiffness": 500.0, "roll gradient": 0.2, "frequency": 0.5, "mass": 10.0,
}  # fmt: skip


def least_shown(kind, system):
    """How much of this kind a chart's axis shows at least; 0 where any is much."""
    return on_sheet(converted(_LEAST_SHOWN.get(kind, 0.0), kind, "mm", system), kind, system)


def on_sheet(value, kind, system):
    """A number as a scenario of this unit system says it, as a sheet shows it: 8500 mm as 8.5 m."""
    return _twelve_digits(value / _LARGE[kind][system]) if kind in _LARGE else value


def off_sheet(value, kind, system):
    """A number as a sheet shows it, as a scenario of its unit system says it."""
    return _twelve_digits(value * _LARGE[kind][system]) if kind in _LARGE else value


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
    return _twelve_digits(value / factor if system == "in" else value * factor)


def _twelve_digits(value):
    return float(f"{value:.12g}")


def kind_of_unit(unit):
    """The kind for a unit as the catalogue words it, such as 'degrees'."""
    known = {
        "length": "length",
        "degrees": "angle",
        "percent": "percent",
        "degrees per length of travel": "angle per length",
        "degrees per length of rack": "angle per length",
        "length per length of travel": "ratio",
        "per length of travel": "per length",
        "": "text",
    }
    if unit not in known:
        raise Trouble(f"no kind of quantity is known for the unit {unit!r}")
    return known[unit]
