"""From a workbook to a scenario of what is typed into its yellow cells."""

from pathlib import Path

from ....cells.block import POINT_KEYS, ROD_MOUNT, VALUE_KEYS, key_of
from ...file.address import cell_name
from ...file.trouble import Trouble
from ...make.sheet.typed import TYPED
from ...make.texts.units import AS_SAID
from ...make.texts.wish import ENDS, WANTED
from . import former
from .adjusters import Adjusters
from .known import adjusters_of, blocks_of, known_cells, laid_out
from .origins import origins
from .own import own_sheets
from .tables import Tables
from .taken import Taken
from .values import Holding
from .yellow import unit_of, yellow_cells


def taken(path, package, template, into=None):
    """The `Taken` of a workbook. path: its file; package: the `Package` of it; template: the
    `Template` by which its cells are known; into: the one by which it is made again, if another.

    Raises `Trouble` for a workbook with no yellow cell that is known, or of two units of length.
    """
    return _Reading(path, package, template, into).run()


class _Reading:
    def __init__(self, path, package, template, into):
        self.into = into
        self.package = package
        self.template = template
        self.cells = yellow_cells(package)
        self.by_cell = {yellow.cell: yellow for yellow in self.cells}
        self.taken = Taken(_title(path, package, template), unit_of(path, self.cells))
        self.holding = Holding(package, self.taken.unit)
        self.used = {}  # {cell: the Yellow}, in order
        self.parts = {}  # {path: {part: the Yellow it is from}}
        self.places = {}  # {path: the first Yellow of it}
        self.names = self._names()

    def run(self):
        """Everything, in the order of the sheets."""
        rows = self._blocks()
        book = laid_out(self.template, self.taken.unit, rows)
        there = laid_out(self.into, self.taken.unit, rows) if self.into is not None else book
        self.tables = Tables(self.template, self.holding, self.taken, there)
        known = known_cells(book)
        self._known(known)
        if former.is_former(self.package):
            self._former(known)
        self.tables.finish()
        adjusters = Adjusters(self.cells, self.holding, self.taken)
        for sheet, key in adjusters_of(self.template):
            self.used.update((each.cell, each) for each in adjusters.take(sheet, key.split(".")))
        for path, value in rows.items():
            self.taken.values[path] = value
        if not self.used:
            raise Trouble(
                f"{self.package.where} has no yellow cell that is known; a workbook made by "
                "cornerbook new was expected, or with --template the one that it was made from"
            )
        own = own_sheets(self.package, self.template)
        self.taken.placeless = [
            each
            for each in self.cells
            if each.cell not in self.used and not each.is_blank and each.sheet not in own
        ]
        self.taken.formulas = self.holding.formulas
        self.taken.sources = origins(self.package, book, self.places)
        return self.taken

    def _names(self):
        """{name in small letters: the `Yellow` that it is of}."""
        found = {}
        at = {(yellow.sheet, yellow.row, yellow.column): yellow for yellow in self.cells}
        for name, scope, text in self.package.names:
            try:
                sheet, top, left, bottom, right = self.package.resolve(
                    text, scope or self.package.sheets[0]
                )
            except Trouble:
                continue
            if (top, left) == (bottom, right):
                yellow = at.get((sheet, top, left))
                if yellow is not None:
                    found.setdefault(name.lower(), yellow)
        return found

    # ---------------------------------------------------------------- points

    def _blocks(self):
        """{path: value} of the rows of all blocks of points."""
        found = {}
        places = {name.lower(): text for name, scope, text in self.package.names if scope is None}
        for name, key in blocks_of(self.template):
            if name.lower() not in places:
                continue
            try:
                place = self.package.resolve(places[name.lower()], self.package.sheets[0])
            except Trouble:
                continue
            for path, value in self._rows(place, key.split(".")):
                found[path] = value
        return found

    def _rows(self, place, key):
        sheet, top, left, bottom, _ = place
        for row in range(top, bottom + 1):
            across = [self._at(sheet, row, left + column) for column in (1, 2, 3)]
            yellow = [each for each in across if each is not None]
            if not yellow or not yellow[0].label:
                continue
            label = yellow[0].label
            self.used.update((each.cell, each) for each in yellow)
            value = self._row(label, yellow)
            if value is not None:
                self.places[(*key, label)] = yellow[0]
                yield (*key, label), value

    def _row(self, label, yellow):
        """The value of a row; None, and why, where it has none."""
        key = key_of(label)
        is_word = key == key_of(ROD_MOUNT)
        one = is_word or key in VALUE_KEYS or (key not in POINT_KEYS and len(yellow) == 1)
        if not one and key not in POINT_KEYS:
            # A row of the user's own: one value, or x, y, z.
            one = all(each.is_blank for each in yellow[1:])
            is_word = one and yellow[0].content is not None and isinstance(
                yellow[0].content.value, str)  # fmt: skip
        values = []
        for each in yellow[:1] if one else yellow:
            held = self.holding.held(each, "text" if is_word else "length")
            if held.wrong:
                self.taken.wrong.append((each, held.wrong))
                return None
            if held.value is None:
                self.taken.blank.append(each)
                return None
            values.append(held.value)
        return values[0] if one else values

    def _at(self, sheet, row, column):
        return self.by_cell.get((sheet, cell_name(row, column)))

    # ---------------------------------------------------------------- cells of their own

    def _known(self, known):
        places, tables = _by_words(self.cells), _by_words(known)
        skipped = {tuple(key.split(".")) for _, key in blocks_of(self.template)}
        skipped |= {tuple(key.split(".")) for _, key in adjusters_of(self.template)}
        for each in known:
            path = each.typed.path
            if any(path[: len(key)] == key for key in skipped):
                continue
            yellow = self.names.get(each.name.lower()) if each.name else None
            if yellow is None:
                words = (each.sheet.lower(), each.label, each.heading)
                there = places.get(words, ())
                if isinstance(each.typed.part, tuple):
                    # Of tables with the same headings on one sheet, the first is the first.
                    which = _heads(tables[words]).index(each.heading_row)
                    heads = _heads(there)[which : which + 1]
                    there = [y for y in there if y.heading_row in heads]
                yellow = next((y for y in there if y.cell not in self.used), None)
            if yellow is not None and yellow.cell not in self.used:
                self._take(each, yellow)

    def _take(self, known, yellow):
        typed = known.typed
        self.used[yellow.cell] = yellow
        if isinstance(typed.part, tuple):
            self.tables.take(typed, yellow)
            return
        own = typed.path[0] == TYPED
        if own and known.formula is not None and self.holding.has_formula(yellow, known.formula):
            return
        follows = None
        if not own and typed.path[0] != WANTED:
            follows = self.tables.followed(typed, yellow)
        held = follows or self.holding.held(yellow, typed.kind)
        if held.wrong:
            self.taken.wrong.append((yellow, held.wrong))
        elif own:
            if known.formula is not None or not _same(held.value, known.value):
                value = "" if held.value is None else held.value
                self._put(typed.path, None, value, yellow)
        elif typed.path[0] == WANTED:
            self._wish(typed.path, typed.part, held.value, yellow)
        elif held.value is None:
            if not typed.may_be_blank:
                self.taken.blank.append(yellow)
        else:
            self._put(typed.path, typed.part, held.value, yellow)
            unit = known.unit if typed.kind in AS_SAID else self.taken.unit
            self.taken.words[typed.path] = ", ".join(filter(None, (known.label, unit)))

    def _wish(self, path, part, value, yellow):
        """A wish that stands there blank is none, and says so."""
        wish = self.taken.values.setdefault(path, {})
        self.taken.words.setdefault(path, yellow.label)
        if value is not None:
            wish[part] = value
            self.taken.values[path] = {end: wish[end] for end in ENDS if end in wish}
        self.parts.setdefault(path, {})[part] = yellow
        self.places.setdefault(path, yellow)

    def _put(self, path, part, value, yellow):
        self.taken.values[path] = value
        self.parts.setdefault(path, {})[part] = yellow
        self.places.setdefault(path, yellow)

    def _former(self, known):
        names = {yellow.cell: name for name, yellow in self.names.items()}
        theirs = {name.lower(): name for name in former.NAMES}
        kinds = {each.typed.path: each.typed.kind for each in known}
        for yellow in self.cells:
            if yellow.cell in self.used:
                continue
            place = former.place_of(yellow, theirs.get(names.get(yellow.cell, ""), ""))
            if place is None or place[0] not in kinds:
                continue
            path, part = place
            self.used[yellow.cell] = yellow
            held = self.holding.held(yellow, kinds[path])
            first = self.parts.get(path, {}).get(part)
            if held.wrong:
                self.taken.wrong.append((yellow, held.wrong))
            elif first is not None:
                if not _same(self.holding.held(first, kinds[path]).value, held.value):
                    self.taken.other.append((yellow, first))
            elif path[0] == WANTED:
                self._wish(path, part, held.value, yellow)
            elif held.value is not None:
                self._put(path, part, held.value, yellow)


def _by_words(cells):
    """{(sheet in small letters, label, heading): its `Yellow`s or `Known`s}."""
    found: dict = {}
    for each in cells:
        found.setdefault((each.sheet.lower(), each.label, each.heading), []).append(each)
    return found


def _heads(cells):
    """The rows of the headings of some cells, in order."""
    return sorted({each.heading_row for each in cells})


def _same(one, other):
    """Whether two values are the same, or both blank."""
    if isinstance(one, float) and isinstance(other, (int, float)):
        return abs(one - other) <= 1e-12 * max(abs(one), abs(other))
    return (one or None) == (other or None)


def _title(path, package, template):
    """The car's name: what the file's title says after the template's, else the file's name."""
    title = package.title
    for head in (template.title, *former.TEMPLATES):
        if title.startswith(head + ": ") and title[len(head) + 2 :].strip():
            return title[len(head) + 2 :].strip()
    return Path(path).stem
