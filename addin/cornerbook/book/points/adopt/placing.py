"""What the sheet Placing gives, step by step, each worked out with the points of those before."""

from ....cells.block import key_of
from ....cells.mend import is_number
from ...file.trouble import Trouble
from ...formula.parse import parse
from ...formula.rewrite import has_call
from ...make.formulas.bare import before_asking
from ...study.recalculate import Recalculation
from ..row import Row

AXES = "xyz"

STEPS = (
    (
        "the steering axis",
        {
            "PLACE_LOWER_BALL_JOINT": "lower ball joint",
            "PLACE_UPPER_BALL_JOINT": "upper ball joint",
        },
    ),
    ("the pickups", {"PLACE_PICKUP": "pickup"}),
    ("the tie rod's outer end", {"PLACE_TIE_ROD_OUTER": "tie rod outer"}),
    ("the tie rod's inner end", {"PLACE_TIE_ROD_INNER_FOR_RANGE": "tie rod inner"}),
)
"""The steps in their order: what each is about, and {formula: the point that it places}. Which of
the four pickups one places, its second argument says."""

_PICKUPS = ("lower front", "lower rear", "upper front", "upper rear")


class Placed:
    """What the steps came to.

    rows: `Row`s of the points, in the unit of the block. wished: (sheet, address) of the aims that
    they follow. left_out: what the steps are about that the workbook does not have.
    """

    def __init__(self, rows, wished, left_out):
        self.rows = rows
        self.wished = wished
        self.left_out = left_out


def placed(block, rounds=1):
    """The `Placed` of a block, a `PointBlock`, of whose workbook nothing is changed.

    rounds: how many times all steps are gone through; a later step takes back a little of an
    earlier one, which the next round mends. Raises `Trouble` for a place that is none, with the
    sentence that its cell shows.
    """
    book = Recalculation(block.package)
    steps, wished = _steps(book.trees, block)
    left_out = [about for about, cells in steps if not cells]
    if len(left_out) == len(steps):
        raise Trouble(
            f"no cell of {block.package.where} says where a point of {block.name} goes; a workbook "
            "with the sheet Placing was expected"
        )
    drawn: dict = {}
    rows: dict = {}
    for about, cells in steps * rounds:
        wanted = [cell for three in cells.values() for cell in three]
        numbers = iter(book.function(list(drawn), wanted)(list(drawn.values())))
        for point, three in cells.items():
            line, now = block.lines[key_of(point)]
            values = [_held(next(numbers), cell, point, about) for cell in three]
            rows[point] = Row(now.name, tuple(values))
            for column, value in enumerate(values, 1):
                drawn[block.sheet, block.address(line, column)] = value
    return Placed(list(rows.values()), wished, left_out)


def _held(value, cell, point, about):
    if is_number(value):
        return float(value)
    said = str(getattr(getattr(value, "trouble", value), "code", value)).strip().lstrip("# ")
    raise Trouble(
        f"nothing was made, for at the step of {about} the cell {cell[0]}!{cell[1]} gives no "
        f"place for the {point}: {said.rstrip('.')}"
    )


def _steps(trees, block):
    """([(what a step is about, {point: its three cells})], the cells of the aims)."""
    place = (block.sheet, block.top, block.left, block.bottom)
    found: dict = {}
    wished: dict = {}
    for sheet, cells in trees.cells.items():
        for address, content in cells.items():
            if content.formula is None or not has_call(content.formula):
                continue
            tree = parse(before_asking(content.formula))
            if tree[0] != "call" or not tree[1].startswith("CORNER.PLACE_"):
                continue
            here = trees.at((sheet, address))
            first, *others = tree[2]
            if first is None or first[0] != "reference" or trees.place(first[1], here)[:4] != place:
                continue
            key = (tree[1].partition(".")[2], *(a[1].lower() for a in others if _is_text(a)))
            found.setdefault(key, (sheet, address))
            for argument in others:
                if argument is not None and argument[0] == "reference":
                    where, top, left, *end = trees.place(argument[1], here)
                    if where == sheet and [top, left] == end:
                        wished.setdefault(key[0], {})[where, top, left] = None
    steps = []
    aims: dict = {}
    for about, formulas in STEPS:
        cells = {}
        for formula, point in formulas.items():
            aims.update(wished.get(formula, {}))
            for which in _PICKUPS if point == "pickup" else (None,):
                cells[f"{which} pickup" if which else point] = [
                    _of(found, formula, which, axis) for axis in AXES
                ]
        steps.append((about, _whole(cells, about, block)))
    return steps, list(aims)


def _of(found, formula, which, axis):
    """The cell of a formula for an axis; None where there is none."""
    for (name, *texts), cell in found.items():
        if name == formula and texts[-1:] == [axis] and (which is None or texts[0] == which):
            return cell
    return None


def _whole(cells, about, block):
    """The cells of a step; nothing where it has none. Raises `Trouble` where some are missing."""
    missing = [point for point, three in cells.items() if None in three]
    if missing and all(cell is None for three in cells.values() for cell in three):
        return {}
    missing += [point for point in cells if key_of(point) not in block.lines]
    if missing:
        raise Trouble(
            f"at the step of {about}, the workbook does not say where the {missing[0]} goes, or "
            f"the block {block.name} has no such row; all of a step belong together"
        )
    return cells


def _is_text(argument):
    return argument is not None and argument[0] == "text"
