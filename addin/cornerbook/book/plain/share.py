"""A copy of a workbook that is live in any spreadsheet program, with no add-in.

Every call of a formula of ours becomes a reference to a cell of added *Workings* sheets, on
which the same calculation stands in plain formulas. All else in the file stays as it is.
"""

import difflib

from ... import __version__
from ...catalogue import FORMULAS
from ..file.address import cell_name
from ..file.appearance import CAUTION
from ..file.cell_error import CellError
from ..file.new_sheet import free_name
from ..file.package import Package
from ..file.trouble import Trouble
from ..formula.rewrite import (
    Call,
    has_call,
    is_literal,
    is_opposite,
    put_together,
    quoted,
    taken_apart,
)
from ..formula.values import Values, _single
from .calls import opposite
from .forms import Plain
from .results import Constant, Given, Range

CHECKED = 12
"""How many results the check page compares with their values when the copy was made."""

NOTE_HEIGHT = 32
"""In points, of the note below a sheet's title."""

MOST_STEPS = 20
"""Cells that only refer to another one are followed this far."""

TOP = 3
"""The row of a workings sheet, from zero, at which its first table begins."""


def share(path, values=False):
    """The copy of a workbook, as bytes, and sentences on what is worth saying about it.

    path: an .xlsx file, which is only read. values: make a frozen copy of numbers instead.
    Raises `Trouble` with the cell for what cannot be written in plain formulas.
    """
    package = Package.read(path)
    if values:
        return _frozen(package), package.warnings()
    sharing = _Sharing(package)
    sharing.run()
    return package.to_bytes(), package.warnings() + sharing.messages


def _frozen(package):
    values = Values(package)
    for sheet in package.sheets:
        for address, content in package.cells(sheet).items():
            if content.formula is not None and (content.value is None or has_call(content.formula)):
                value = values.at(sheet, address)
                if value is not None and not isinstance(value, tuple):
                    package.set_formula(sheet, address, content.formula, value, content.array)
    package.freeze_values(lambda *_: True)
    return package.to_bytes()


