"""Mistakes that people make as they type a block, each with a part of what CHECK must say.

They are made in the example corner, in mm. `MISTAKES` maps a mistake's name to (rows, what the
sentence begins with, words of it).
"""

from cornerbook.cells.example import EXAMPLE

WRONG = "# "
LOOK = "ok, but look: "

CORNER = EXAMPLE[:19]
"""The example's corner and spring, without the steering column."""

BARE = EXAMPLE[:12]
"""The corner alone."""

_ONE = ("Tyre radius", "Static camber", "Static toe", "Rod mount")


def at(name, axis, cell, rows=CORNER):
    """One cell of a row changed."""
    place = 1 + "xyz".index(axis)
    return row(name, lambda cells: (*cells[: place - 1], cell, *cells[place:]), rows)


def row(name, change, rows=CORNER):
    """The cells of a row put through a function, or a plain change of its cells."""
    assert any(found[0] == name for found in rows), name
    return tuple(
        (found[0], *(change(found[1:]) if callable(change) else change))
        if found[0] == name
        else found
        for found in rows
    )


def value(name, cell):
    """The single value of a row."""
    return row(name, (cell, "", ""))


def by(factor, *names):
    """Points, or the tyre radius, in another unit."""
    rows = CORNER
    for name in names:
        rows = row(name, lambda cells: tuple(c if c == "" else c * factor for c in cells), rows)
    return rows


def every(change, rows=CORNER):
    """Each point's cells put through a function of x, y, z."""
    return tuple(found if found[0] in _ONE else (found[0], *change(*found[1:])) for found in rows)


def swapped(one, other, rows=CORNER):
    """Two rows whose cells have changed places."""
    cells = {found[0]: found[1:] for found in rows}
    return row(other, cells[one], row(one, cells[other], rows))


def without(*names, rows=CORNER):
    """Rows left out."""
    return tuple(found for found in rows if found[0] not in names)


def named(name, typed, rows=CORNER):
    """A row's name as it was typed."""
    return tuple((typed, *found[1:]) if found[0] == name else found for found in rows)


def _yz(cells):
    return (cells[0], cells[2], cells[1])


def _xy(cells):
    return (cells[1], cells[0], cells[2])


def _inches(rows):
    return tuple(
        row if row[0] in _ONE[1:] else (row[0], *(c if c == "" else c / 25.4 for c in row[1:]))
        for row in rows
    )


def _all_swapped(first, second, rows=CORNER):
    for name in [found[0] for found in rows]:
        if first in name:
            rows = swapped(name, name.replace(first, second), rows)
    return rows


INCH, CM, M = 1 / 25.4, 0.1, 0.001
ROCKER = ("Rod inner", "Rocker pivot", "Rocker axis", "Spring rocker")

