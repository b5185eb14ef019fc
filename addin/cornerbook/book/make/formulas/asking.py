"""Formulas that ask first whether what they reckon with is a number, and say what is to be mended.

A name may hold a sentence in place of a number, and a yellow cell may be blank or hold a word.
Arithmetic on a text shows a bare error, and a blank cell counts as 0, which nobody typed. So each
formula on a book's sheets that reckons with single cells is put into IF(ISNUMBER(cell), formula,
sentence), one for each such cell that it does not ask about itself: the sentence that the cell
holds, or one that names the yellow cell. What can still come to no number, a quotient by 0 or a
place that is not found, is put into IFERROR with a sentence that names what it reckons with.

The choices of an IF are looked at one by one: what is not taken need not be known.
"""

from ...file.address import cell_name
from ...file.trouble import Trouble
from ...formula.parse import nodes, parse
from ...formula.spell import parts_of_if, spelt
from ..sheet.said import EXPECTED, NONE, shown_as
from .known import Known, asked_by, key_of
from .operands import SWEPT, Operands, is_yellow_number, may_be_blank

PASSED_BY = frozenset(("behind", "link", "note"))
"""Looks of cells that are left as they are: they show other cells, or ask by themselves."""

NAMED = 3
"""How many cells a sentence names at most."""


def ask_first(book, references):
    """Make every formula of a `Book` ask first; arrays stay as they are.

    references: the book's `References`. Gives {(name of the sheet, row, column): tree} of what
    then stands there.
    """
    trees = {}
    asking = _Asking(book, references, trees)
    for sheet in book.sheets:
        for place, cell in () if sheet.maps else sheet.cells.items():
            if cell.formula is None or cell.look in PASSED_BY:
                continue
            try:
                asking.in_table = cell.look.startswith("table")
                formula = _Formula(cell.formula[1:], parse(cell.formula))
                formula = asking.asked(formula, sheet, Known())
            except Trouble:
                continue  # what is wrong with it is said where formulas are held
            cell.formula = "=" + formula.text
            trees[(sheet.name, *place)] = formula.tree
    return trees


class _Formula:
    """A formula, or a part of one: its text as it was written, without '=', and its tree."""

    def __init__(self, text, tree):
        self.text = text
        self.tree = tree

    def choices(self):
        """The three `_Formula`s of an IF that it is; None for any other, or one in brackets.

        Raises `Trouble` for one with a part left out, which stays as it is.
        """
        if self.tree[:2] != ("call", "IF"):
            return None
        parts = parts_of_if(self.text)
        if len(parts) != 3:
            return None
        if None in self.tree[2]:
            raise Trouble(f"a part of IF is left out: {self.text}")
        return [_Formula(*part) for part in zip(parts, self.tree[2], strict=True)]


def _spelt(tree):
    return _Formula(spelt(tree), tree)


def _call(name, *parts):
    text = ",".join(part.text for part in parts)
    return _Formula(f"{name}({text})", ("call", name, [part.tree for part in parts]))


def _text(what):
    return _spelt(("text", what))


class _Asking:
    """in_table: whether the formula at hand stands in a table, where a point may be #N/A."""

    def __init__(self, book, references, trees):
        self.in_table = False
        self._operands = Operands(references, trees)
        self._names = {place: name for name, place in book.names.items()}

    def asked(self, formula, sheet, known, caught=False):
        """A `_Formula` as it stands where it asks first.

        caught: whether what comes to no number is said by what stands around it.
        """
        choices, tree = formula.choices(), formula.tree
        needed, risky = self._operands.of(choices[0].tree if choices else tree, sheet, known)
        risky = risky and not (self.in_table and tree[0] == "call" and tree[1] in SWEPT)
        said = self._no_number(tree, sheet) if risky and not caught else None
        if choices:
            condition, one, other = choices
            sure, asks = asked_by(condition.tree)
            known, caught = known.and_numbers(needed), caught or risky
            otherwise = known.and_doubted(asks)
            one = self.asked(one, sheet, otherwise.and_numbers(sure), caught)
            other = self._no_word(
                condition.tree, sheet, self.asked(other, sheet, otherwise, caught)
            )
            formula = _call("IF", condition, one, other)
        elif self._operands.shows_yellow(tree, sheet):
            key = key_of(tree)
            if key not in known.numbers | known.doubted:
                needed[key] = tree
        if said and all(operand[0] == "reference" for operand in needed.values()):
            formula, said = _call("IFERROR", formula, said), None
        for operand in reversed(needed.values()):
            question = _call("ISNUMBER", _spelt(operand))
            formula = _call("IF", question, formula, self._missing(operand, sheet))
        return _call("IFERROR", formula, said) if said else formula

    def _no_word(self, condition, sheet, other):
        """What stands in for a yellow cell that may be blank, but not where it holds a word."""
        if condition[:2] != ("call", "ISNUMBER") or condition[2][0][0] != "reference":
            return other
        operand = condition[2][0]
        place = self._operands.place(operand[1], sheet)
        cell = place and self._operands.cell(place)
        if not cell or not may_be_blank(cell) or other.tree == operand:
            return other
        shown = _spelt(operand)
        return _call("IF", _call("ISTEXT", shown), self._expected(place, cell, shown), other)

    def _expected(self, place, cell, shown):
        """What names a yellow cell, by name and place; a sentence that its own formula gives."""
        where = f"{place[0].name}!{cell_name(*place[1:])}"
        name = self._names.get((*place, *place[1:]))
        said = _text(f"# {f'{name} ({where})' if name else where}{EXPECTED}")
        return said if cell is None or cell.formula is None else _if_said(shown, said)

    def _missing(self, operand, sheet):
        """What is said in place of an operand that is no number, a `_Formula`."""
        shown = _spelt(operand)
        if operand[:2] == ("call", "INDEX"):
            where = self._operands.said(operand[2][0], sheet)
            return _if_said(shown, _text(f"# {where}{EXPECTED}"))
        place = self._operands.place(operand[1], sheet) if operand[0] == "reference" else None
        cell = place and self._operands.cell(place)
        if place is None or not (cell is None or is_yellow_number(cell)):
            return shown
        return self._expected(place, cell, shown)

    def _no_number(self, tree, sheet):
        """What is said where what a formula reckons with comes to no number, a `_Formula`.

        None of one that reads no cell.
        """
        named = {}
        for node in nodes(tree):
            if node[0] == "reference":
                place = self._operands.place(node[1], sheet)
                if place is None or not self._operands.is_sure(place):
                    named.setdefault(shown_as(node[1]))
        listed = list(named)[:NAMED]
        said = " and ".join(filter(None, (", ".join(listed[:-1]), *listed[-1:])))
        return _text(f"{NONE}{said}; look there") if said else None


def _if_said(shown, otherwise):
    """What is shown if it is a sentence, else another."""
    tree = ("infix", "=", ("call", "LEFT", [shown.tree]), ("text", "#"))
    begins = _Formula(f'LEFT({shown.text})="#"', tree)
    return _call("IF", begins, shown, otherwise)
