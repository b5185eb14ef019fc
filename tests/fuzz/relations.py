"""What a call gives when the same car is told otherwise: relations between two calls.

A relation makes of a call, its arguments by name, another call and what that must give for the
first one's result. Each holds for every formula:

scale     all lengths in another unit, forces as they were
shift     all x of the block moved along the car
order     the rows of the block in another order
letters   names and words in capitals, with hyphens for spaces
numbers   NumPy's numbers in place of floats
mirror    the car in a mirror, by the rules of tests/catalogue/test_mirror.py
"""

import math

import numpy as np
from cornerbook.catalogue import FORMULAS
from cornerbook.cells.block import VALUES, key_of

from tests.catalogue.test_mirror import NONE, RULES, OfAQuantity, Refused
from tests.support.calls import entry_of

NEAR = 1e-6
"""To what part numbers must agree: poses near the end of reach lose some digits."""

_LENGTHS_IN = {
    "length": 1, "degrees per length": -1, "force per length": -1, "force per speed": -1,
    "acceleration": 1, "inertia": 2, "speed": 1, "moment": 1,
    "force per speed squared": -2, "moment per degree": 1, "pressure": -2,
}  # fmt: skip
_LENGTHS_OUT = {
    "length": 1, "degrees per length of travel": -1, "degrees per length of rack": -1,
    "per length of travel": -1, "force per length": -1, "force x length": 1,
    "moment per degree": 1, "mass x length squared": 2, "force per length squared": -2,
    "length per second": 1,
}  # fmt: skip
"""The power of a length in each unit that has one."""

PLACES = ("POINT", "RIM_POINT", "VIEW_POINT", "PLACE_LOWER_BALL_JOINT", "PLACE_UPPER_BALL_JOINT",
          "PLACE_PICKUP", "PLACE_UPPER_PICKUP_FOR_CAMBER", "PLACE_UPPER_PICKUP_FOR_ROLL",
          "PLACE_TIE_ROD_INNER", "PLACE_TIE_ROD_INNER_FOR_RANGE", "PLACE_TIE_ROD_OUTER",
          "PLACE_RACK")  # fmt: skip
"""Formulas that give a place in the body's axes."""

BLOCKS = ("corner", "column", "block", "left_corner", "right_corner")

_SINGLE = {key_of(label) for label in VALUES}


def _each_point(rows, change):
    """The rows with each point's numbers put through a function of its cells."""
    found = []
    for name, *cells in rows:
        is_point = all(isinstance(cell, float) for cell in cells)
        found.append((name, *(change(cells) if is_point else cells)))
    return tuple(found)


# Scale


def scaled(name, named, factor):
    """(arguments, function from the result to what is wanted) with lengths times a factor.

    None for CHECK in a unit that is said: another unit is what it is to find.
    """
    if name == "CHECK" and named["unit"] != "any":
        return None
    given = {a.name: a for a in FORMULAS[name].arguments}
    made = {key: _scaled(given[key], value, named, factor) for key, value in named.items()}

    def wanted(result):
        return _result_scaled(name, named, result, factor)

    return made, wanted


def _scaled(argument, value, named, factor):
    if argument.name in BLOCKS:
        rows = _each_point(value, lambda cells: [cell * factor for cell in cells])
        return tuple(
            (row[0], row[1] * factor, *row[2:]) if key_of(row[0]) == "tyreradius" else row
            for row in rows
        )
    if argument.kind == "rows":
        units = ([""] if argument.named else []) + [column.unit for column in argument.columns]
        return tuple(
            tuple(
                cell * factor ** _LENGTHS_IN.get(unit, 0) if isinstance(cell, float) else cell
                for unit, cell in zip(units, row, strict=True)
            )
            for row in value
        )
    if argument.name in ("band_from", "band_to"):
        return value * factor ** _power_of(named["quantity"])
    if argument.name in ("change_from", "change_to"):
        powers = [_power_of(quantity.strip()) for quantity in named["quantities"].split(",")]
        return tuple(
            tuple(cell * factor**power if isinstance(cell, float) else cell for cell in row)
            for power, row in zip(powers, value, strict=True)
        )
    if argument.kind in ("gaps", "any") and argument.unit == "length":
        return tuple(
            tuple(cell * factor if isinstance(cell, float) else cell for cell in row)
            for row in value
        )
    if argument.unit == "of the input" and value != ():
        over = named["over_" + argument.name.split("_")[0]]
        return value * factor ** _power_of_input(over)
    if isinstance(value, float) and argument.unit in _LENGTHS_IN:
        return value * factor ** _LENGTHS_IN[argument.unit]
    return value


def _power_of_input(over):
    """The power of length in a coordinate of a block, in travel or rack."""
    return 0 if key_of(over) in ("staticcamber", "statictoe") else 1


def _power_of(quantity):
    return _LENGTHS_OUT.get(entry_of(quantity).unit, 0)


