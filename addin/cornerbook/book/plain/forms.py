"""From one call of a formula to a cell of the workings that holds the same result."""

from ...catalogue import FORMULAS
from ...catalogue.pose import GROUP as AT_A_POSE
from ...cells.call import call
from ...cells.inputs import value_of
from ...cells.mend import Mend
from ...cells.quantity import chosen
from .calls import CallTable, SubjectTable
from .results import ZERO, Constant, Given, Place, Range, Spread
from .workings import BlockWorkings


class Plain:
    """Turns calls into places in workings, and keeps the workings of each block."""

    def __init__(self):
        self.blocks = {}
        self.calls = {}
        self.spreads = {}

    def place(self, name, given):
        """The `Place`, `Range` or `Constant` for a call.

        name: of the formula. given: a `Given` for each argument, None for one left out.
        Raises NotImplementedError where the formula has no plain form.
        """
        entry = FORMULAS[name]
        raw = [None if g is None else g.value for g in given]
        if len(given) > len(entry.arguments):
            return Constant(call(name, *raw))
        given = list(given) + [None] * (len(entry.arguments) - len(given))
        by_name = dict(zip((a.name for a in entry.arguments), given, strict=True))
        try:
            if any(_unfit(a, by_name[a.name]) for a in entry.arguments):
                return Constant(_constant(call(name, *raw)))
            return self._placed(entry, by_name)
        except Mend as mend:
            return Constant(mend.sentence)

    def _placed(self, entry, given):
        if entry.name == "SWEEP":
            return self._sweep(entry, given)
        if entry.name == "AT":
            return self._at(given)
        if entry.name == "CHECK":
            return self._check(given)
        # Like AT, it is for tables: out of reach is #N/A, which a chart skips.
        missing = float("nan") if entry.name == "IN_ROLL" else None
        return self._result(entry, given, missing)

    def workings(self, given):
        """The workings of a block."""
        if given.identity not in self.blocks:
            self.blocks[given.identity] = BlockWorkings(given.name, given.value, given.cells)
        return self.blocks[given.identity]

    # Formulas that give one value for a pose, a call, or a corner as drawn

    def _result(self, entry, given, missing=None):
        fixed, moving, guards = _sorted(entry, given)
        block = next((given[a.name] for a in entry.arguments if a.kind == "block"), None)
        workings = None if block is None else self.workings(block)
        asked = {"travel", "rack"}
        key = (entry.name, tuple(sorted((k, str(v)) for k, v in fixed.items())))
        names = {a.name for a in entry.arguments}
        if workings is not None and names >= asked and set(moving) <= asked:
            if not moving and fixed.get("travel") == 0.0 and fixed.get("rack") == 0.0:
                return self._drawn(entry, workings, key, fixed, guards, missing)
            return self._at_pose(entry, workings, given, fixed, guards, missing)
        if workings is not None and all(a.kind in ("block", "text") for a in entry.arguments):
            # A formula of the points alone, which need be no linkage.
            return self._drawn(entry, workings, key, fixed, guards, missing)
        tables = self.calls if workings is None else workings.calls
        if key not in tables:
            tables[key] = CallTable(entry, workings, fixed)
        table = tables[key]
        row = table.row({name: _argument(given[name]) for name in moving})
        step = self._final(table, table.result, table.said, entry, missing)
        return self._as_place(table, row, step, entry, guards)

    def _drawn(self, entry, workings, key, fixed, guards, missing):
        def measure(corner):
            return entry.function(*_in_order(entry, {**fixed, "travel": 0.0, "rack": 0.0}, corner))

        step = self._drawn_final(entry, workings, key, measure, missing)
        return self._as_place(workings.points, 0, step, entry, guards)

    def _drawn_final(self, entry, workings, key, measure, missing):
        result, said = workings.drawn_measure(key, measure)
        return self._final(workings.points, result, said, entry, missing)

    def _at_pose(self, entry, workings, given, fixed, guards, missing):
        texts = {k: v for k, v in fixed.items() if k not in ("travel", "rack")}

        def measure(corner, travel, rack):
            return entry.function(
                *_in_order(entry, {**texts, "travel": travel, "rack": rack}, corner)
            )

        key = (entry.name, tuple(sorted(texts.items())))
        drawn = self._drawn_final(
            entry, workings, key, lambda corner: measure(corner, 0.0, 0.0), missing
        )
        pose = {name: _argument(given[name] or ZERO) for name in ("travel", "rack")}
        if entry.group == AT_A_POSE:
            table = workings.poses
            result, said = workings.pose_measure(key, measure)
            row = workings.pose_row(*pose.values())
            asked = (workings.travel, workings.rack)
        else:
            table = self._subject(entry.group, workings)
            result, said = table.measure(key, measure)
            row = table.row(pose)
            asked = (table.travel, table.rack)
        step = self._final(table, result, said, entry, missing, (workings.points, drawn, asked))
        return self._as_place(table, row, step, entry, guards)

    @staticmethod
    def _subject(group, workings):
        if group not in workings.calls:
            workings.calls[group] = SubjectTable(group, workings)
        return workings.calls[group]

    def _final(self, table, result, said, entry, missing, drawn=None):
        """The step that shows a result, or the sentence on what is wrong.

        drawn: for a pose, the points' table, its result as drawn, which stands for no travel
        and no rack and needs fewer rows of the block, and the steps of travel and rack.
        """
        if isinstance(result, tuple):
            return tuple(
                self._final(table, part, said, entry, missing, drawn and _part(drawn, i))
                for i, part in enumerate(result[0])
            )
        recorder = table.recorder
        if entry.shape == "text":
            good = recorder.step(result)
        else:
            beyond = missing if missing is not None else recorder.sentence(entry.beyond)
            good = recorder.where(recorder.make("ISNUMBER", result), result, beyond)
        step = recorder.where(recorder.make("=", said, ""), good, said)
        if drawn is not None:
            points, as_drawn, (travel, rack) = drawn
            as_drawn = table.import_step(points, as_drawn)
            still = recorder.where(recorder.make("=", rack, 0.0), as_drawn, step)
            step = recorder.where(recorder.make("=", travel, 0.0), still, step)
        name = entry.name if missing is None else f"{entry.name} or #N/A"
        return table.show(step, "Results", name)

    def _as_place(self, table, row, step, entry, guards):
        if not isinstance(step, tuple):
            return Place(table, row, step, guards)
        key = (id(table), row, tuple(map(id, step)))
        if key not in self.spreads:
            spread = Spread(f"CORNER.{entry.name}", "xyz")
            spread.rows.append(
                {place: _shown(Place(table, row, part)) for place, part in enumerate(step)}
            )
            self.spreads[key] = spread
        return Range(self.spreads[key], guards)

    # Formulas about others

    def _at(self, given):
        quantity = given["quantity"]
        (entry,) = chosen("quantity", (str(quantity.value).strip(),))
        inner = self._quantity(entry, given["corner"], given)
        place = self._result(entry, inner, missing=float("nan"))
        place.guards += _guard(quantity)
        return place

    def _quantity(self, entry, corner, given):
        """The arguments of a quantity's own formula from those of AT or SWEEP."""
        inner = {"corner": corner, "travel": given["travel"], "rack": given["rack"]}
        if any(a.name == "wheelbase" for a in entry.arguments):
            inner["wheelbase"] = given["wheelbase"]
            if inner["wheelbase"] is None:
                name = entry.name.lower().replace("_", " ")
                raise Mend(f"wheelbase is missing; {name} needs it")
        return {a.name: inner[a.name] for a in entry.arguments}

    def _check(self, given):
        unit = given["unit"]
        workings = self.workings(given["corner"])
        real = call("CHECK", given["corner"].value, None if unit is None else unit.value)
        try:
            chosen_unit = "any" if unit is None else str(unit.value).strip().lower()
            step = workings.check(chosen_unit)
        except (Mend, KeyError):
            return Constant(real)
        workings.points.show(step, "Results", f"CHECK {chosen_unit}")
        return Place(workings.points, 0, step, _guard(unit))

    def _sweep(self, entry, given):
        real = call("SWEEP", *[g and g.value for g in given.values()])
        if isinstance(real, str):
            return Constant(real)
        guards = _guard(given["quantities"]) + _guard(given["over"])
        names = _names(given["quantities"].value)
        wanted = chosen("quantities", names)
        over = str(given["over"].value).strip().lower()
        workings = self.workings(given["corner"])
        count = int(given["points"].value)
        key = ("SWEEP", *(g and g.identity for g in given.values()))
        if key in self.spreads:
            return Range(self.spreads[key], guards)
        headings = [over, *(n.strip() for n in names)]
        spread = Spread(f"CORNER.SWEEP of {workings.name}", headings)
        self.spreads[key] = spread
        start, end = given["from"], given["to"]
        held = given["held"] or ZERO
        for i in range(count):
            share = f"{i}/{count - 1}"

            def text(share=share):
                return f"{start.text}+(({end.text})-({start.text}))*{share}"

            at = float(start.value) + (float(end.value) - float(start.value)) * i / (count - 1)
            moved = Given(text, at, (start.identity, end.identity, share))
            pose = {over: moved, "rack" if over == "travel" else "travel": held}
            pose["wheelbase"] = given["wheelbase"]
            row: dict = {0: ((lambda text=text: "=" + text()), at)}
            for place, quantity in enumerate(wanted, 1):
                inner = self._quantity(quantity, given["corner"], pose)
                found = self._result(quantity, inner, missing=float("nan"))
                row[place] = _shown(found)
            spread.rows.append(row)
        return Range(spread, guards)

    # The end

    def settle(self):
        """Decide every table's columns; returns {title: tables} for the sheets."""
        sheets = {}
        plain = [t for t in self.calls.values() if t.rows]
        for table in plain:
            table.settle()
        if plain:
            sheets["Workings"] = plain
        for workings in self.blocks.values():
            for table in workings.calls.values():
                table.settle()
            for table in (workings.poses, workings.road, *workings.calls.values()):
                for source, step in table.imports():
                    if source is workings.points:
                        source.show(step, *workings.points.shown.get(step, (None, None)))
            workings.poses.settle()
            workings.road.settle()
            workings.points.settle()
            tables = [t for t in workings.tables() if t.columns]
            if tables:
                sheets[f"Workings {workings.name}"] = tables
        spreads = list(self.spreads.values())
        for spread in spreads:
            spread.settle()
        if spreads:
            sheets["Workings tables"] = spreads
        return sheets

    def compute(self):
        """Work out every table's values, in an order in which each finds what it reads."""
        for table in self.calls.values():
            table.compute()
        for workings in self.blocks.values():
            workings.points.compute()
            workings.poses.compute()
            workings.road.compute()
            for table in workings.calls.values():
                table.compute()
        for spread in self.spreads.values():
            spread.compute()


