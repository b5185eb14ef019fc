"""The unit of length of a block, as its workbook says it."""

from ...cells.block import POINT_KEYS
from ..file.trouble import Trouble
from ..formula.rewrite import Call, has_call, put_together, taken_apart
from .row import MM, unit_named


def unit_said(block):
    """The unit that CHECK is asked for, or else that of the cells beside the points.

    block: a `PointBlock`. '' where nothing says it; raises `Trouble` where two are said.
    """
    asked = _unit_of_check(block)
    points = [row for row in block.rows if row.key in POINT_KEYS or row.is_triple]
    beside = {row.unit for row in points if row.unit in MM}
    if len(beside) > 1 or (asked and beside and beside != {asked}):
        said = sorted(beside) if not asked or asked in beside else [asked, *sorted(beside)]
        raise Trouble(
            f"the block {block.name} says more than one unit of length: {', '.join(said)}; "
            "make them one, or give --unit"
        )
    return asked or (beside.pop() if beside else "")


def _unit_of_check(block):
    """The unit in a call of CHECK on the block, anywhere in the workbook; None without one."""
    place = (block.sheet, block.top, block.left, block.bottom)
    package, values = block.package, block.values
    for sheet in package.sheets:
        for address, content in values.cells[sheet].items():
            formula = content.formula
            if formula is None or "CHECK" not in formula.upper() or not has_call(formula):
                continue
            for given in _checks(taken_apart(formula)):
                try:
                    found = package.resolve(put_together(given[0]), sheet, address)
                    unit = values.of(put_together(given[1]), sheet, address)
                except (Trouble, TypeError):
                    continue
                if found[:4] == place and isinstance(unit, str) and unit_named(unit) in MM:
                    return unit_named(unit)
    return None


def _checks(parts):
    """The arguments of each call of CHECK with a unit in a formula."""
    for part in parts:
        if isinstance(part, Call):
            if part.name == "CHECK" and len(part.arguments) > 1 and all(part.arguments[:2]):
                yield part.arguments
            for argument in part.arguments:
                yield from _checks(argument or ())
