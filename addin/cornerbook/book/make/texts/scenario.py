"""A scenario: the numbers of a car, as text that anyone can edit."""

from ....cells.adjusted import ADJUSTERS
from ....cells.block import key_of
from . import origins, units
from .corner_rows import CornerRows
from .mistakes import Mistakes, PlacedTrouble, hold_all
from .text_files import (
    TextFile,
    follows,
    kind_name,
    near,
    nearest,
    number_wrong,
    text_wrong,
)
from .tree import at, merged
from .wish import ENDS, TARGET, WANTED, ends_of, keys_of_wish

OWN = ("title", "unit")
"""Keys of every scenario, whichever chapters it serves."""

ADJUSTER = ("moves", "turn", "least", "most", "side", "step", "plus", "minus")
"""Keys of an adjuster; all but the first two may be left out."""

SIDES = ("each", "both", "left", "right", "none")
"""Where an adjuster is: on each side apart, on both alike, or on one of them."""


class Adjuster:
    """An adjuster of a scenario: its name, what it moves, and its way for a step (dx, dy, dz).

    ends: the least and the most steps. side: one of `SIDES`. words: what a step is, and what a
    step plus and a step minus are to whoever turns it.
    """

    __slots__ = ("ends", "moves", "name", "side", "way", "words")

    def __init__(self, name, content, way):
        self.name = name
        self.moves = content["moves"]
        self.way = way
        self.ends = (content.get("least", -10), content.get("most", 10))
        self.side = content.get("side", SIDES[0])
        said = (("step", "a step"), ("plus", "plus"), ("minus", "minus"))
        self.words = tuple(content.get(key, otherwise) for key, otherwise in said)