MISTAKES = {
    # Signs
    "all x count backward": (every(lambda x, y, z: (-x, y, z)), WRONG, "does x count backward"),
    "x backward, front and rear named to suit": (
        _all_swapped("front", "rear", every(lambda x, y, z: (-x, y, z))),
        LOOK, "caster is -6.6 degrees: the axis leans forward; do x count backward",
    ),
    "the right-hand corner": (
        every(lambda x, y, z: (x, -y, z)), WRONG, "give the left-hand corner",
    ),
    "z counts downward": (
        every(lambda x, y, z: (x, y, -z)), WRONG, "the upper ball joint must lie above",
    ),
    "minus dropped, rear pickup": (
        at("Lower rear pickup", "x", 150.0), WRONG,
        "lower front pickup: x is 120, behind the rear one's 150", "is a minus missing",
    ),
    "minus dropped, upper rear pickup": (
        at("Upper rear pickup", "x", 130.0), WRONG, "upper front pickup: x is 90, behind",
    ),
    "minus too many, front pickup": (
        at("Upper front pickup", "x", -90.0), LOOK,
        "upper pickups: front and rear are 40 apart along the car, unusually little", "a minus",
    ),
    "minus dropped, upper ball joint": (
        at("Upper ball joint", "x", 20.0), LOOK, "caster is -3.6 degrees", "minus of one missing",
    ),
    "minus dropped, tie rod outer": (
        at("Tie rod outer", "x", 95.0), LOOK, "tie rod: seen from above", "an x of its ends wrong",
    ),
    "minus dropped, tie rod inner": (
        at("Tie rod inner", "x", 100.0), LOOK, "tie rod: seen from above it runs 35 degrees askew",
    ),
    "minus too many, y of a pickup": (
        at("Lower front pickup", "y", -210.0), LOOK,
        "lower front pickup: y is -210, right of the car's middle: is a minus too many?",
    ),
    "minus too many, y of the tie rod": (
        at("Tie rod inner", "y", -215.0), LOOK, "tie rod inner: y is -215, right of",
    ),
    "minus too many, z of a pickup": (
        at("Lower rear pickup", "z", -155.0), WRONG,
        "lower rear pickup lies 155 below the tyre's lowest point: is a minus too many",
    ),
    "minus too many, y of the wheel": (
        at("Wheel centre", "y", -550.0), WRONG, "wheel centre: y is -550",
    ),
    "minus too many, z of the spring": (
        at("Spring frame", "z", -470.0), WRONG, "spring frame lies 470", "below",
    ),
    "minus too many, y of the rocker": (
        at("Rocker pivot", "y", -205.0), LOOK, "rocker pivot: y is -205, right of the car's middle",
    ),
    # Digits and decimal points
    "digits change places, ball joint": (
        at("Lower ball joint", "y", 150.0), WRONG, "lower ball joint is 1.6 tyre radii",
    ),
    "digits change places, upper ball joint": (
        at("Upper ball joint", "y", 745.0), LOOK, "kingpin inclination is -46", "a ball joint's y",
    ),
    "digits change places, radius": (
        value("Tyre radius", 206.0), LOOK, "the tyre's lowest point is at z 54",
    ),
    "digits change places, wheel centre": (
        at("Wheel centre", "z", 206.0), LOOK, "the tyre's lowest point is at z -54", "ground at 0",
    ),
    "a wrong digit, wheel centre": (
        at("Wheel centre", "z", 280.0), LOOK,
        "the tyre's lowest point is at z 20, where the ground at 0 was expected: is the wheel "
        "centre's z or the tyre radius wrong",
    ),
    "digits change places, pickup": (
        at("Upper front pickup", "z", 535.0), LOOK, "upper pickups: seen from the side",
        "a z of theirs wrong",
    ),
    "decimal point dropped, upper ball joint": (
        at("Upper ball joint", "y", 4750.0), WRONG, "upper ball joint is", "another unit",
    ),
    "decimal point dropped, pickup": (
        at("Lower rear pickup", "z", 1550.0), WRONG, "lower rear pickup is", "tyre radii",
    ),
    "decimal point dropped, camber": (
        value("Static camber", -10.0), LOOK,
        "static camber: -10 degrees is unusually much: is the decimal point missing?",
    ),
    "two digits too many, camber": (
        value("Static camber", -100.0), WRONG, "static camber: -100 degrees",
    ),
    "decimal point dropped, toe": (value("Static toe", 25.0), WRONG, "static toe: 25 degrees"),
    "toe in millimetres": (
        value("Static toe", 3.0), LOOK, "static toe: 3 degrees", "is it a length",
    ),
    "a digit left out, wheel centre": (
        at("Wheel centre", "y", 55.0), WRONG,
        "wheel centre: y is 55, which does not go with a tyre radius of 260", "a digit",
    ),
    "a digit too many, tie rod": (
        at("Tie rod outer", "y", 4900.0), WRONG, "tie rod outer is", "another unit",
    ),
    # Units
    "inches in a millimetre sheet": (
        _inches(CORNER), WRONG, "were inches typed into a sheet in millimetres?",
    ),
    "centimetres in a millimetre sheet": (
        by(CM, *(found[0] for found in CORNER if found[0] not in _ONE[1:])), WRONG,
        "were centimetres typed into a sheet in millimetres?",
    ),
    "metres in a millimetre sheet": (
        by(M, *(found[0] for found in CORNER if found[0] not in _ONE[1:])), WRONG,
        "were metres typed into a sheet in millimetres?",
    ),
    "the radius alone in inches": (by(INCH, "Tyre radius"), WRONG, "were inches typed"),
    "the radius is the diameter": (
        value("Tyre radius", 520.0), WRONG, "tyre radius: 520 mm", "is it the diameter?",
    ),
    "centimetres in one row, lower ball joint": (
        by(CM, "Lower ball joint"), WRONG, "lower ball joint is", "another unit",
    ),
    "centimetres in one row, pickup": (by(CM, "Upper front pickup"), WRONG, "upper front pickup"),
    "inches in one row, pickup": (
        by(INCH, "Lower front pickup"), LOOK, "lower front pickup: z is 6.5", "unit wrong",
    ),
    "inches in one row, tie rod": (
        by(INCH, "Tie rod inner"), LOOK, "tie rod inner: z is 7.2", "unusually low",
    ),
    "inches in one row, rocker": (by(INCH, "Rocker pivot"), LOOK, "rocker pivot: z is 16.2"),
    "metres in one row, spring": (by(M, "Spring frame"), LOOK, "spring frame: z is 0.4 above"),
    "one z in centimetres": (
        at("Lower ball joint", "z", 15.0), LOOK, "lower ball joint: z is 15", "the unit wrong",
    ),
    "one z in centimetres, upper ball joint": (
        at("Upper ball joint", "z", 37.5), WRONG, "the upper ball joint must lie above",
    ),
    "one z in centimetres, upper pickup": (
        at("Upper rear pickup", "z", 35.0), WRONG,
        "upper rear pickup: z is 35, not above the lower one's 155",
    ),
    "one z in centimetres, tie rod": (
        at("Tie rod outer", "z", 18.0), LOOK, "tie rod outer: z is 18 above",
    ),
    "one y in inches, ball joint": (
        at("Lower ball joint", "y", 510 * INCH), WRONG, "lower ball joint is 2.1 tyre radii",
    ),
    "one y in centimetres, pickup": (
        at("Upper rear pickup", "y", 25.5), LOOK, "upper pickups: seen from above", "a unit",
    ),
    "one y in centimetres, rod": (
        at("Rod outer", "y", 47.0), LOOK, "rod outer: y is 47, not between the lower arm's",
    ),
    # Columns and rows
    "y and z change places, upper ball joint": (
        row("Upper ball joint", _yz), LOOK, "kingpin inclination is 22.6 degrees",
        "y and z swapped",
    ),
    "y and z change places, lower ball joint": (
        row("Lower ball joint", _yz), WRONG, "the upper ball joint must lie above",
    ),
    "y and z change places, everywhere": (
        every(lambda x, y, z: (x, z, y)), WRONG, "must lie above",
    ),
    "y and z change places, upper pickup": (
        row("Upper front pickup", _yz), LOOK, "upper pickups: seen from the side",
    ),
    "y and z change places, wheel centre": (
        row("Wheel centre", _yz), WRONG, "lower ball joint is 1.8 tyre radii from the wheel centre",
        "that of the wheel centre wrong",
    ),
    "x and y change places, everywhere": (
        every(lambda x, y, z: (y, x, z)), WRONG, "wheel centre: y is 0",
    ),
    "x and y change places, wheel centre": (
        row("Wheel centre", _xy), WRONG, "wheel centre: y is 0; give the left-hand corner",
    ),
    "x and y change places, tie rod": (
        row("Tie rod outer", _xy), WRONG, "tie rod outer is 3.1 tyre radii",
    ),
    "upper and lower change places": (
        _all_swapped("Upper", "Lower"), WRONG, "the upper ball joint must lie above",
    ),
    "upper and lower pickups change places": (
        swapped("Upper rear pickup", "Lower rear pickup",
                swapped("Upper front pickup", "Lower front pickup")), WRONG,
        "upper front pickup: z is 165, not above the lower one's 355: are two rows swapped",
    ),
    "front and rear change places, lower": (
        swapped("Lower front pickup", "Lower rear pickup"), WRONG,
        "lower front pickup: x is -150, behind the rear one's 120: are the two rows swapped",
    ),
    "front and rear change places, upper": (
        swapped("Upper front pickup", "Upper rear pickup"), WRONG, "upper front pickup: x is -130",
    ),
    "outer and inner change places, tie rod": (
        swapped("Tie rod outer", "Tie rod inner"), WRONG, "tie rod outer",
    ),
    "a ball joint and a pickup change places": (
        swapped("Lower ball joint", "Lower front pickup"), WRONG, "lower ball joint is",
    ),
    "tie rod and ball joint change places": (
        swapped("Tie rod outer", "Lower ball joint"), LOOK, "caster is -21 degrees",
    ),
    "outer and inner change places, rod": (swapped("Rod outer", "Rod inner"), LOOK, "rod outer"),
    "spring's ends change places": (
        swapped("Spring rocker", "Spring frame"), LOOK,
        "the spring grows longer as the wheel rises",
    ),
    "a row twice": ((*CORNER, CORNER[5]), WRONG, '"Lower front pickup" stands in the block more'),
    "a row left out": (without("Tie rod inner"), WRONG, 'the row "tie rod inner" is missing'),
    "the radius left out": (without("Tyre radius"), WRONG, 'the row "tyre radius" is missing'),
    "a name misspelt": (
        named("Lower ball joint", "Lower bal joint"), WRONG,
        'the row "Lower bal joint" is not known; "lower ball joint" was expected',
    ),
    "a name misspelt, pickup": (
        named("Upper front pickup", "Uper front pick-up"), WRONG,
        '"upper front pickup" was expected',
    ),
    "a column left out": (tuple(found[:3] for found in CORNER), WRONG, "3 columns wide"),
    "two pickups in one place": (
        row("Upper rear pickup", CORNER[8][1:]), WRONG, "are one point",
    ),
    # Cells
    "an empty cell": (at("Upper ball joint", "z", ""), WRONG, "Upper ball joint: z is empty"),
    "an empty value": (value("Static toe", ""), WRONG, "Static toe: the value is empty"),
    "a decimal comma in a text": (
        at("Lower ball joint", "y", "521,5"), WRONG, 'Lower ball joint: y is "521,5"',
        "decimal point",
    ),
    "a letter for a digit": (at("Lower ball joint", "y", "52l"), WRONG, '"52l"', "a number alone"),
    "a unit in the cell": (at("Wheel centre", "z", "260 mm"), WRONG, '"260 mm"', "a number alone"),
    "a text for the radius": (
        value("Tyre radius", "R260"), WRONG, 'Tyre radius: the value is "R260"',
    ),
    # Spring, rod and rocker
    "rod mount misspelt": (
        value("Rod mount", "lower arn"), WRONG, '"lower arn"', "lower arm, upper arm, upright",
    ),
    "rod mount empty": (value("Rod mount", ""), WRONG, "Rod mount: empty", "lower arm"),
    "rod mount on the wrong arm": (
        value("Rod mount", "upper arm"), LOOK, "off the upper arm, which rod mount names",
        "is that the lower arm or the upright",
    ),
    "rod on the other arm": (
        row("Rod outer", (-18.0, 440.0, 365.0)), LOOK, "off the lower arm, which rod mount names",
        "is that the upper arm or the upright",
    ),
    "rod mount on the upright, rod far in": (
        at("Rod outer", "y", 360.0, value("Rod mount", "upright")), LOOK, "off the upright",
        "is that the lower arm",
    ),
    "a rod mount and no spring": (
        (*BARE, ("Rod mount", "lower arm", "", "")), WRONG, 'the row "rod outer" is missing',
        'the row "spring frame" is missing',
    ),
    "the spring's end left out": (
        without("Spring frame"), WRONG, 'the row "spring frame" is missing',
    ),
    "two rows of the rocker left out": (
        without("Rocker axis", "Spring rocker"), WRONG, 'the row "rocker axis" is missing',
        'the row "spring rocker" is missing',
    ),
    "a name of the rocker misspelt": (
        named("Rocker pivot", "Rocker pivt"), WRONG, '"Rocker pivt" is not known; "rocker pivot"',
    ),
    "an empty cell, rocker": (at("Rocker axis", "y", ""), WRONG, "Rocker axis: y is empty"),
    "a text, spring": (at("Spring frame", "x", "-2O"), WRONG, 'Spring frame: x is "-2O"'),
    "pivot and axis in one place": (
        row("Rocker axis", CORNER[15][1:]), WRONG, "rocker pivot and rocker axis are one point",
    ),
    "rod of no length": (
        row("Rod inner", CORNER[13][1:]), WRONG, "rod outer and rod inner are one point",
    ),
    "spring of no length": (
        row("Spring frame", CORNER[17][1:]), WRONG, "spring rocker and spring frame are one point",
    ),
    "rod inner on the rocker's axis": (
        row("Rod inner", CORNER[15][1:]), WRONG, "rod inner lies on the rocker's axis",
    ),
    "a spring longer than the car": (
        at("Spring frame", "y", -2900.0), WRONG, "spring frame is", "another unit",
    ),
    "a spring as long as the car": (
        at("Spring rocker", "x", -1400.0), WRONG,
        "the spring is 1397.1 long, longer than any car's",
    ),
    "a wheel far from the car": (
        at("Wheel centre", "y", 5500.0), WRONG, "wheel centre: y is 5500, which does not go with",
    ),
    "a spring far too long": (
        at("Spring frame", "x", 1100.0), LOOK, "the spring is 1131.2 long, unusual",
    ),
    "axis of the rocker points along the rod": (
        row("Rocker axis", (-12.0, 165.0, 466.0)), LOOK, "the rod leans",
    ),
    "spring on the wrong side of the rocker": (
        row("Spring frame", (0.0, 440.0, 486.0)), LOOK,
        "the spring grows longer as the wheel rises",
    ),
    "coil-over without rocker far from its arm": (
        at("Rod outer", "z", 420.0, without(*ROCKER)), LOOK, "off the lower arm",
    ),
    "motion ratio of next to nothing": (
        row("Spring rocker", (-9.0, 206.0, 430.0)), LOOK, "motion ratio is",
    ),
}  # fmt: skip
