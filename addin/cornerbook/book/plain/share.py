"""A copy of a workbook that is live in any spreadsheet program, with no add-in.

Every call of a formula of ours becomes a reference to a cell of added *Workings* sheets, on
which the same calculation stands in plain formulas. All else in the file stays as it is.
"""

from ..file.package import Package
from ..file.trouble import Trouble
from ..formula.ranges import single
from ..formula.rewrite import has_call
from ..formula.values import Unknown, Values
from .array_cells import array_cells
from .as_shared import AsShared
from .check_page import FROZEN, LIVE, add_check_page, say_state
from .kept_numbers import KeptNumbers
from .reading.calls import Calls
from .shut import Shut
from .workings.all_tables import Workings
from .workings_sheets import add_workings, place_tables


def share(path, values=False):
    """The copy of a workbook, as bytes, and sentences on what is worth saying about it.

    path: an .xlsx file, which is only read. values: make a frozen copy of numbers instead.
    Raises `Trouble` with the cell for what cannot be written in plain formulas.
    """
    package = Package.read(path)
    if values or any(_calling(package)):
        # Before values are known: what the workbook says of itself depends on it.
        say_state(package, None, FROZEN if values else LIVE)
    known = Values(package)
    messages = _freeze(package, known) if values else _make_plain(package, known)
    return package.to_bytes(), package.warnings() + messages + known.doubts()


def _freeze(package, values):
    """Make every formula the value that counts, as `Values` says; no sentences."""
    for cell in values.trees.made():
        _store(package, values, cell, values.at(*cell))
    package.freeze_values(lambda *_: True)
    return []


def _calling(package):
    """(sheet, address, content) of each cell that calls a formula of ours."""
    for sheet in package.sheets:
        for address, content in package.cells(sheet).items():
            if content.formula is not None and has_call(content.formula):
                yield sheet, address, content


def _store_ordinary(package, values):
    """Store what ordinary formulas come to where the file has another value of them."""
    for cell in values.trees.made():
        # Calls too, each in its place: what stands behind them reads them.
        value = values.seen(cell)
        # The cells of an array with a call in it have had formulas of their own by now.
        content = values.trees.content(values.trees.first_of_array(cell) or cell)
        is_ordinary = content is None or not has_call(content.formula or "")
        if is_ordinary and not isinstance(value, Unknown):
            _store(package, values, cell, value)


def _store(package, values, cell, value):
    if cell not in values.changed:
        return
    content = values.trees.content(cell)
    if content is None or content.formula is None:
        package.set_value(*cell, single(value))
    else:
        package.set_formula(*cell, content.formula, single(value), content.array)


def _make_plain(package, values):
    """Make every call plain formulas; sentences on what is worth saying about it."""
    _hold_calls_in_cells(package)
    workings = Workings()
    calls, kept = Calls(package, values, workings), KeptNumbers(package, values)
    shut = Shut(package, values.trees)
    calling, found, live = list(_calling(package)), [], []
    for sheet, address, content in calling:
        if shut.has(sheet, address):
            kept.keep(sheet, address, content, is_shut=True)
        elif kept.needs(content.formula):
            cells = calls.live_part(sheet, address, content)
            values_of = dict(_cells(package, sheet, address, content.array, values))
            kept.keep(sheet, address, content, cells)
            live += [(sheet, cell, text, values_of[cell]) for cell, text in cells.items()]
        else:
            parts = calls.read(sheet, address, content.formula)
            found.append((sheet, address, content.array, parts))
    if calling:
        _store_ordinary(package, values)
    if found or live:
        sheets = workings.settle()
        place_tables(package, sheets)
        workings.compute()
        results = []
        for sheet, address, array, parts in found:
            value = values.at(sheet, address)
            _replace(package, sheet, address, array, calls.text(parts), value)
            if array is None and calls.is_one_result(parts):
                results.append((sheet, address, single(value)))
        for sheet, cell, text, value in live:
            package.set_formula(sheet, cell, "=" + text(), value)
        held = AsShared(package, values)
        for tables in sheets.values():
            add_workings(package, tables)
        add_check_page(package, held, results, kept.listed())
    calls.forget()
    workings.forget()
    if kept.any:
        kept.add_sheet()
        return kept.sentences()
    return [] if calling else ["It calls no CORNER formula; the copy is the same workbook."]


def _cells(package, sheet, address, array, values):
    """(cell, value) of a cell with its formula, or of all its array."""
    value = values.at(sheet, address)
    if array is None:
        return [(address, single(value))]
    return array_cells(package, sheet, array, value)


def _hold_calls_in_cells(package):
    """Raise `Trouble` for a call that stands in a name, a format or a validation."""
    for place, formula in package.formulas_elsewhere():
        if has_call(formula):
            raise Trouble(
                f"{place} calls a CORNER formula; put the call into a cell and refer to that cell"
            )


def _replace(package, sheet, address, array, formula, value):
    """Give a cell, or the cells of an array, a new formula and the value that it has."""
    if array is None:
        package.set_formula(sheet, address, formula, single(value))
        return
    for cell, one in array_cells(package, sheet, array, value):
        if cell == address:
            package.set_formula(sheet, address, formula, one, array)
        else:
            package.set_value(sheet, cell, one)