class _Sharing:
    def __init__(self, package):
        self.package = package
        self.values = Values(package)
        self.plain = Plain()
        self.messages = []
        self.places = {}
        self.local = {}
        for name, scope, _ in package.names:
            if scope is not None:
                self.local.setdefault(scope, set()).add(name.lower())

    def run(self):
        for place, formula in self.package.formulas_elsewhere():
            if has_call(formula):
                raise Trouble(
                    f"{place} calls a CORNER formula; put the call into a cell and refer "
                    "to that cell"
                )
        found, frozen, where = [], set(), set()
        for sheet in self.package.sheets:
            for address, content in self.values.cells[sheet].items():
                if content.formula is not None and has_call(content.formula):
                    names = self._names_without_plain_form(content.formula)
                    if names:
                        self._keep_numbers(sheet, address, content)
                        frozen.update(names)
                        where.add(sheet)
                        continue
                    found.append((sheet, address, content, self._parts(sheet, address, content)))
        if frozen:
            self.messages.append(
                f"On {' and '.join(sorted(where))} cells that call "
                f"{', '.join('CORNER.' + n for n in sorted(frozen))} keep their numbers "
                "of now: that has no plain form."
            )
        elif not found:
            self.messages.append("It calls no CORNER formula; the copy is the same workbook.")
        if not found:
            return
        sheets = self.plain.settle()
        self._name_sheets(sheets)
        self.plain.compute()
        checks = [self._replace(*one) for one in found]
        for tables in sheets.values():
            self._write(tables)
        self._check_page([check for check in checks if check])

    # Formulas without a plain form

    @staticmethod
    def _names_without_plain_form(formula):
        """The names of such formulas that a cell calls, at any depth."""
        names, stack = set(), list(taken_apart(formula))
        while stack:
            part = stack.pop()
            if isinstance(part, Call):
                if part.name in FORMULAS and not FORMULAS[part.name].plain:
                    names.add(part.name)
                stack.extend(p for argument in part.arguments for p in argument or ())
        return names

    def _keep_numbers(self, sheet, address, content):
        """Make a formula's cell, or those of its table, what they show now."""
        value = self.values.at(sheet, address)
        top, left, bottom, right = 0, 0, 0, 0
        if content.array:
            _, top, left, bottom, right = self.package.resolve(content.array, sheet)
        rows = value if isinstance(value, tuple) else ((value,),)
        for r in range(bottom - top + 1):
            for c in range(right - left + 1):
                inside = r < len(rows) and c < len(rows[r])
                cell = rows[r][c] if inside else CellError("#N/A")
                at = cell_name(top + r, left + c) if content.array else address
                self.package.set_value(sheet, at, cell)

    # Reading

    def _parts(self, sheet, address, content):
        where = f"{sheet}!{address}"
        try:
            parts = taken_apart(content.formula)
            for part in parts:
                if isinstance(part, Call):
                    self._place(part, sheet, address)
        except Trouble as trouble:
            raise Trouble(f"{where}: {trouble}") from None
        except NotImplementedError as problem:
            raise Trouble(
                f"{where}: {content.formula} cannot be written in plain formulas ({problem})"
            ) from None
        return parts

    def _place(self, call, sheet, address):
        if call.name not in FORMULAS:
            near = difflib.get_close_matches(call.name, FORMULAS, n=1)
            hint = f"; did you mean CORNER.{near[0]}?" if near else ""
            raise Trouble(f"there is no formula CORNER.{call.name}{hint}")
        for argument in call.arguments:
            for part in argument or ():
                if isinstance(part, Call):
                    self._place(part, sheet, address)
        entry = FORMULAS[call.name]
        given = []
        for number, parts in enumerate(call.arguments):
            kind = entry.arguments[number].kind if number < len(entry.arguments) else "number"
            given.append(None if parts is None else self._given(parts, kind, sheet, address))
        self.places[id(call)] = self.plain.place(call.name, given)

    def _given(self, parts, kind, sheet, address):
        def text():
            # Calls within are known by now, but placed only when this is asked for.
            return self._text(parts, sheet, address)

        own = put_together(parts, _original)
        identity = self._identity(parts, sheet, address)
        literal = is_literal(parts)
        if kind in ("block", "names") and not literal:
            return self._given_range(own, kind, text, sheet, address)
        value = self.values.of(own, sheet, address)
        if value is None and not self._is_cell(own, sheet, address):
            raise Trouble(
                f"{own} holds a function that cannot be worked out here; put it into a cell of "
                "its "
                "own and give that cell"
            )
        return Given(text, value, identity, literal)

    def _identity(self, parts, sheet, address):
        """What makes two arguments one: their text, a cell that only refers being followed."""
        if is_opposite(parts):
            # A formula of both wheels asks for the opposite of its rack in the same way.
            return opposite(self._identity(parts[1:], sheet, address))
        text = put_together(parts, _original, sheet, address, self.local.get(sheet, ()))
        for _ in range(MOST_STEPS):
            try:
                where, top, left, bottom, right = self.package.resolve(text, sheet, address)
            except Trouble:
                return text
            if (top, left) != (bottom, right):
                return text
            text = f"{quoted(where)}!{cell_name(top, left, True)}"
            content = self.values.cells[where].get(cell_name(top, left))
            if content is None or content.formula is None:
                return text
            inner = taken_apart(content.formula)
            if is_opposite(inner):
                return opposite(self._identity(inner[1:], where, cell_name(top, left)))
            if len(inner) != 1 or isinstance(inner[0], Call) or "(" in content.formula:
                return text
            sheet, address = where, cell_name(top, left)
            following = put_together(inner, _original, sheet, address, self.local.get(sheet, ()))
            try:
                self.package.resolve(following, sheet, address)
            except Trouble:
                return text
            text = following
        return text

    def _given_range(self, own, kind, text, sheet, address):
        try:
            place = self.package.resolve(own, sheet, address)
        except Trouble:
            value = self.values.of(own, sheet, address)
            if value is None or isinstance(value, tuple):
                raise Trouble(
                    f"{own} is no plain range of cells or name of one; give it as such"
                ) from None
            return Given(text, value, own)
        where, top, left, *_ = place
        value = self.values.block(*place)
        is_one = len(value) == 1 and len(value[0]) == 1

        def cells(row, column):
            return f"{quoted(where)}!{cell_name(top + row, left + column, True)}"

        is_address = "!" in own or ":" in own
        name = f"{where} {cell_name(top, left)}" if is_address else own
        return Given(
            text, value, place, cells=None if is_one and kind == "block" else cells, name=name
        )

    def _is_cell(self, text, sheet, address):
        try:
            place = self.package.resolve(text, sheet, address)
        except Trouble:
            return False
        return place[1:3] == place[3:5]

    def _text(self, parts, sheet, address):
        def inner(call):
            return self.places[id(call)].text()

        return put_together(parts, inner, sheet, address, self.local.get(sheet, ()))

    # Writing

    def _name_sheets(self, sheets):
        taken = list(self.package.sheets)
        for title, tables in sheets.items():
            name = free_name(title, taken)
            taken.append(name)
            top = TOP
            for table in tables:
                table.sheet = name
                table.top = top
                top += table.height

    def _replace(self, sheet, address, content, parts):
        def text(call):
            return self.places[id(call)].text()

        formula = "=" + put_together(parts, text)
        value = self.values.at(sheet, address)
        if content.array:
            self._replace_array(sheet, address, content.array, formula, value)
            return None
        value = _single(value)
        self.package.set_formula(sheet, address, formula, value)
        whole = len(parts) == 1 and not isinstance(self.places[id(parts[0])], (Constant, Range))
        return (sheet, address, value) if whole else None

    def _replace_array(self, sheet, address, array, formula, value):
        _, top, left, bottom, right = self.package.resolve(array, sheet)
        rows = value if isinstance(value, tuple) else ((value,),)
        one = len(rows) == 1 and len(rows[0]) == 1
        for r in range(bottom - top + 1):
            for c in range(right - left + 1):
                if one:
                    cell = rows[0][0]
                elif r < len(rows) and c < len(rows[r]):
                    cell = rows[r][c]
                else:
                    cell = CellError("#N/A")
                if r == c == 0:
                    self.package.set_formula(sheet, address, formula, cell, array)
                else:
                    self.package.set_value(sheet, cell_name(top + r, left + c), cell)

    def _write(self, tables):
        cells = [
            (0, 0, None, tables[0].sheet, "title"),
            (1, 0, None, "The calculation of this workbook's results in plain formulas: a column "
             "is a step, a row is one call. Nothing here is to be typed over. " + CAUTION, "note"),
        ]  # fmt: skip
        heights = {1: NOTE_HEIGHT}
        for table in tables:
            cells.extend(table.cells())
            heights.update(table.heights())
        self._add(tables[0].sheet, cells, heights, "A2:L2", [13] * 260)

    def _add(self, name, cells, heights, note, widths):
        rows = {}
        for row, column, formula, value, style in sorted(cells, key=lambda cell: cell[:2]):
            rows.setdefault(row + 1, []).append((column + 1, formula, value, style))
        heights = {row + 1: height for row, height in heights.items()}
        self.package.add_sheet(name, sorted(rows.items()), widths, None, [note], heights)

    def _check_page(self, checks):
        named = {(place[0], cell_name(*place[1:3])): name for name, place in self._named_cells()}
        # Results that have a name say the most; then those that stand first.
        checks.sort(key=lambda check: (check[:2] not in named,))
        checks = checks[:CHECKED]
        first, last = 6, 5 + len(checks)
        verdicts = f"E{first}:E{last}"
        summary = f'=IF(COUNTIF({verdicts},"as shared")={len(checks)},"as shared","edited since")'
        cells = [
            (0, 0, None, "Shared copy", "title"),
            (
                1,
                0,
                None,
                f"Made by cornerbook {__version__}. Live in any spreadsheet program, "
                "with no add-in. "
                "Some results now, beside what they were when the copy was made.",
                "note",
            ),
            (2, 0, None, "All of them", "heading"),
            (2, 1, summary, "as shared", "said"),
        ]
        for column, title in enumerate(("result", "cell", "now", "when shared", "verdict")):
            cells.append((4, column, None, title, "heading"))
        for row, (sheet, address, value) in enumerate(checks, 5):
            now, then = f"C{row + 1}", f"D{row + 1}"
            near = f"ABS({now}-{then})<=0.000000001*MAX(1,ABS({then}))"
            same = f"IF(ISNUMBER({now}),IF(ISNUMBER({then}),{near},FALSE),{now}={then})"
            where = f"{quoted(sheet)}!{address}"
            cells += [
                (row, 0, None, named.get((sheet, address), ""), "plain"),
                (row, 1, None, where, "plain"),
                (row, 2, "=" + where, value, "number"),
                (row, 3, None, value, "number"),
                (row, 4, f'=IF({same},"as shared","edited since")', "as shared", "said"),
            ]
        name = free_name("Shared copy", self.package.sheets)
        self._add(name, cells, {1: NOTE_HEIGHT}, "A2:E2", [24, 28, 16, 16, 16])

    def _named_cells(self):
        for name, scope, text in self.package.names:
            try:
                place = self.package.resolve(text, scope or self.package.sheets[0])
            except Trouble:
                continue
            if place[1:3] == place[3:5]:
                yield name, place


def _original(call):
    arguments = ["" if a is None else put_together(a, _original) for a in call.arguments]
    return f"CORNER.{call.name}({','.join(arguments)})"
