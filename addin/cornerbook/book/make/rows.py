"""What blocks of every kind put on a page: yellow cells and headings."""

from . import units
from .model import Rule

UNTIL = "Type a number in %s%s."


def put_input(page, row, column, value, kind, label, least=None, most=None):
    """Put a yellow cell for a value of a kind, with what may be typed; limits are in mm."""
    rule = None
    if kind != "text":
        limits = [
            None if end is None else units.converted(float(end), kind, "mm", page.system)
            for end in (least, most)
        ]
        unit = units.unit_of(kind, page.system)
        said = UNTIL % (unit or "figures", _limits_said(*limits))
        rule = Rule("whole" if kind == "count" else "decimal", *limits, title=label, message=said)
    page.sheet.put(
        row, column, value=value, look="input",
        number_format=units.format_of(kind, page.system), rule=rule,
    )  # fmt: skip


def _limits_said(least, most):
    if least is None and most is None:
        return ""
    if most is None:
        return f", {least:g} or more"
    if least is None:
        return f", {most:g} or less"
    return f", from {least:g} to {most:g}"


def columns_of(page, titles, fitted=True):
    """Put a row of headings; one that begins with = is a formula.

    fitted: make the row as high as the headings need; else it stays as high as any other.
    """
    for column, title in enumerate(titles):
        look = "column first" if column == 0 else "column"
        said = {"formula": title} if title.startswith("=") else {"value": title}
        page.sheet.put(page.row, column, look=look, **said)
        if fitted:
            page.fit(title, "column", column, column)
    page.row += 1
