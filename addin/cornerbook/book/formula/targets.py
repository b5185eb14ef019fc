"""How each spreadsheet program wants our formulas spelled in a file.

calc: LibreOffice stores an add-in's call under its programmatic name, CORNER.TRAIL.
excel: Excel stores a custom function of an add-in as _xldudf_CORNER_TRAIL and shows it as
    CORNER.TRAIL; it does not bind the plain name when it opens a file.
excel-classic: functions of a macro workbook cannot have a dot: CORNER_TRAIL.
"""

import re
from functools import lru_cache

from .tokens import Token, tokens

_PREFIX = {"calc": "CORNER.", "excel": "_xldudf_CORNER_", "excel-classic": "CORNER_"}

TARGETS = tuple(_PREFIX)

_OURS = re.compile(r"^(?:_xldudf_CORNER_|CORNER[._])([A-Z0-9_]+)\($", re.IGNORECASE)
"""How a call of ours begins, in any spelling."""

_CALL = re.compile(
    r"""["'Cc_](?:(?<=")[^"]*"|(?<=')[^']*'"""
    r"""|(?<![\w.].)(?i:(?<=C)ORNER[._]|(?<=_)xldudf_CORNER_)((?i:[A-Z0-9_]+))\()""",
    re.DOTALL,
)
"""A call of ours, or a text or the name of a sheet, in which none is looked for. What it begins
with is found quickly, so what must not stand before is looked at behind it."""


@lru_cache(maxsize=4096)
def formula_name(token_value):
    """The formula's name if the text of an opening function token calls one of ours."""
    found = _OURS.match(token_value.replace(" ", ""))
    return found.group(1).upper() if found else None


def target_of(formula):
    """The program for which the first call of ours in a formula is spelled; None without one."""
    for token in tokens(formula):
        if token.type == Token.FUNC and token.subtype == Token.OPEN and formula_name(token.value):
            said = token.value.replace(" ", "").upper()
            return next(t for t, prefix in _PREFIX.items() if said.startswith(prefix.upper()))
    return None


def spelled(formula, target):
    """A formula as it is stored for a target program; all but our names stays as it is."""
    if "CORNER" not in formula.upper():
        return formula

    def put(found):
        return found[0] if found[1] is None else f"{_PREFIX[target]}{found[1].upper()}("

    return _CALL.sub(put, formula)