def _result_scaled(name, named, result, factor):
    def times(cell, power):
        return cell * factor**power if isinstance(cell, float) else cell

    if result is None or isinstance(result, str):
        return result
    if name == "SURVEY_AS_DRAWN":
        return tuple(tuple(times(cell, 1) for cell in row) for row in result)
    if name == "IN_ROLL":
        angle = named["quantity"] in ("camber", "toe", "caster", "kpi")
        return times(result, 0 if angle else 1)
    if name == "AXLE_AS_BUILT":
        lengths = ("turning radius", "mid rear radius", "track", "roll centre")
        return times(result, 1 if named["quantity"] in lengths else 0)
    if name in ("AT", "ADJUSTER_EFFECT", "ADJUSTED_CHANGE"):
        return times(result, _power_of(named["quantity"]))
    if name == "SENSITIVITY":
        of = named["point"] + (" " + named["coordinate"] if named["coordinate"] != "value" else "")
        return times(result, _power_of(named["quantity"]) - _power_of_input(of))
    if name == "SWEEP":
        powers = [1, *(_power_of(q.strip()) for q in named["quantities"].split(","))]
        return tuple(tuple(map(times, row, powers)) for row in result)
    if name == "SENSITIVITIES":
        powers = [_power_of(q.strip()) for q in named["quantities"].split(",")]
        return tuple(
            (name, *(times(slope, power - _power_of_input(name))
                     for slope, power in zip(slopes, powers, strict=True)))
            for name, *slopes in result
        )  # fmt: skip
    if name == "TWO_WAY":
        down, across = (_power_of_input(named["over_" + way]) for way in ("rows", "columns"))
        power = _power_of(named["quantity"])
        head = (result[0][0], *(times(cell, across) for cell in result[0][1:]))
        rows = [(times(r[0], down), *(times(cell, power) for cell in r[1:])) for r in result[1:]]
        return (head, *rows)
    power = _LENGTHS_OUT.get(FORMULAS[name].unit, 0)
    if isinstance(result, tuple):
        return tuple(tuple(times(cell, power) for cell in row) for row in result)
    return times(result, power)


# The others


def shifted(name, named, way):
    """All x of the block moved along the car."""
    made = {
        key: _each_point(value, lambda c: [c[0] + way, *c[1:]]) if key in BLOCKS else value
        for key, value in named.items()
    }
    if "datum_x" in made:
        made["datum_x"] += way

    def wanted(result):
        if name not in PLACES or isinstance(result, str):
            return result
        if isinstance(result, tuple):
            return tuple((row[0] + way, *row[1:]) for row in result)
        return result + way if named["coordinate"] == "x" else result

    return made, wanted


def reordered(name, named, order):
    """The rows of the block in another order. order: a function that gives a permutation."""
    made = {
        key: tuple(value[i] for i in order(len(value))) if key in BLOCKS else value
        for key, value in named.items()
    }
    return made, lambda result: result


def lettered(name, named):
    """Names and words in capitals, names of rows with hyphens for spaces."""

    def changed(value):
        if isinstance(value, tuple):
            return tuple(tuple(map(changed, row)) for row in value)
        return value.upper().replace(" ", "-") if isinstance(value, str) else value

    made = {key: changed(value) for key, value in named.items()}
    for argument in FORMULAS[name].arguments:
        if argument.choices and argument.name in made:
            made[argument.name] = named[argument.name].upper()
    return made, lambda result: result


def numbered(name, named):
    """NumPy's numbers in place of Python's."""

    def changed(value):
        if isinstance(value, tuple):
            return tuple(tuple(map(changed, row)) for row in value)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            return value
        return np.int32(value) if isinstance(value, int) else np.float64(value)

    return {key: changed(value) for key, value in named.items()}, lambda result: result


def mirrored(name, named):
    """(arguments, wanted, formula) in the mirror; None where its rule has nothing to hold."""
    rule = RULES[name]
    if rule is NONE or isinstance(rule, Refused):
        return None
    if isinstance(rule, OfAQuantity) and not rule.fits(named):
        return None
    made = rule.mirrored(named)
    return made, lambda result: rule.expected(named, result), rule.partner or name


def relations(draw):
    """{name: function of (formula, arguments by name) to (arguments, wanted[, formula])}."""
    return {
        "scale": lambda name, named: scaled(name, named, float(draw.choice([1 / 25.4, 1e-3, 7.0]))),
        "shift": lambda name, named: shifted(name, named, float(draw.uniform(-2000, 2000))),
        "order": lambda name, named: reordered(name, named, draw.permutation),
        "letters": lettered,
        "numbers": numbered,
        "mirror": mirrored,
    }


def agree(found, wanted, size=None):
    """Numbers to `NEAR` of the largest number beside them; sentences by their kind; texts whole."""
    if isinstance(wanted, tuple):
        if not isinstance(found, tuple) or len(found) != len(wanted):
            return False
        if len({len(row) for row in (*found, *wanted)}) != 1:
            return False
        if all(
            isinstance(row[0], str) for row in wanted
        ):  # coordinates, ranked by numbers that have a unit
            found, wanted = sorted(found), sorted(wanted)
        # A column has one unit, and its smallest numbers are the rounding of its largest.
        columns = list(zip(*wanted, strict=True))
        sizes = [max((abs(c) for c in col if isinstance(c, float)), default=1.0) for col in columns]
        return all(
            agree(a, b, most)
            for one, other in zip(found, wanted, strict=True)
            for a, b, most in zip(one, other, sizes, strict=True)
        )
    if isinstance(wanted, str):
        if not isinstance(found, str):
            return False
        return found == wanted or found[:2] == wanted[:2] in ("# ", "ok")
    if wanted is None or found is None:
        return found is wanted
    if not isinstance(found, float):
        return False
    if math.isnan(wanted) or math.isnan(found):
        return math.isnan(wanted) and math.isnan(found)
    return abs(found - wanted) <= NEAR * max(abs(wanted), size or 0.0, 1e-9)
