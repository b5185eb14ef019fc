"""What a tape, a rule or a plumb line would read on the car as drawn, beside what was read."""

import difflib

from ...cells.block import ACTUATION_POINTS, POINTS, key_of
from ...cells.declare import Argument, formula
from ...cells.mend import Mend, finite, is_number, shown
from ...geometry.vec import Vec
from .lengths import BLOCK, GROUP

DISTANCE = "distance"
ALONG = {"x": 0, "y": 1, "height": 2}
SIDES = {"left": 1.0, "right": -1.0}


def _column(name, words, unit=""):
    return Argument(name, "any", words, unit=unit, blank=True)


@formula(
    name="SURVEY_AS_DRAWN",
    group=GROUP,
    arguments=(
        BLOCK,
        _column(
            "what",
            "What was read: distance, height, x or y, one below the other; distance if blank.",
        ),
        _column("from_points", "Names of points, with left or right before; left without."),
        _column("to_points", "Likewise, where a distance goes to."),
        _column("measured", "What was read, likewise; blank where nothing is yet.", "length"),
    ),
    help="A row for each row of a survey: what would be read on the car as drawn, and how much "
    "more was read; empty where a row is, and in a third column what is wrong with a row.",
    source="Distance between two points; the other side is the mirror.",
    example='=CORNER.SURVEY_AS_DRAWN(Example, "distance", "upper front pickup", '
    '"right lower rear pickup", 570)',
    check=((568.52880314, 1.47119686, ""),),
    shape="table",
    plain=False,
)
def survey_as_drawn(block, what, from_points, to_points, measured):
    columns = (what, from_points, to_points, measured)
    for cells, name in ((to_points, "to_points"), (measured, "measured"), (what, "what")):
        if len(cells) != len(from_points):
            raise Mend(
                f"{name}: {len(cells)} rows given, {len(from_points)} as of from_points were "
                "expected"
            )
    found = []
    for i in range(len(from_points)):
        try:
            found.append((*_row(block.block, *(cells[i][0] for cells in columns)), ""))
        except Mend as mend:
            found.append(("", "", mend.sentence))
    return tuple(found)


def _row(block, what, one, other, read):
    if what is None and one is None and other is None and read is None:
        return "", ""
    kind = "distance" if what is None else _text("what", what).lower()
    if kind != DISTANCE and kind not in ALONG:
        raise Mend(f"what: {shown(what)} is none of {', '.join((DISTANCE, *ALONG))}")
    if one is None or (kind == DISTANCE and other is None):
        return "", ""
    start = _point(block, "from", one)
    if kind == DISTANCE:
        drawn = (_point(block, "to", other) - start).length()
        if not drawn:
            raise Mend("from and to are in one place")
    else:
        if other is not None:
            raise Mend(f"{kind} is of one point: leave to blank")
        drawn = (start.x, start.y, start.z)[ALONG[kind]]
    if read is None:
        return drawn, ""
    number = finite(read) if is_number(read) else None
    if number is None:
        raise Mend(f"measured: {shown(read)} given, a number was expected")
    return drawn, number - drawn


def _text(what, cell):
    if not isinstance(cell, str):
        raise Mend(f"{what}: {shown(cell)} given, a text was expected")
    return cell.strip()


def _point(block, what, cell):
    """A point as a row names it, on the side that it says."""
    name, sign = _text(what, cell), None
    for side in SIDES:
        # With a space, a hyphen or nothing between, as rows are matched.
        if key_of(name).startswith(side) and not block.has(name):
            name, sign = name[len(side) :].strip(" -_"), SIDES[side]
            break
    if not block.has(name):
        near = difflib.get_close_matches(name.lower(), (*POINTS, *ACTUATION_POINTS), n=1)
        hint = f"; did you mean {near[0]}?" if near else ""
        raise Mend(f"{what}: no row {shown(name)}{hint}")
    at = block.point(name)
    return Vec(at.x, (sign or 1.0) * at.y, at.z)
