"""A user's own sheets taken into the workbook that is made anew."""

from ...file.trouble import Trouble, some_of
from ...formula.parse import nodes, parse
from ...formula.values import Unknown, Values
from .reads import ELSEWHERE, GONE, Reads

NAMED = 8
"""How many cells a sentence names."""

_WHY = {
    GONE: "reads what is not there now",
    ELSEWHERE: "reads another workbook",
}


def carry(old, new, own):
    """Copy the sheets `own` of the `Package` old into new, with their names of cells.

    Sentences on what could not come along as it was. Raises `Trouble` where a sheet of ours has
    the name of one of them.
    """
    ours = {name.lower() for name in new.sheets}
    taken = [name for name in own if name.lower() in ours]
    if taken:
        raise Trouble(
            f"{old.where}: the sheet {taken[0]} of yours has the name of one that is made now; "
            "give it another name first"
        )
    said = []
    for name in own:
        left = new.take_sheet(old, name)
        if left:
            said.append(f"{name}: left behind are {', '.join(left)}.")
    said += _names(old, new, own)
    if own:
        # To know what its formulas and charts read, the whole new workbook is read.
        reads = Reads(old, new, own)
        said += _formulas(old, new, own, reads)
        said += _charts(new, own, reads)
    said += [
        f"The sheet {name} is a chart on a sheet of its own and did not come along."
        for name in old.other_sheets
    ]
    return said


def _names(old, new, own):
    """Carry the names of cells on these sheets, and of what is no cell; sentences on the others."""
    there = {name.lower() for name, _, _ in new.names}
    sheets = {name.lower(): name for name in own}
    said = []
    for name, scope, text in old.names:
        if scope is not None:
            if scope.lower() in sheets:
                new.add_name(name, text, sheets[scope.lower()])
            continue
        reads = _sheets_read(old, text)
        if reads is None or not reads <= set(sheets):
            continue  # one of ours, which the new workbook has or does without
        if name.lower() in there:
            if reads:
                said.append(f"The name {name} means a cell of ours now, and not {text}.")
        else:
            new.add_name(name, text)
    return said


def _sheets_read(old, text):
    """The sheets that a name's text reads, in small letters; None where that is not known."""
    found = set()
    try:
        for node in nodes(parse("=" + text)):
            if node[0] == "reference":
                found.add(old.resolve(node[1], old.sheets[0])[0].lower())
    except Trouble:
        return None
    return found


def _formulas(old, new, own, reads):
    """Give own formulas the values that they have now; sentences on those that mean another."""
    fixed, unknown, said = {}, [], []
    moved: list = []
    for sheet in own:
        for address, content in new.cells(sheet).items():
            if content.formula is None:
                continue
            for reference, what in reads.lost(content.formula, sheet, address):
                if what in _WHY:
                    fixed[sheet, address] = f"{sheet}!{address} {_WHY[what]} ({reference})"
                else:
                    moved.append(f"{sheet}!{address} ({reference})")
    for sheet, address in fixed:
        content = new.cells(sheet)[address]
        new.set_value(sheet, address, content.value)
    values = Values(new)
    for sheet in own:
        for address, content in new.cells(sheet).items():
            if content.formula is None and content.in_array is None:
                continue
            value = values.seen((sheet, address))
            if isinstance(value, Unknown):
                unknown.append(f"{sheet}!{address}")
                continue
            if content.in_array is not None:
                new.set_value(sheet, address, value)
            else:
                value = value[0][0] if isinstance(value, tuple) else value
                new.set_formula(sheet, address, content.formula, value, content.array)
    if fixed:
        said.append(
            "Kept as values, for their formulas have lost what they read: "
            f"{some_of(list(fixed.values()), NAMED)}."
        )
    if moved:
        said.append(
            "Look at these formulas, for another cell stands where they read: "
            f"{some_of(moved, NAMED)}."
        )
    if unknown:
        said.append(
            "Cells that cannot be worked out here keep the value that they had until a program "
            f"works them out: {some_of(unknown, NAMED)}."
        )
    return said


def _charts(new, own, reads):
    """Sentences on charts of own sheets that show other cells now."""
    said = []
    for sheet in own:
        for ranges in new.charts(sheet):
            lost = [each for text in ranges for each, _ in reads.lost("=" + text, sheet)]
            if lost:
                named = some_of(list(dict.fromkeys(lost)), NAMED)
                said.append(f"A chart on {sheet} shows what is not there now, or moved: {named}.")
    return said
