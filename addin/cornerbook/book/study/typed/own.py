"""Which sheets of a workbook are its user's own."""

from ...make.asked import sheets_of_ours
from ...make.sheet.choices import SHEET as WORDS
from . import former

COPY = "Shared copy"
"""The page that a copy made by share has."""


def own_sheets(package, template):
    """The names of the worksheets that no template of ours makes."""
    if former.is_former(package):
        ours = former.SHEETS
    else:
        ours = {sheet["name"] for part in template.parts for sheet in part.sheets}
        ours |= sheets_of_ours() | {WORDS}
    known = {name.lower() for name in ours}
    return [name for name in package.sheets if name.lower() not in known]
