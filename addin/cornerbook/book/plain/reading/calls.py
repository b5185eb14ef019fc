"""The calls of our formulas in a workbook: read, and replaced by where their results stand."""

import difflib

from ....catalogue import FORMULAS
from ...file.address import cell_name
from ...file.trouble import Trouble
from ...formula.rewrite import Call, put_together, taken_apart
from ..forms.choose import CallForms
from ..forms.places import Place
from .arguments import Arguments


class Calls:
    """Where the result of each call stands, those within arguments included.

    package: the workbook. values: its `Values`. workings: the `Workings` that results go into.
    """

    def __init__(self, package, values, workings):
        self._package = package
        self._arguments = Arguments(package, values, self._place_text)
        self._forms = CallForms(workings)
        self._places = {}

    def read(self, sheet, address, formula):
        """The parts of a cell's formula, each call of ours in them placed.

        Raises `Trouble` with the cell for what cannot be written in plain formulas.
        """
        where = f"{sheet}!{address}"
        try:
            parts = taken_apart(formula)
            for part in parts:
                if isinstance(part, Call):
                    self._place(part, sheet, address)
        except Trouble as trouble:
            raise Trouble(f"{where}: {trouble}") from None
        except NotImplementedError as problem:
            raise Trouble(
                f"{where}: {formula} cannot be written in plain formulas ({problem})"
            ) from None
        return parts

    def live_part(self, sheet, address, content):
        """{cell: a function for its formula, without '='} of a table of which part is live.

        That is one of TWO_WAY, written as an array; of all else nothing is.
        """
        parts = taken_apart(content.formula)
        if not (content.array and len(parts) == 1 and isinstance(parts[0], Call)):
            return {}
        (call,) = parts
        if call.name != "TWO_WAY" or any(
            isinstance(part, Call) for argument in call.arguments for part in argument or ()
        ):
            return {}
        given = self._given(call, sheet, address)
        _, top, left, bottom, right = self._package.resolve(content.array, sheet)
        return {
            cell_name(top + i, left + j): text
            for (i, j), text in self._forms.live_of_two_way(given).items()
            if top + i <= bottom and left + j <= right
        }

    def _place(self, call, sheet, address):
        if call.name not in FORMULAS:
            near = difflib.get_close_matches(call.name, FORMULAS, n=1)
            hint = f"; did you mean CORNER.{near[0]}?" if near else ""
            raise Trouble(f"there is no formula CORNER.{call.name}{hint}")
        for argument in call.arguments:
            for part in argument or ():
                if isinstance(part, Call):
                    self._place(part, sheet, address)
        self._places[call] = self._forms.place(call.name, self._given(call, sheet, address))

    def _given(self, call, sheet, address):
        """A `Given` for each argument of a call."""
        declared = FORMULAS[call.name].arguments
        given = []
        for number, parts in enumerate(call.arguments):
            # One too many is refused whatever it is.
            argument = declared[min(number, len(declared) - 1)]
            given.append(self._arguments.given(parts, argument, sheet, address))
        return given

    def forget(self):
        """Let go of all arguments and places; see `Workings.forget`."""
        for each in (self._arguments, self):
            vars(each).clear()

    def text(self, parts):
        """The formula of a cell with references to results in place of its calls."""
        return "=" + put_together(parts, self._place_text)

    def _place_text(self, call):
        return self._places[call].text()

    def is_one_result(self, parts):
        """Whether a formula is one call, whose result is one cell of the workings."""
        return len(parts) == 1 and isinstance(self._places.get(parts[0]), Place)
