"""Tables of yellow cells whose rows are a key's of a scenario, read back row by row."""

from ...file.address import cell_name
from ...file.trouble import Trouble
from ...formula.targets import spelled
from ...make.formulas.bare import before_asking
from ...make.formulas.holding import hold_formula
from ...make.formulas.references import References
from ...make.kinds.rules import MEASURE, measure_text, row_said
from ...make.texts.text_files import follows, text_wrong
from .known import arrangements_of, given_names, rules_of
from .values import Held


class Tables:
    """What the yellow cells of such tables hold.

    template: the `Template`. holding: the `Holding`. taken: the `Taken` to which the rows go.
    there: a `Book`, laid out, of which the formulas that measure rules must not ask too much.
    """

    def __init__(self, template, holding, taken, there):
        self._there = there
        self._references = References(there)
        self._places = {
            (cell.typed.path, cell.typed.part[0]): (sheet.name, cell_name(*at))
            for sheet in there.sheets for at, cell in sheet.cells.items()
            if cell.typed is not None and cell.typed.kind == MEASURE
        }  # fmt: skip
        self._rules = rules_of(template)
        self._arrangements = arrangements_of(template)
        self._holding = holding
        self._taken = taken
        self._cells = {}  # {path: {row: {place: what a cell holds}}}

    def take(self, typed, yellow):
        """Take what a `Yellow` holds, which is a `Typed` of a row."""
        rows = self._cells.setdefault(typed.path, {})
        self._taken.values.setdefault(typed.path, [])
        if typed.kind == MEASURE:
            held = self._measure(typed, yellow)
        else:
            held = self.followed(typed, yellow) or self._holding.held(yellow, typed.kind)
        if held.wrong:
            self._taken.wrong.append((yellow, held.wrong))
        elif held.value is not None:
            row, place = typed.part
            rows.setdefault(row, {})[place] = held.value

    def followed(self, typed, yellow):
        """Which cell's name a number follows, as a scenario says it; None where it does not.

        With the number that it is now, for a workbook that has no such cell.
        """
        formula = None if yellow.is_blank else yellow.content.formula
        if formula is None or typed.kind == "text":
            return None
        said = measure_text(_as_typed(formula), None)
        followed = follows(said)
        if followed is None or followed[0] not in given_names():
            return None
        now = self._holding.number(yellow)
        return Held(said if now is None else f"{said} or {now:.6f}")

    def _measure(self, typed, yellow):
        """What measures a rule: its formula as it is, or a number or a text.

        Of a formula that reads a sheet of the user's own, or what is not made there, the value.
        """
        formula = None if yellow.is_blank else yellow.content.formula
        if formula is not None:
            said = measure_text(_as_typed(formula), None)
            place = self._places.get((typed.path, typed.part[0]))
            kept = place is None or self._can_stand(said, place[0])
            self._taken.measures.append((yellow, place, kept))
            if kept:
                return Held(said)
        held = self._holding.any(yellow)
        if held.value is not None:
            held.value = measure_text(None, held.value)
        return held

    def _can_stand(self, formula, sheet):
        try:
            hold_formula(formula, self._there.sheet(sheet), self._references)
        except Trouble:
            return False
        return text_wrong(formula) is None

    def finish(self):
        """Put the rows into the `Taken`."""
        for path, rows in self._cells.items():
            if path not in self._arrangements:
                self._taken.values[path] = self._rows(path, rows)
        for path in self._cells:
            if path in self._arrangements:
                self._taken.values[path] = self._placed(path)

    def _rows(self, path, rows):
        found = []
        for number in range(max(rows, default=-1) + 1):
            cells = rows.get(number, {})
            if path in self._rules:
                row = row_said(cells, self._taken.unit)
            else:
                row = [cells.get(place, "") for place in range(max(cells, default=-1) + 1)]
            found.append(_trimmed(row))
        return found

    def _placed(self, path):
        """Rows of a part's name and of where it stands; of parts of one name the first ones, too,
        by which the others are known."""
        rows, parts = self._cells[path], self._taken.values.get(self._arrangements[path], [])
        names = {number: row[0] for number, row in enumerate(parts) if row}
        found, told = [], set()
        for number in sorted(rows):
            name = names.get(number, "")
            before = [n for n in range(number) if names.get(n, "") == name and n not in told]
            told.update((*before, number))
            found += [[name] for _ in before]
            cells = rows[number]
            found.append([name, *(cells.get(place, "") for place in range(1, max(cells) + 1))])
        return found


def _trimmed(row):
    while row and row[-1] == "":
        row = row[:-1]
    return row


def _as_typed(formula):
    """A cell's formula as a scenario says it."""
    said = spelled(formula, "calc")
    try:
        return before_asking(said)
    except Trouble:
        return said
