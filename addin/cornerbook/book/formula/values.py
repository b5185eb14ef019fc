"""The values of a workbook as it stands: those stored in the file, and ours worked out anew."""

from ..file.address import cell_name
from ..file.trouble import Trouble
from .evaluate import Evaluator
from .rewrite import has_call, put_together, taken_apart


class Values:
    """The values of a workbook's cells: those stored, and ours worked out anew."""

    def __init__(self, package):
        self.package = package
        self.evaluator = Evaluator(self._range)
        self.cells = {sheet: package.cells(sheet) for sheet in package.sheets}
        self.known = {}
        self.at_work = []

    def at(self, sheet, address):
        """The value of a cell; a table for the first cell of an array formula."""
        key = (sheet, address)
        if key not in self.known:
            content = self.cells[sheet].get(address)
            if content is None:
                return None
            self.known[key] = content.value
            if content.formula is not None and (content.value is None or has_call(content.formula)):
                self.known[key] = self.of(content.formula[1:], sheet, address, content.value)
        return self.known[key]

    def of(self, text, sheet, address, otherwise=None):
        """The value of a formula's text in a cell; `otherwise` for what is not known here."""
        self.at_work.append(address)
        try:
            return self.evaluator.value("=" + _our_spelling(text), sheet)
        except Trouble:
            return otherwise
        finally:
            self.at_work.pop()

    def _range(self, reference, sheet):
        place = self.package.resolve(reference, sheet, self.at_work[-1] if self.at_work else None)
        return self.block(*place)

    def block(self, sheet, top, left, bottom, right):
        """The values of a range, as rows."""
        return tuple(
            tuple(_single(self.at(sheet, cell_name(r, c))) for c in range(left, right + 1))
            for r in range(top, bottom + 1)
        )


def _single(value):
    return value[0][0] if isinstance(value, tuple) else value


def _our_spelling(text):
    if "_xldudf_" not in text and "CORNER_" not in text.upper():
        return text
    parts = taken_apart("=" + text)

    def spelled(call):
        arguments = ["" if a is None else put_together(a, spelled) for a in call.arguments]
        return f"CORNER.{call.name}({','.join(arguments)})"

    return put_together(parts, spelled)
