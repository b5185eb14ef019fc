"""What a template's blocks ask of a scenario, and what the scenario holds besides."""

import functools

from ..file.trouble import Trouble
from .sheet.typed import TYPED, value_said
from .templates.sheets import keys_named
from .texts import units
from .texts.places import chapters_of_ours
from .texts.scenario import OWN, Adjuster
from .texts.text_files import kind_name, near
from .texts.wish import name_of_wish


class Asked:
    """A scenario as the blocks of a template ask it.

    It has a scenario's methods. What is missing or wrong is kept as a mistake, and something
    stands in for it, so that a block goes on and asks for the rest.

    scenario: the `Scenario`; None for one that could not be read. mistakes: the `Mistakes`.
    part: the `Sheets` whose blocks are asking.
    """

    def __init__(self, scenario, mistakes):
        self.scenario = scenario
        self.mistakes = mistakes
        self.part = None
        self._unit = units.SYSTEMS[0] if scenario is None else scenario.unit
        self._asked = {}
        self._typed = set()

    @property
    def keys(self):
        """Every key that was asked for."""
        return frozenset(self._asked)

    @property
    def title(self):
        """The car's name."""
        return "" if self.scenario is None else self.scenario.title

    @property
    def unit(self):
        """The scenario's own unit of length."""
        return self._unit

    def value(self, key, kind, system):
        """See `Scenario.value`."""
        stand_in = "" if kind == "text" else 1.0
        shape = "a text" if kind == "text" else f"a number, {self._quantity(kind)}"
        return self._answer("value", key, shape, stand_in, kind, system)

    def wish(self, name, kind, system):
        """See `Scenario.wish`; a wish that is not there is none."""
        if self.scenario is not None:
            try:
                return self.scenario.wish(name, kind, system)
            except Trouble as trouble:
                self.mistakes.take(trouble)
        return [None, None, None]

    def wishes(self):
        """The names of all wishes that the scenario says or a chapter of ours knows."""
        said = set() if self.scenario is None else self.scenario.wishes()
        ours = {name_of_wish(key) for key in keys_of_ours() if name_of_wish(key) != key}
        return said | ours

    def corner(self, key, system, whole=False):
        """See `Scenario.corner`; rows of the user's own are noted."""
        rows = self._answer("corner", key, "a table of points", None, system, whole)
        if rows is None:
            return [("Wheel centre", "length", [0.0, 0.0, 0.0])]
        for line, label in self.scenario.own_rows(key):
            said = f'{key}: the row "{label}" is one of your own; no formula reads it'
            self.mistakes.notes.append((self.scenario.file.name, line, said))
        return rows

    def adjusters(self, key, system):
        """See `Scenario.adjusters`."""
        stand_in = [Adjuster("", {"moves": "tie rod"}, [0.0, 0.0, 0.0])]
        return self._answer("adjusters", key, "a table of adjusters", stand_in, system)

    def has(self, key):
        """Whether there is a value of a key that may be left out."""
        return self.scenario is not None and self.scenario.has(key)

    def rows(self, key, kinds, system):
        """See `Scenario.rows`; none where there is no such key."""
        if not self.has(key):
            return []
        return self._answer("rows", key, "a list of rows", [], kinds, system)

    def new_words(self, sheet, words):
        """The words, with a number where they are said of another cell of the sheet already."""
        found, number = words, 1
        while (sheet, found) in self._typed:
            number += 1
            found = f"{words} {number}"
        return found

    def typed(self, sheet, words, kind, system):
        """See `typed.value_said`."""
        self._typed.add((sheet, words))
        if self.scenario is not None:
            try:
                return value_said(self.scenario, sheet, words, kind, system)
            except Trouble as trouble:
                self.mistakes.take(trouble)
        return False, None

    def source(self, key):
        """See `Scenario.source`."""
        return "" if self.scenario is None else self.scenario.source(key)

    def _keys_of_typed(self, template):
        """The keys of what is typed besides; of a sheet of ours that is not made, its table."""
        sheets = [sheet for part in template.parts for sheet in part.sheets]
        names = [sheet.get("name") for sheet in sheets if isinstance(sheet, dict)]
        made = {name for name in names if isinstance(name, str)}
        for sheet in sheets_of_ours() - made:
            yield f"{TYPED}.{sheet}"
        for sheet, words in self._typed:
            yield f"{TYPED}.{sheet}.{words}"

    def _quantity(self, kind):
        unit = units.unit_of(kind, self._unit)
        return f"{kind} in {unit}" if unit else kind

    def _answer(self, method, key, shape, stand_in, *how):
        self._asked.setdefault(key, (self.part.said, shape))
        if self.scenario is not None and self.scenario.has(key):
            try:
                return getattr(self.scenario, method)(key, *how)
            except Trouble as trouble:
                self.mistakes.take(trouble)
        return stand_in

    # ---------------------------------------------------------------- keys

    def hold_keys(self, template):
        """Keep as mistakes what is missing, and the keys that no chapter knows.

        A scenario may serve several templates: a key that any chapter of ours uses is known.
        """
        if self.scenario is None or self.scenario.file.is_empty:
            return
        theirs = {key for part in template.parts for key in part.keys}
        typed = self._keys_of_typed(template)
        keys = _Keys(self.scenario, {*OWN, *self._asked, *theirs, *keys_of_ours(), *typed})
        missing = {key: said for key, said in self._asked.items() if not self.scenario.has(key)}
        for holder, trouble in keys.no_tables():
            self.mistakes.take(trouble)
            for key in [each for each in missing if each.startswith(holder + ".")]:
                del missing[key]
        if template.whole:
            for path in keys.unknown():
                self.mistakes.take(keys.said_of_unknown(path, missing))
        for key in [each for each in missing if self.scenario.could_have(each)]:
            del missing[key]
        for trouble in keys.said_of_missing(missing):
            self.mistakes.take(trouble)


