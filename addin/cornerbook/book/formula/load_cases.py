"""The load cases of a workbook: rows of a named range, as the sheet Loads has them.

The heading of each column stands two rows above the first case.
"""

from ...catalogue.forces.loads import ACTS
from ...cells.mend import finite, is_number, shown
from ..file.address import cell_name
from ..file.trouble import Trouble
from .ranges import single

NAME = "LoadCases"
"""The range's name in a workbook of ours."""

_NUMBERS = ("forward", "outboard", "up", "travel", "rack")
_ACTS = "acts at"


class Case:
    """A load case. name: what it is called; load: the arguments of `catalogue.loads.carried`."""

    def __init__(self, name, load):
        self.name = name
        self.load = load

    @property
    def travel(self):
        """The travel at which it acts."""
        return self.load[3]

    @property
    def rack(self):
        """The rack at which it acts."""
        return self.load[4]


def cases_of(package, values, name=NAME):
    """The `Case`s of a range of a workbook, by its name or its address.

    values: its `Values`. Raises `Trouble` with the cell where one is no number.
    """
    sheet, top, left, bottom, right = package.resolve(name, package.sheets[0])

    def cell(row, column):
        return single(values.at(sheet, cell_name(row, column)))

    if top < 2:
        raise Trouble(f"{name} has no headings two rows above its first row")
    titles = {cell(top - 2, column): column for column in range(left, right + 1)}
    missing = [title for title in (*_NUMBERS, _ACTS) if title not in titles]
    if missing:
        raise Trouble(
            f"{name}: no column is headed {missing[0]} two rows above its first row; these were "
            f"expected: {', '.join((*_NUMBERS, _ACTS))}"
        )
    found = []
    for row in range(top, bottom + 1):
        label = cell(row, left)
        if label in (None, ""):
            continue
        said = " ".join(str(label).split())
        numbers = {title: cell(row, titles[title]) for title in _NUMBERS}
        for title, value in numbers.items():
            if not is_number(value) or finite(value) is None:
                what = "empty" if value in (None, "") else str(value).lstrip("# ")
                where = f"{sheet}!{cell_name(row, titles[title])}"
                raise Trouble(f"{said}: {title} ({where}) gives no number: {what}")
        acts = cell(row, titles[_ACTS])
        if acts not in ACTS:
            raise Trouble(
                f"{said}: acts at is {shown(acts)}; one of these was expected: {', '.join(ACTS)}"
            )
        found.append(Case(said, (*(float(numbers[title]) for title in _NUMBERS), acts)))
    if not found:
        raise Trouble(f"{name} holds no case: the first column has no name")
    return found


def case_named(cases, name):
    """The one of some cases that has a name, whatever its capitals; `Trouble` for none."""
    for case in cases:
        if case.name.lower() == name.strip().lower():
            return case
    raise Trouble(
        f"there is no case {shown(name)}; one of these was expected: "
        f"{', '.join(case.name for case in cases)}"
    )