class Scenario:
    """A scenario file. Numbers are given in its own unit system, `unit` ("mm" or "in").

    Every method takes a key with dots, such as "car.wheelbase", and raises `Trouble` with
    the file and the line where the scenario has no such value or one of the wrong kind.

    A scenario may be completed by what was not given: `content` is then what was given and
    what was added, `file.content` what was given alone, and `sources` says of each key where its
    numbers come from. What was given may have been added in a scenario of before, and say so. One
    that is `open` could not be completed for its mistakes: what could have been added is not
    missed.

    mistakes: the `Mistakes` to which those of its head are added; they are raised if it is None.
    heads: what stands in for a title and a unit that are not given; both are needed if None.
    text: what to read in place of the file.
    """

    def __init__(self, path, mistakes=None, heads=None, text=None):
        found = Mistakes() if mistakes is None else mistakes
        self.file = TextFile(path, text)
        found.files.append(self.file.name)
        self.content = self.file.content
        self.sources = {}
        self._told, told_wrong = origins.read(self.content.pop(origins.TABLE, {}))
        self.open = False
        self._could_have = None
        self._heads = heads or {}
        self.unit, self.title = units.SYSTEMS[0], ""
        if self.file.is_empty:
            found.take(
                self.file.at('the file is empty; title = "...", unit = "mm" and more were expected')
            )
        else:
            self._read_head(found)
        for message, *path in told_wrong:
            found.take(self.file.at(message, *path))
        if mistakes is None:
            found.hold()

    def _read_head(self, mistakes):
        for key in OWN:
            if key in self._heads and not self.has(key):
                setattr(self, key, self._heads[key])
                continue
            try:
                setattr(self, key, self._text(key))
            except PlacedTrouble as trouble:
                mistakes.take(trouble)
        if self.unit not in units.SYSTEMS:
            mistakes.take(
                self.wrong(f'the unit is "{self.unit}"; "mm" or "in" was expected', "unit")
            )
            self.unit = units.SYSTEMS[0]

    def wrong(self, message, key, *within):
        """A `PlacedTrouble` at a key, or at something within its table."""
        return self.file.at(message, *key.split("."), *within)

    # ---------------------------------------------------------------- completed

    def complete(self, added, sources):
        """Add what was not given, in the scenario's own unit; see the class."""
        self.content = merged(self.file.content, added)
        self.sources = sources

    def leave_open(self, could_have):
        """Have what could be added not missed. could_have: whether a key is one of that."""
        self.open = True
        self._could_have = could_have

    def could_have(self, key):
        """Whether a key that is not there would have been added."""
        return self.open and self._could_have(key)

    def source(self, key):
        """Where the numbers of a key came from, as a sheet says it; '' where nothing was added."""
        sentence = self._told.get(key) if self.has_given(key) else None
        return origins.shown(sentence or self.sources.get(key, ""))

    # ---------------------------------------------------------------- values

    def has(self, key):
        """Whether there is a value or a table of this key."""
        return self._look(key)[0]

    def has_given(self, key):
        """Whether a value or a table of this key was given."""
        return at(self.file.content, key.split("."))[0]

    def value_of(self, key):
        """The value or table of a key as it stands; None where there is none."""
        return self._look(key)[1]

    def value(self, key, kind, system):
        """A number or text of a kind, in the wanted unit system.

        In place of a number a text may say which cell it follows, as in `rows`.
        """
        if kind == "text":
            return self._text(key)
        value = self._of(key)
        if follows(value):
            return value
        said = number_wrong(value)
        if said is not None:
            raise self.wrong(f"{key} is {said}", key)
        return units.converted(float(value), kind, self.unit, system)

    def wish(self, name, kind, system):
        """(from, aim, to) of a wish, in the wanted unit system; None for what is not said.

        It stands in the table `wanted` as { from = ..., aim = ..., to = ... }, of which any may
        be left out, as a number, the aim, or as [from, to]; in older scenarios the band stands
        in the table `target`.
        """
        found = dict.fromkeys(ENDS)
        keys = [key for key in keys_of_wish(name) if self.has(key)]
        for key in reversed(keys):
            found.update(self._wished(key))
        said = [found[end] for end in ENDS if found[end] is not None]
        if sorted(said) != said:
            raise self.wrong(
                f"{keys[0]} is out of order; from, aim and to were expected, each above the "
                "one before",
                keys[0],
            )
        return [
            None if found[end] is None
            else units.converted(float(found[end]), kind, self.unit, system)
            for end in ENDS
        ]  # fmt: skip

    def wishes(self):
        """The names of the wishes that it says."""
        tables = [self.value_of(table) for table in (WANTED, TARGET)]
        return {name for table in tables if isinstance(table, dict) for name in table}

    def _wished(self, key):
        value = self._of(key)
        ends = ends_of(value)
        if ends is None:
            raise self.wrong(
                f"{key} is {kind_name(value)}; {{ from = ..., aim = ..., to = ... }} was expected",
                key,
            )
        for end, number in ends.items():
            if end not in ENDS:
                raise self.wrong(f'{key}: "{end}" is not known; {nearest(end, ENDS)}', key, end)
            said = number_wrong(number)
            if said is not None:
                raise self.wrong(f"{key}: {end} is {said}", key, end)
        return ends

    def corner(self, key, system, whole=False, begun=False):
        """A corner's rows: tuples of a name, a kind, and one or three numbers or a word.

        whole: whether its rows are those of a linkage, every one of which must be there unless
        begun, or where the scenario is open.
        """
        read = CornerRows(self._table(key), whole)
        hold_all(
            self.wrong(f"{key}: {said}", key, *([] if label is None else [label]))
            for label, said in read.wrong
            if not ((self.open or begun) and label is None)
        )
        return [
            (label, kind, [self._converted(value, kind, system) for value in values])
            for label, kind, values in read.rows
        ]

    def own_rows(self, key):
        """(line, name) of a corner's rows that no formula reads."""
        path = key.split(".")
        own = CornerRows(self._table(key), False).own
        return [(self.file.lines.of((*path, label)), label) for label in own]

    def adjusters(self, key, system):
        """The `Adjuster`s of a table."""
        table = self._table(key)
        hold_all(
            self.wrong(f'{key}: "{name}" {said}', key, name, *within)
            for name, content in table.items()
            for said, *within in _adjuster_wrong(name, content)
        )
        return [
            Adjuster(
                name,
                content,
                [self._converted(part, "length", system) for part in content["turn"]],
            )
            for name, content in table.items()
        ]

    def rows(self, key, kinds, system):
        """The rows of a table: lists of a number or text of each kind, None for a blank.

        In place of a number a text such as "=DriverMass or 78" says which cell it follows.
        """
        value = self._of(key)
        if not isinstance(value, list):
            raise self.wrong(f"{key} is {kind_name(value)}; a list of rows was expected", key)
        hold_all(
            self.wrong(f"{key}: row {number} {said}", key)
            for number, row in enumerate(value, 1)
            for said in _row_wrong(row, kinds)
        )
        return [
            [
                None if cell == "" else self._converted(cell, kind, system)
                for cell, kind in zip(row, kinds, strict=False)
            ]
            + [None] * (len(kinds) - len(row))
            for row in value
        ]

    # ---------------------------------------------------------------- looking up

    def _look(self, key):
        """(whether there is such a key, its value)."""
        return at(self.content, key.split("."))

    def _of(self, key):
        found, value = self._look(key)
        if not found:
            raise self.wrong(f'the key "{key}" is missing', key)
        return value

    def _text(self, key):
        value = self._of(key)
        if not isinstance(value, str):
            raise self.wrong(f"{key} is {kind_name(value)}; a text was expected", key)
        said = text_wrong(value)
        if said is not None:
            raise self.wrong(f"the text {key} {said}", key)
        return value

    def _table(self, key):
        value = self._of(key)
        if not isinstance(value, dict):
            raise self.wrong(f"{key} is {kind_name(value)}; a table was expected", key)
        return value

    def _converted(self, value, kind, system):
        if kind == "text" or follows(value):
            return value
        return units.converted(float(value), kind, self.unit, system)