class _Keys:
    """The keys of a scenario beside those that are known.

    known: keys with dots. One that is known stands for all within it.
    """

    def __init__(self, scenario, known):
        self.scenario = scenario
        self.known = known

    def unknown(self, table=None, path=()):
        """The paths of keys that are not known; of a table of such, the table's alone."""
        for name, value in (self.scenario.file.content if table is None else table).items():
            key = ".".join((*path, name))
            if key in self.known:
                continue
            if not any(each.startswith(key + ".") for each in self.known):
                yield (*path, name)
            elif isinstance(value, dict):
                yield from self.unknown(value, (*path, name))

    def no_tables(self):
        """(key, mistake) of what should be a table and is none."""
        for each in self.known:
            parts = each.split(".")
            for end in range(1, len(parts)):
                key = ".".join(parts[:end])
                if self.scenario.has(key) and not isinstance(self.scenario.value_of(key), dict):
                    said = (
                        f"{key} is {kind_name(self.scenario.value_of(key))}; a table was expected"
                    )
                    yield key, self.scenario.wrong(said, key)

    def said_of_unknown(self, path, missing):
        """The mistake of an unknown key. missing: {key: (who needs it, what)}; what it is rather
        meant to be is taken from these, for it is said here."""
        key = ".".join(path)
        table = isinstance(self.scenario.value_of(key), dict)
        named = f"the table [{key}]" if table else f'the key "{key}"'
        meant = self._meant(path)
        said = f"{named} is not known to any chapter"
        if meant is not None:
            shown = f"[{meant}]" if table else f'"{meant}"'
            said = f"{named} is not known; did you mean {shown}?"
            needed = [each for each in missing if each == meant or each.startswith(meant + ".")]
            if needed:
                said += f" {missing[needed[0]][0][:1].upper()}{missing[needed[0]][0][1:]} needs it"
            for each in needed:
                del missing[each]
        return self.scenario.file.at(said, *path)

    def _meant(self, path):
        """The known key that one resembles: among its neighbours, or of the same name elsewhere."""
        *above, name = path
        head = "".join(part + "." for part in above)
        names = {each[len(head) :].split(".")[0] for each in self.known if each.startswith(head)}
        names.discard(name)
        absent = [each for each in sorted(names) if not self.scenario.has_given(head + each)]
        # One that is there already is hardly meant, unless it is nearly the same.
        found = near(name, absent) or near(name, sorted(names), 0.85)
        if found is not None:
            return head + found
        others = sorted(self.known - {".".join(path)})
        return next((each for each in others if each.split(".")[-1] == name), None)

    def _there_instead(self, key):
        """The known key beside a missing one that the scenario has and that it resembles."""
        head = key[: key.rfind(".") + 1]
        there = [each for each in sorted(self.known) if self.scenario.has(each)]
        return near(key, [each for each in there if each[: each.rfind(".") + 1] == head], 0.8)

    def said_of_missing(self, missing):
        """The mistakes of keys that are missing: one for each, or for each table of them."""
        tables: dict = {}
        for key, said in missing.items():
            tables.setdefault(self._first_absent(key), {})[key] = said
        for absent, keys in tables.items():
            if absent in keys:
                who, shape = keys[absent]
                said = f'the key "{absent}" is missing; {who} needs it: {shape}'
                known = self._there_instead(absent)
                if absent not in keys_of_ours() and known is not None:
                    said += f'; did you mean "{known}"?'
            else:
                who = next(iter(keys.values()))[0]
                named = [f"{key[len(absent) + 1 :]} ({shape})" for key, (_, shape) in keys.items()]
                said = f"the table [{absent}] is missing; {who} needs it: {', '.join(named)}"
            yield self.scenario.file.at(said, *absent.split("."))

    def _first_absent(self, key):
        """The outermost part of a key that is not there: a table's, or the key itself."""
        parts = key.split(".")
        for end in range(1, len(parts)):
            if not self.scenario.has(".".join(parts[:end])):
                return ".".join(parts[:end])
        return key


@functools.cache
def sheets_of_ours():
    """The names of the sheets of our chapters."""
    files = chapters_of_ours()
    return frozenset(sheet["name"] for file in files for sheet in file.content.get("sheet", ()))


@functools.cache
def keys_of_ours():
    """The keys of a scenario that our chapters name."""
    return frozenset(key for file in chapters_of_ours() for key in keys_named(file.content))
