"""The range that a user means by a name or an address typed to a command."""

import difflib
import re

from .trouble import Trouble

_ADDRESS = re.compile(r"\$?[A-Za-z]{1,3}\$?\d{1,7}(:\$?[A-Za-z]{1,3}\$?\d{1,7})?$")


def place_asked(package, text, otherwise=""):
    """(sheet, top, left, bottom, right) of a name (`Front`) or an address (`Sheet!A6:D24`).

    A sheet's name may stand without quotes; an address without a sheet is of the first one.
    otherwise: what a sentence adds where no name is near. Raises `Trouble` for anything else.
    """
    asked = text.strip()
    sheet, mark, address = asked.rpartition("!")
    if mark and sheet and not sheet.startswith("'"):
        asked = "'%s'!%s" % (sheet.replace("'", "''"), address)
    try:
        return package.resolve(asked, package.sheets[0])
    except Trouble as trouble:
        names = {name.lower(): name for name, scope, _ in package.names if scope is None}
        is_known = mark or asked.lower() in names
        near = [] if is_known else difflib.get_close_matches(asked.lower(), list(names), n=1)
        hint = f"; did you mean {names[near[0]]}?" if near else otherwise and f"; {otherwise}"
        raise Trouble(f"{trouble}{hint}") from None


def is_address(text):
    """Whether a text is a cell's or a range's address, without a sheet."""
    return bool(_ADDRESS.match(text.strip()))
