"""The cells of a block of a workbook by its name or its address."""

from ..file.asked import is_address, place_asked
from ..file.package import Package
from ..file.trouble import Trouble
from .values import Values


def rows_of_block(path, name="Front"):
    """(the name as the workbook spells it, the block's cells as rows) of an .xlsx file.

    name: of the block, or its address such as Sheet1!A6:D24. Formulas of ours are worked out
    anew. Raises `Trouble` for a file that is no workbook or has no such block.
    """
    package = Package.read(path)
    known = {each: (scope, text) for each, scope, text in package.names}
    found = [each for each in known if each.lower() == name.strip().lower()]
    if found:
        name, (scope, text) = found[0], known[found[0]]
        place = package.resolve(text, scope) if scope else place_asked(package, name)
    elif "!" in name or is_address(name):
        place = place_asked(package, name)
    else:
        blocks = [each for each, (scope, text) in known.items() if _is_block(package, scope, text)]
        raise Trouble(
            f"{path} has no block named {name}; its blocks are: {', '.join(blocks) or 'none'}"
        )
    values = Values(package)
    return name, values.block(*values.cut(place))


def _is_block(package, scope, text):
    try:
        _, top, left, bottom, right = package.resolve(text, scope or package.sheets[0])
    except Trouble:
        return False
    return right - left >= 3 and bottom - top >= 2
