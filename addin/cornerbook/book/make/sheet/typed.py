"""What is typed into yellow cells that no key of a chapter gives a value.

A scenario says it in the table `typed`, by the sheet and by words for the cell:

    [typed."What-if"]
    "B: Upper ball joint y" = 480
"""

from ..texts import units
from ..texts.text_files import number_wrong, text_wrong

TYPED = "typed"
"""The table of a scenario in which it stands."""

BLANK = ""
"""What stands there for a cell that is left blank where the sheet itself has something."""


def value_said(scenario, sheet, words, kind, system):
    """(whether a `Scenario` says it, the value in a unit system, None for a blank one).

    Raises `Trouble` for a value that is none of its kind.
    """
    table = scenario.value_of(TYPED)
    table = table.get(sheet) if isinstance(table, dict) else None
    if not isinstance(table, dict) or words not in table:
        return False, None
    value = table[words]
    if value == BLANK:
        return True, None
    if kind == "text":
        wrong = text_wrong(value) if isinstance(value, str) else "is not in quotation marks"
        said = wrong and f"the text {wrong}"
    else:
        wrong = number_wrong(value)
        said = wrong and f"it is {wrong}"
    if said:
        raise scenario.wrong(f'{TYPED}, {sheet}: "{words}": {said}', TYPED, sheet, words)
    if kind == "text":
        return True, value
    return True, units.converted(float(value), kind, scenario.unit, system)
