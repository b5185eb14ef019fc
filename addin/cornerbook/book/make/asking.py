"""Formulas that ask first whether what they reckon with is a number, and say what is to be mended.

A name may hold a sentence in place of a number, and a yellow cell may be blank or hold a word.
Arithmetic on a text shows a bare error, and a blank cell counts as 0, which nobody typed. So each
formula on a book's sheets that reckons with single cells is put into IF(ISNUMBER(cell), formula,
sentence), one for each such cell that it does not ask about itself: the sentence that the cell
holds, or one that names the yellow cell. What can still come to no number, a quotient by 0 or a
place that is not found, is put into IFERROR with a sentence that names what it reckons with.

The choices of an IF are looked at one by one: what is not taken need not be known.
"""

from ..file.address import cell_name
from ..file.trouble import Trouble
from ..formula.parse import nodes, parse
from ..formula.rewrite import in_quotes
from ..formula.spell import parts_of_if, spelt
from .operands import SWEPT, Known, Operands, asked_by, is_yellow_number, key_of

PASSED_BY = frozenset(("behind", "link", "note"))
"""Looks of cells that are left as they are: they show other cells, or ask by themselves."""

NAMED = 3
"""How many cells a sentence names at most."""


def ask_first(book):
    """Make every formula of a `Book` ask first; arrays stay as they are."""
    asking = _Asking(book)
    for sheet in book.sheets:
        for cell in () if sheet.maps else sheet.cells.values():
            if cell.formula is None or cell.look in PASSED_BY:
                continue
            try:
                asking.in_table = cell.look.startswith("table")
                cell.formula = "=" + asking.asked(cell.formula[1:], sheet, Known())
            except Trouble:
                continue  # what is wrong with it is said where formulas are held


def before_asking(formula):
    """A formula as it was before it was made to ask first; any other as it is."""
    tree = parse(formula)
    bare = _bare(tree)
    return formula if bare == tree else "=" + spelt(bare)


def same_but_for_asking(one, other):
    """Whether two formulas are the same but for what they ask first."""
    return _bare(parse(one)) == _bare(parse(other))


def _bare(tree):
    """A tree without what is put around formulas here."""
    if tree[0] != "call":
        parts = [_bare(part) if isinstance(part, tuple) else part for part in tree]
        return tree if tree[0] == "rows" else tuple(parts)
    _, name, arguments = tree
    if name == "IF" and len(arguments) == 3 and arguments[0] and arguments[2]:
        question, one, otherwise = arguments
        if question[:2] == ("call", "ISNUMBER") and _is_said(otherwise, question[2][0]):
            return _bare(one)
    if name == "IFERROR" and arguments[1] and arguments[1][0] == "text":
        if arguments[1][1].startswith(_NONE):
            return _bare(arguments[0])
    return ("call", name, [part and _bare(part) for part in arguments])


def _is_said(tree, operand):
    """Whether a tree is what is said here in place of an operand."""
    if tree[:2] == ("call", "IF"):
        tree = tree[2][2]
    return tree == operand or (tree[0] == "text" and tree[1].endswith(_EXPECTED))


_NONE, _EXPECTED = "# no number comes of ", ": a number was expected"
"""How what is said begins, or ends."""


class _Asking:
    """in_table: whether the formula at hand stands in a table, where a point may be #N/A."""

    def __init__(self, book):
        self.in_table = False
        self._operands = Operands(book)
        self._names = {place: name for name, place in book.names.items()}

    def asked(self, text, sheet, known, caught=False):
        """The text of a formula, without '=', as it stands where it asks first.

        caught: whether what comes to no number is said by what stands around it.
        """
        parts = parts_of_if(text)
        tree = parse("=" + (parts[0] if len(parts) == 3 else text))
        needed, risky = self._operands.of(tree, sheet, known)
        risky = risky and not (self.in_table and tree[0] == "call" and tree[1] in SWEPT)
        said = self._no_number(text, sheet) if risky and not caught else ""
        if len(parts) == 3:
            sure, asks = asked_by(tree)
            known, caught = known.and_numbers(needed), caught or risky
            otherwise = known.and_doubted(asks)
            one = self.asked(parts[1], sheet, otherwise.and_numbers(sure), caught)
            text = f"IF({parts[0]},{one},{self.asked(parts[2], sheet, otherwise, caught)})"
        elif self._operands.shows_yellow(tree, sheet):
            key = key_of(tree)
            if key not in known.numbers | known.doubted:
                needed[key] = tree
        if said and all(operand[0] == "reference" for operand in needed.values()):
            text, said = f"IFERROR({text},{said})", ""
        for operand in reversed(needed.values()):
            text = f"IF(ISNUMBER({spelt(operand)}),{text},{self._missing(operand, sheet)})"
        return f"IFERROR({text},{said})" if said else text

    def _missing(self, operand, sheet):
        """What is said in place of an operand that is no number, as a formula has it."""
        text = spelt(operand)
        if operand[:2] == ("call", "INDEX"):
            where = spelt(operand[2][0]).replace("$", "").replace("'", "")
            return f'IF(LEFT({text})="#",{text},{in_quotes(f"# {where}{_EXPECTED}")})'
        place = self._operands.place(text, sheet) if operand[0] == "reference" else None
        cell = place and self._operands.cell(place)
        if place is None or not (cell is None or is_yellow_number(cell)):
            return text
        where = f"{place[0].name}!{cell_name(*place[1:])}"
        name = self._names.get((*place, *place[1:]))
        said = in_quotes(f"# {f'{name} ({where})' if name else where}{_EXPECTED}")
        if cell is not None and cell.formula is not None:
            return f'IF(LEFT({text})="#",{text},{said})'
        return said

    def _no_number(self, text, sheet):
        """What is said where what a formula reckons with comes to no number, as a formula has it.

        Nothing of one that reads no cell.
        """
        named = {}
        for node in nodes(parse("=" + text)):
            if node[0] == "reference":
                place = self._operands.place(node[1], sheet)
                if place is None or not self._operands.is_sure(place):
                    named.setdefault(node[1].replace("$", "").replace("'", ""))
        listed = list(named)[:NAMED]
        said = " and ".join(filter(None, (", ".join(listed[:-1]), *listed[-1:])))
        return in_quotes(f"{_NONE}{said}; look there") if said else ""