def _row_wrong(row, kinds):
    """What is wrong with a row of a table, in words that follow its number."""
    if not isinstance(row, list):
        yield f"is {kind_name(row)}; a list of {len(kinds)} or fewer was expected"
        return
    if len(row) > len(kinds):
        yield f"has {len(row)} places; {len(kinds)} at most were expected"
    for place, (cell, kind) in enumerate(zip(row, kinds, strict=False), 1):
        if cell == "":
            continue
        if kind != "text":
            said = None if follows(cell) else number_wrong(cell)
        elif isinstance(cell, str):
            wrong = text_wrong(cell)
            said = wrong and f"a text that {wrong}"
        else:
            said = f"{kind_name(cell)}; a text was expected"
        if said:
            yield f"is wrong at place {place}: it is {said}"


def _adjuster_wrong(name, content):
    """What is wrong with an adjuster: (words that follow its name, the key where it is)."""
    wrong = text_wrong(name)
    if wrong is not None:
        yield (f"has a name that {wrong}",)
    shape = 'needs moves = "..." and turn = [dx, dy, dz]'
    if not isinstance(content, dict):
        yield (shape,)
        return
    meant = set()
    for key in content:
        if key not in ADJUSTER:
            meant.add(near(key, ADJUSTER))
            yield f'has a key "{key}", which is not known; {nearest(key, ADJUSTER)}', key
    yield from _steps_wrong(content)
    moves, turn = content.get("moves"), content.get("turn")
    if not isinstance(moves, str):
        if "moves" not in meant:
            yield (shape,)
    elif key_of(moves) not in map(key_of, ADJUSTERS):
        yield f'moves "{moves}", which is not known; {nearest(moves, ADJUSTERS)}', "moves"
    if not isinstance(turn, list) or len(turn) != 3:
        if "turn" not in meant:
            yield (shape,)
        return
    for axis, part in zip("xyz", turn, strict=True):
        said = number_wrong(part)
        if said is not None:
            yield f"has a wrong d{axis}: it is {said}", "turn"


def _steps_wrong(content):
    """What is wrong with what may be left out of an adjuster."""
    ends = {}
    for key, otherwise in (("least", -10), ("most", 10)):
        ends[key] = content.get(key, otherwise)
        if type(ends[key]) is not int or abs(ends[key]) > 1000:
            yield f"has a wrong {key}: a whole number of steps, at most 1000, was expected", key
            return
    if ends["least"] > ends["most"]:
        yield "has a least that is above its most", "least"
    if content.get("side", SIDES[0]) not in SIDES:
        yield f"has a wrong side; {nearest(str(content['side']), SIDES)}", "side"
    for key in ("step", "plus", "minus"):
        if key in content:
            value = content[key]
            said = text_wrong(value) if isinstance(value, str) else "is no text"
            if said is not None:
                yield f"has a wrong {key}: it {said}", key
