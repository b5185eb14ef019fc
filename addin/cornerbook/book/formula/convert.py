"""A workbook from one program's spelling of our formulas to another's, all else untouched."""

from ..file.package import Package
from ..file.trouble import Trouble
from .in_cell import in_cell
from .rewrite import has_call
from .targets import spelled


def convert(path, target):
    """The workbook's bytes for a target program, and sentences on what was changed.

    path: an .xlsx file in any of the spellings, which is only read. Raises `Trouble` for a
    file that cannot be read.
    """
    package = Package.read(path)
    messages = package.warnings()
    total = 0
    for sheet in package.sheets:
        changed = 0
        for address, content in package.cells(sheet).items():
            if content.formula is None or not has_call(content.formula):
                continue
            try:
                formula = spelled(content.formula, target)
            except Trouble as trouble:
                raise in_cell((sheet, address), trouble) from None
            if formula != content.formula:
                package.set_formula(sheet, address, formula, content.value, content.array)
                changed += 1
        if changed:
            messages.append(f"{sheet}: {changed} formulas changed.")
        total += changed
    for place, formula in package.formulas_elsewhere():
        if has_call(formula) and spelled(formula, target) != formula:
            messages.append(f"{place} calls a CORNER formula and was left as it is: {formula}")
    if not total:
        messages.append(f"Every CORNER formula is spelled for {target} already.")
    return package.to_bytes(), messages
