"""What a yellow cell holds, as a scenario may say it."""

from ....cells.mend import is_number
from ...file.cell_error import CellError
from ...file.trouble import Trouble
from ...formula.values import Values
from ...make.formulas.bare import same_but_for_asking
from ...make.texts.text_files import LARGEST_NUMBER, text_wrong
from ...make.texts.units import off_sheet


class Held:
    """The value of a cell: a number, a text, or None where it is blank.

    wrong: why there is none that a scenario could say, in words that follow the cell; else ''.
    """

    __slots__ = ("value", "wrong")

    def __init__(self, value=None, wrong=""):
        self.value = value
        self.wrong = wrong


class Holding:
    """Reads the yellow cells of a `Package`. unit: "mm" or "in", that of its lengths.

    formulas: the cells with a formula whose value was taken in its place.
    """

    def __init__(self, package, unit):
        self.values = Values(package)
        self.unit = unit
        self.formulas = []

    def held(self, yellow, kind):
        """What a `Yellow` holds, of a kind of quantity ("text" for a word)."""
        if yellow.is_blank:
            return Held()
        value = yellow.content.value
        if yellow.content.formula is not None:
            try:
                value = self.values.at(*yellow.cell)
            except Trouble as trouble:
                return Held(wrong=f"has a formula whose value is not known: {trouble}")
            if isinstance(value, tuple):
                value = value[0][0]
        held = _of_kind(value, kind)
        if isinstance(held.value, float) and not yellow.unit:
            # Where a length's own unit stands beside, an older workbook shows it in that one.
            held.value = off_sheet(held.value, kind, self.unit)
        if yellow.content.formula is not None and not held.wrong:
            self.formulas.append(yellow)
        return held

    def number(self, yellow):
        """The number that the formula of a `Yellow` comes to; None where it comes to none."""
        try:
            value = self.values.at(*yellow.cell)
        except Trouble:
            return None
        value = value[0][0] if isinstance(value, tuple) else value
        return float(value) if is_number(value) else None

    def any(self, yellow):
        """What a `Yellow` holds where both a number and a text will do."""
        held = self.held(yellow, "ratio")
        return self.held(yellow, "text") if held.wrong else held

    @staticmethod
    def has_formula(yellow, formula):
        """Whether a cell holds a formula, however a program spells it."""
        if yellow.content is None or yellow.content.formula is None:
            return False
        try:
            return same_but_for_asking(yellow.content.formula, formula)
        except Trouble:
            return False


def _of_kind(value, kind):
    if value is None or value == "":
        return Held()
    if isinstance(value, CellError):
        return Held(wrong=f"shows {value.code}")
    if kind == "text":
        if not isinstance(value, str):
            return Held(wrong="holds a number, where a word was expected")
        wrong = text_wrong(value)
        return Held(wrong=f"has a text that {wrong}") if wrong else Held(value.strip())
    if isinstance(value, str):
        said = value if len(value) < 60 else value[:57] + "..."
        return Held(wrong=f'holds the text "{said}", where a number was expected')
    if not is_number(value) or not abs(value) <= LARGEST_NUMBER:
        return Held(wrong="holds no number to work with")
    return Held(float(value))
