"""Formulas of one sheet as other sheets need them."""

from ...formula.rewrite import put_together


class Elsewhere:
    """The text of a formula's parts so that it means the same on another sheet.

    package: the workbook, for the names that belong to one sheet only.
    """

    def __init__(self, package):
        self._local = {}
        for name, scope, _ in package.names:
            if scope is not None:
                self._local.setdefault(scope, set()).add(name.lower())

    def text(self, parts, replaced, sheet, address):
        """The text, without '='. parts, replaced: as for `put_together`.

        sheet, address: of the cell that the parts stand in.
        """
        return put_together(parts, replaced, sheet, address, self._local.get(sheet, ()))


def as_written(call):
    """A call of ours within an argument, as it stands in the workbook."""
    arguments = ["" if a is None else put_together(a, as_written) for a in call.arguments]
    return f"CORNER.{call.name}({','.join(arguments)})"
