"""The cells of a block of a workbook by its name."""

from ..file.package import Package
from ..file.trouble import Trouble
from .values import Values


def rows_of_block(path, name="Front"):
    """(the name as the workbook spells it, the block's cells as rows) of an .xlsx file.

    Formulas of ours are worked out anew. Raises `Trouble` for a file that is no workbook or
    has no such block.
    """
    package = Package.read(path)
    known = {each: (scope, text) for each, scope, text in package.names}
    found = [each for each in known if each.lower() == name.lower()]
    if not found:
        blocks = [each for each, (scope, text) in known.items() if _is_block(package, scope, text)]
        raise Trouble(
            f"{path} has no block named {name}; its blocks are: {', '.join(blocks) or 'none'}"
        )
    scope, text = known[found[0]]
    place = package.resolve(text, scope or package.sheets[0])
    values = Values(package)
    return found[0], values.block(*values.cut(place))


def _is_block(package, scope, text):
    try:
        _, top, left, bottom, right = package.resolve(text, scope or package.sheets[0])
    except Trouble:
        return False
    return right - left >= 3 and bottom - top >= 2