def _part(drawn, place):
    points, as_drawn, asked = drawn
    return points, as_drawn[place], asked


def _shown(place):
    return (lambda: "=" + place.text(), lambda: place.table.value(place.row, place.step))


def _argument(given):
    """(function for the text, value, key) of a number argument."""
    value = given.value
    if value is None or value == "":
        value = 0.0
    while isinstance(value, tuple):
        value = value[0]
    if isinstance(value, int) and not isinstance(value, bool):
        value = float(value)
    return ((lambda: "=" + given.text), value, given.identity)


def _sorted(entry, given):
    """(fixed values by name, names of moving arguments, guards) of a call."""
    fixed, moving, guards = {}, [], []
    for argument in entry.arguments:
        one = given[argument.name]
        if argument.kind == "block":
            continue
        if one is None:
            if argument.required:
                raise Mend(call(entry.name, *[g and g.value for g in given.values()])[2:])
            fixed[argument.name] = argument.default
        elif argument.kind in ("text", "names"):
            fixed[argument.name] = _text(argument, one.value)
            guards += _guard(one)
        elif one.literal and one.value == 0.0 and argument.name in ("travel", "rack"):
            fixed[argument.name] = 0.0
        else:
            moving.append(argument.name)
    return fixed, moving, guards


def _text(argument, value):
    return value_of(argument, value)


def _guard(given):
    """Conditions that hold while a text that chose the result is as it was."""
    if given is None or given.literal:
        return []
    if isinstance(given.value, tuple):
        return [
            _equals(lambda r=r, c=c: given.cells(r, c), cell)
            for r, row in enumerate(given.value)
            for c, cell in enumerate(row)
        ]
    return [_equals(lambda: given.text, given.value)]


def _equals(text, value):
    return lambda: '%s="%s"' % (text(), str(value).replace('"', '""'))


def _names(value):
    if isinstance(value, str):
        return value.split(",")
    return [str(cell) for row in value for cell in row]


def _in_order(entry, values, corner):
    return [corner if a.kind == "block" else values[a.name] for a in entry.arguments]


def _unfit(argument, given):
    """Whether an argument is of a shape that no edit of numbers will mend."""
    if given is None:
        return argument.required
    if argument.kind == "block":
        return given.cells is None
    if argument.kind in ("text", "names"):
        return not isinstance(given.value, (str, tuple)) or given.value == ""
    return isinstance(given.value, tuple) and not (
        len(given.value) == 1 and len(given.value[0]) == 1
    )


def _constant(value):
    if isinstance(value, tuple):
        value = value[0][0]
    return value
