"""A workbook's own offer taken: only cells of points change, and what follows from them."""

from ....cells.mend import is_number
from ...file.address import cell_name
from ...file.package import Package
from ...file.trouble import Trouble, some_of
from ...formula.values import Values
from ...study.recalculate import Recalculation, lost_said
from ...study.solve.words import first_text
from ..block import PointBlock
from ..intake import Intake
from .placing import placed
from .story import Moved, Result
from .variant import block_of_variant, letter_of, typed_besides

PLACING = "placing"
"""What is asked for the places of the sheet Placing."""

MOST_ROUNDS = 20

_NAMED = 8
"""How many cells a sentence names."""

_MET = 1e-6
"""Off an aim by less than this part of it, or of what it was off before, counts as met."""


class Adopted:
    """What came of it.

    moved: `Moved` of each coordinate; results: `Result`s; messages: sentences; content: bytes.
    """

    def __init__(self, moved, results, messages, content):
        self.moved = moved
        self.results = results
        self.messages = messages
        self.content = content


def adopt(path, what, block="Front", rounds=1):
    """An `Adopted`: a copy of a workbook in which what its own sheets offer is its points.

    path: the workbook, which is only read. what: a variant, such as "Variant-B", or "placing".
    rounds: how many times the steps of Placing are gone through, 1 to `MOST_ROUNDS`.
    Raises `Trouble` where there is nothing to take, or a cell to be changed holds a formula.
    """
    letter = letter_of(what)
    if letter is None and what.strip().lower() != PLACING:
        raise Trouble(f"{what} is not known; a variant, such as Variant-A, or placing was expected")
    if not 1 <= rounds <= MOST_ROUNDS:
        raise Trouble(f"{rounds} rounds are asked for; 1 to {MOST_ROUNDS} were expected")
    if letter is not None and rounds != 1:
        raise Trouble("--rounds is for placing; a variant is taken as it stands")
    package = Package.read(path)
    messages = package.warnings()
    front = PointBlock(package, block)
    aims, variant = [], None
    if letter is None:
        found = placed(front, rounds)
        rows, source, aims = found.rows, "the sheet Placing", found.wished
        messages += [f"Not in the workbook, so left out: {each}." for each in found.left_out]
    else:
        variant = block_of_variant(package, letter, front.unit)
        rows, source = variant.going_out(), f"Variant-{letter}"
        messages += [
            f"{source} also has {label} {value:g}, which is no point of {block} and is not "
            "adopted; type it where it stands."
            for label, value in typed_besides(variant, letter)
        ]
    intake = Intake(front, rows, source)
    if not intake.changes:
        raise Trouble(f"{source} moves no point of {block}; nothing was made")
    moved = _moved(front, intake.changes)
    nows = _nows(package, aims)
    before = _numbers(package, nows)
    for cell, value in intake.changes.items():
        package.set_value(*cell, value)
    lost = Recalculation(package).write(intake.changes)
    after = _numbers(package, nows)
    results = [
        Result(label, aim, was, now)
        for (label, *_), (aim, was), (_, now) in zip(nows, before, after, strict=True)
    ]
    off = [result.label for result in results if _is_off(result)]
    if off and rounds < MOST_ROUNDS:
        messages.append(
            "Not quite met, for later steps took back some of what earlier ones gave: "
            f"{some_of(off, _NAMED)}. More rounds bring that nearer: --rounds "
            f"{min(rounds + 3, MOST_ROUNDS)}."
        )
    messages += _doubts(package, front, intake, lost)
    if variant is not None:
        messages += _changed(package, front, variant, letter)
    return Adopted(moved, results, messages, package.to_bytes())


def _is_off(result):
    """Whether a result is off its aim, as far as both are numbers."""
    numbers = (result.aim, result.before, result.after)
    if not all(map(is_number, numbers)):
        return False
    aim, before, after = numbers
    return abs(after - aim) > _MET * max(abs(aim), abs(before - aim))


def _moved(front, changes):
    """The `Moved` of each cell that changes, in the order of the block."""
    return [
        Moved(
            row.name, "xyz"[column - 1] if row.is_triple else "",
            row.values[column - 1] if column <= len(row.values) else None,
            changes[front.sheet, front.address(line, column)],
        )
        for line, row in front.lines.values()
        for column in (1, 2, 3)
        if (front.sheet, front.address(line, column)) in changes
    ]  # fmt: skip


def _nows(package, aims):
    """(label, the cell of an aim, that of what is now) of the aims that stand beside a result."""
    if not aims:
        return []
    book = Recalculation(package)
    found = []
    for sheet, row, column in aims:
        now = (sheet, cell_name(row, column + 1))
        label = first_text(book, sheet, ((row + 1, c) for c in range(column, 0, -1)))
        if book.trees.is_made(now) and label is not None:
            found.append((label, (sheet, cell_name(row, column)), now))
    return found


def _numbers(package, nows):
    if not nows:
        return []
    values = Values(package)
    return [(values.seen(aim), values.seen(now)) for _, aim, now in nows]


def _doubts(package, front, intake, lost):
    messages = front.values.doubts() + lost_said(lost)
    verdict = PointBlock(package, front.name, front.unit).check()
    if verdict not in (None, "ok"):
        messages.append(f"The check of the points says: {str(verdict).lstrip('# ').rstrip('.')}.")
    return messages


def _changed(package, front, variant, letter):
    """What is to be said of a variant that is another one, now that the points have moved."""
    points = PointBlock(package, front.name, front.unit)
    again = PointBlock(package, variant.name, front.unit)
    other = [
        row.name
        for row in again.rows
        if row.key in points.lines and row.values != points.lines[row.key][1].values
    ]
    if not other:
        return []
    return [
        f"Variant-{letter} itself follows the points, by formulas in its cells, and has moved on "
        f"with them: {some_of(other, _NAMED)}."
    ]
