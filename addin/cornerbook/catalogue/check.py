"""CHECK: what is wrong with a block, in words."""

from ..cells.arguments import CORNER
from ..cells.block import POINTS, VALUES
from ..cells.declare import Argument, formula
from ..cells.findings import UNITS, findings
from ..cells.mend import Mend, shown


@formula(
    name="CHECK",
    group="Tables",
    arguments=(
        CORNER,
        Argument(
            "unit", "text",
            "Unit of the block's lengths: mm, cm, m or in; left out, only proportions "
            "are judged.",
            default="any", choices=(*UNITS, "any"),
        ),
    ),
    help='What is wrong with a corner\'s block, in words, or "ok".',
    source="The rows that the linkage needs; proportions of small cars are common "
    "practice, no source.",
    example="=CORNER.CHECK(Example, \"mm\")",
    check="ok",
    shape="text",
)  # fmt: skip
def check(corner, unit):
    found = _rows(corner.block)
    if not found:
        found = _linkage(corner)
    if not found:
        found = _proportions(corner, unit)
    return "# " + "; ".join(found) if found else "ok"


def _rows(block):
    """Every row that is missing, misspelt, double, or not made of numbers."""
    if block.width < 4:
        return [
            f"the block is {block.width} columns wide; a name, x, y and z were expected: "
            "make the range four columns wide"
        ]
    found = []
    for name, alike in block.misspelt():
        found.append(f"the row {shown(name)} is not known; {shown(alike)} was expected")
    spoken = {alike for _, alike in block.misspelt()}
    for label, read in [(p, block.point) for p in POINTS] + [(v, block.value) for v in VALUES]:
        if label in spoken:
            continue
        try:
            read(label)
        except Mend as mend:
            found.append(str(mend))
    return found


def _linkage(corner):
    """What keeps the points from making a linkage."""
    try:
        corner.hold_linkage()
        return []
    except Mend as mend:
        return [str(mend)]


def _proportions(corner, unit):
    return [
        sentence % tuple(shown(value) for value in values)
        for fine, sentence, values in findings(corner, unit)
        if not fine
    ]
