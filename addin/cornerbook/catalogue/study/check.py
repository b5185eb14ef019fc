"""CHECK: what is wrong with a block, in words."""

from ...cells.arguments import CORNER
from ...cells.block import CROWN, POINTS, ROD_MOUNT, VALUES
from ...cells.declare import Argument, formula
from ...cells.findings import UNITS, findings
from ...cells.judge import BUT_LOOK, WRONG
from ...cells.mend import Mend, shown
from ...geometry.springing.actuation import MOUNTS


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
    help='What is wrong with a corner\'s block in words, "ok, but look" with what is unlikely, '
    'or "ok"; rows of a spring are judged where there are any.',
    source="The rows that the linkage and the spring need; proportions of small cars are common "
    "practice, no source.",
    example="=CORNER.CHECK(Example, \"mm\")",
    check="ok",
    shape="text",
)  # fmt: skip
def check(corner, unit):
    found = _rows(corner.block)
    if not found:
        found = _linkage(corner)
    if found:
        return "# " + "; ".join(found)
    found = _proportions(corner, unit)
    wrong = [said for kind, said in found if kind == WRONG]
    if wrong:
        return "# " + "; ".join(wrong)
    return BUT_LOOK + "; ".join(said for _, said in found) if found else "ok"


def _rows(block):
    """Every row that is missing, misspelt, double, or not made of numbers."""
    if block.width < 4:
        return [
            f"the block is {block.width} columns wide; a name, x, y and z were expected: "
            "make the range four columns wide"
        ]
    found = []
    misspelt = block.misspelt()
    for name, alike in misspelt:
        found.append(f"the row {shown(name)} is not known; {shown(alike)} was expected")
    spoken = {alike for _, alike in misspelt}
    points = (*POINTS, *block.spring_points())
    asked = [(p, block.point) for p in points] + [(v, block.value) for v in VALUES]
    if block.has(CROWN):
        asked.append((CROWN, block.value))
    if block.spring_points():
        asked.append((ROD_MOUNT, lambda label: block.word(label, MOUNTS)))
    for label, read in asked:
        if label in spoken:
            continue
        try:
            read(label)
        except Mend as mend:
            found.append(str(mend))
    return found


def _proportions(corner, unit):
    """Pairs of a kind and what is said, for each finding whose condition does not hold."""
    found = []
    try:
        for kind, fine, sentence, values in findings(corner, unit):
            if not fine:
                found.append((kind, sentence % tuple(shown(value) for value in values)))
    except (ZeroDivisionError, OverflowError):
        # Points in one line or plane may leave later ones without a number.
        if not any(kind == WRONG for kind, _ in found):
            raise
    return found


def _linkage(corner):
    """What keeps the points from making a linkage, and the spring's from making an actuation."""
    try:
        corner.hold_linkage()
        if corner.block.spring_points():
            corner.hold_actuation()
        return []
    except Mend as mend:
        return [str(mend)]
