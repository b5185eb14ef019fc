"""The arguments of calls, read from the formulas of a workbook."""

from ...file.address import cell_name
from ...file.trouble import Trouble
from ...formula.ranges import Range
from ...formula.rewrite import Call, is_literal, put_together, quoted, taken_apart
from ...formula.tokens import Token
from ..forms.given import Given
from ..workings.amount import amount_of
from ..workings.formula_text import constant_text
from .elsewhere import Elsewhere, as_written
from .identity import Identity

_WORKED = (Token.OPERAND, Token.OP_PRE, Token.OP_IN, Token.OP_POST, Token.PAREN, Token.WSPACE)
"""The tokens of an argument that reckons with cells by signs alone."""


_SINGLE = ("number", "whole", "text")
"""Kinds of which one cell is given."""


def _may_be_blank(parts):
    """Whether an argument may come to a blank cell or an empty text: a cell, or what is picked."""
    if len(parts) == 1:
        return not isinstance(parts[0], Call)
    return any(
        not isinstance(part, Call) and (part.type == Token.FUNC or part.value == "&")
        for part in parts
    )


def _of_nothing(argument):
    """What a number argument is in place of an empty text: its default, else a sentence."""
    if argument.required:
        return f"# {argument.name} is missing; a number was expected"
    return argument.default


def _number(text, argument):
    """The text of a number, which may be a blank cell, an empty text or another formula's sentence.

    Calc hands a blank cell to a formula of ours as 0, but does not take it for a number.
    """
    nothing = constant_text(_of_nothing(argument))
    return f'IF(ISTEXT({text}),IF({text}="",{nothing},{text}),{text}+0)'


class Arguments:
    """Reads an argument of a call as a `Given`.

    package: the workbook. values: its `Values`. place_text: a function from a `Call` within
    an argument to the text of its place, asked for once all is placed.
    """

    def __init__(self, package, values, place_text):
        self._package = package
        self._values = values
        self._place_text = place_text
        self._elsewhere = Elsewhere(package)
        self._identity = Identity(package, values, self._elsewhere)
        self._known = {}  # {(text, kind, sheet and such): the `Given` of what is so in any cell}
        self._blocks = {}  # {(sheet, top, left, bottom, right): its values}

    def given(self, parts, argument, sheet, address):
        """The `Given` of an argument; None where it is left out.

        parts: of the formula of the cell at sheet and address. argument: as it is declared.
        Raises `Trouble` for what cannot be worked out here.
        """
        if parts is None:
            return None
        single = len(parts) == 1 and not isinstance(parts[0], Call)
        if not single or not self._is_fixed(parts[0], sheet):
            return self._given(parts, argument, sheet, address)
        # What a cell's formula asks first is said of its arguments too.
        asks = self._identity.asked_before(sheet, address)
        nothing = _of_nothing(argument) if argument.kind == "number" else None
        key = parts[0].value, argument.kind, nothing, sheet, *asks
        if key not in self._known:
            self._known[key] = self._given(parts, argument, sheet, address)
        return self._known[key]

    def _is_fixed(self, token, sheet):
        """Whether a token means the same in any cell: not a name without $ signs."""
        if token.subtype != Token.RANGE:
            return token.type == Token.OPERAND
        try:
            return bool(self._package.resolve(token.value, sheet))
        except Trouble:
            return False

    def _given(self, parts, argument, sheet, address):
        kind = argument.kind
        own = put_together(parts, as_written)
        identity = self._identity.of(parts, sheet, address)
        literal = is_literal(parts)

        def text():
            said = self._elsewhere.text(parts, self._place_text, sheet, address)
            if kind != "number" or literal:
                return said
            for cell in self._reckoned_with(parts, sheet, address):
                # Another call may come by the same number without the question that this one's
                # cell asks first; a blank cell counts as 0 here as there.
                said = f"IF(ISTEXT({cell}),{cell},{said})"
            asking = self._asking(said, identity, sheet, address)
            if asking == said and _may_be_blank(parts):
                return _number(said, argument)
            return asking

        if kind in ("block", "names", "cells", "rows") and not literal:
            return self._range(own, kind, text, sheet, address)
        try:
            value = self._values.of(own, sheet, address)
        except Trouble as trouble:
            raise Trouble(
                f"{own} cannot be worked out here: {trouble}; put it into a cell of its own and "
                "give that cell"
            ) from None
        if value is None and kind in _SINGLE:
            value = 0.0  # as Calc hands over a blank cell
        if value == "" and kind == "number":
            value = _of_nothing(argument)
        return Given(text, value, identity, literal)

    def _reckoned_with(self, parts, sheet, address):
        """The texts of the single cells of an argument that works with cells, without functions."""
        cells = {}
        for part in parts if len(parts) > 1 else ():
            if isinstance(part, Call) or part.type not in _WORKED:
                return ()
            if part.type == Token.OPERAND and part.subtype == Token.RANGE:
                try:
                    _, top, left, bottom, right = self._package.resolve(part.value, sheet, address)
                except Trouble:
                    return ()
                if (top, left) != (bottom, right):
                    return ()
                cells[self._elsewhere.text([part], self._place_text, sheet, address)] = None
        return reversed(cells)

    def _asking(self, text, identity, sheet, address):
        """The text of a number of which a cell's formula asks first whether it is there."""
        for asked, cell, otherwise in self._identity.asked_before(sheet, address):
            if identity.stands_on(asked):
                cell, otherwise = (
                    self._elsewhere.text(taken_apart("=" + each), as_written, sheet, address)
                    for each in (cell, otherwise)
                )
                text = f"IF(ISNUMBER({cell}),{text},{otherwise})"
        return text

    def _range(self, own, kind, text, sheet, address):
        """The `Given` of a block, or of a range of names, numbers or rows."""
        try:
            place = self._package.resolve(own, sheet, address)
        except Trouble:
            problem = f"{own} is no plain range of cells or name of one; give it as such"
            try:
                value = self._values.of(own, sheet, address)
            except Trouble:
                raise Trouble(problem) from None
            if value is None or isinstance(value, tuple):
                raise Trouble(problem) from None
            return Given(text, value, amount_of(own))
        where, top, left, *_ = place
        if Range(self._values, place).is_large:
            place = self._values.cut(place)
        if place not in self._blocks:
            self._blocks[place] = self._values.block(*place)
        value = self._blocks[place]
        is_one = len(value) == 1 and len(value[0]) == 1

        def cells(row, column):
            return f"{quoted(where)}!{cell_name(top + row, left + column, True)}"

        is_address = "!" in own or ":" in own
        name = f"{where} {cell_name(top, left)}" if is_address else own
        return Given(
            text, value, place, cells=None if is_one and kind == "block" else cells, name=name
        )
