"""The formulas of a worksheet's cells, read from their `f` elements."""


class Formulas:
    """Each cell's own formula, also where the file writes one only in the first of many cells.

    elements: [(address, `f` element)] in the order of the file. Formulas begin with '='.
    """

    def __init__(self, elements):
        self._texts = {}
        # Of formulas that cells share: each first cell's others with their elements, in order,
        # and each other's first.
        self._others = {}
        self._first = {}
        current, late = {}, []
        for address, element in elements:
            kind, text = element.get("t"), _equals(element.text)
            if kind == "shared":
                number = element.get("si")
                if element.get("ref") is not None or (text and number not in current):
                    current[number] = address
                    self._others[address] = {}
                elif number in current:
                    self._join(address, element, current[number])
                    continue
                else:
                    late.append((address, element, number))
                    continue
            elif kind == "dataTable" and element.get("ref"):
                text = _data_table(element)
            if text:
                self._texts[address] = text
        for address, element, number in late:
            if number in current:
                self._join(address, element, current[number])

    def _join(self, address, element, first):
        self._others[first][address] = element
        self._first[address] = first
        if first in self._texts:
            self._texts[address] = _moved(self._texts[first], first, address)

    def __contains__(self, address):
        return address in self._texts

    def get(self, address):
        """The formula of a cell, or None."""
        return self._texts.get(address)

    def put(self, address, text):
        """Note a formula that a cell has alone; what it had before must be released."""
        self._texts[address] = text

    def release(self, address):
        """Forget a cell's formula; those that shared it keep theirs, in the file as well."""
        for other, element in self._others.pop(address, {}).items():
            # The formula was written in this cell only, so the others need their own now.
            for attribute in ("t", "ref", "si"):
                element.attrib.pop(attribute, None)
            element.text = self._texts[other][1:] if other in self._texts else None
            self._first.pop(other, None)
        first = self._first.pop(address, None)
        if first is not None:
            self._others[first].pop(address)
        self._texts.pop(address, None)


def _equals(text):
    return "=" + text.lstrip("=") if text else None


def _data_table(element):
    """The formula that programs show for a table of what-ifs, which has none in the file."""
    one, two = element.get("r1", ""), element.get("r2", "")
    if element.get("dt2D") in ("1", "true"):
        return f"=TABLE({one},{two})"
    by_row = element.get("dtr") in ("1", "true")
    return f"=TABLE({one},)" if by_row else f"=TABLE(,{one})"


def _moved(formula, origin, address):
    """A shared formula as another cell has it; what is none stays, and is told by its cell."""
    # Files of ours have none, and openpyxl takes long to import.
    from openpyxl.formula.tokenizer import TokenizerError
    from openpyxl.formula.translate import Translator, TranslatorError

    try:
        return Translator(formula, origin).translate_formula(address)
    except (TokenizerError, IndexError):
        return formula
    except TranslatorError:
        return "=#REF!"  # it would refer to a row or column before the first
