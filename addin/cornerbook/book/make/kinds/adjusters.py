"""A block of adjusters: what a step of each does, and the steps that bring what is wanted."""

from ....catalogue.set_up.steps import SIDES
from ...file.address import cell_name
from ..sheet.choices import words_of
from ..sheet.declare import TEXT, block_kind, list_of, needed
from ..sheet.judged import WITHIN, verdict
from ..sheet.model import Array
from ..sheet.quantities import hold_axle_keys, quantities_of
from ..sheet.rows import columns_of, put_band, put_input, put_own_input
from ..sheet.tables import Table, keep_table
from ..texts import units
from ..texts.scenario import ADJUSTER

SPARE = 2
"""Empty rows below the adjusters, for some of the user's own."""

_HEAD = ["Adjuster", "what it moves", "dx", "dy", "dz", "unit", "least", "most", "side",
         "a step is", "a step plus", "a step minus"]  # fmt: skip
_SIDES = ("left", "right")
_KEPT = ["adjuster", "moves", "dx", "dy", "dz"]
_KEPT_KINDS = ["text", "text", "small length", "small length", "small length"]


def _check_log(block, trouble):
    """What a log says is used needs a cell that says so, its column, and its results."""
    keys = {"use_log", "learned", "logged"}
    if keys & set(block) not in (set(), keys):
        raise trouble("use_log, learned and logged go together", "logged")


@block_kind(
    "adjusters",
    {
        "corner": needed(TEXT), "from": needed(TEXT), "quantities": needed(list_of(TEXT)),
        "bands": list_of(TEXT), "left": list_of(TEXT), "right": list_of(TEXT),
        "rack": TEXT, "wheelbase": TEXT, "name": TEXT,
        "use_log": TEXT, "learned": TEXT, "logged": list_of(TEXT),
    },
    check=_check_log,
)  # fmt: skip
def adjusters(page, block):
    """Named adjusters, what one step of each does, and which whole steps bring the results.

    bands: for each quantity the wish whose band it is to come into. left, right: for each the
    formula of what was measured there, to begin with; else that of the corner as drawn.
    name: that of the table of adjusters, for a log. use_log: a cell that says whether what a log
    has learned is used; learned: its column, for each adjuster each of the results logged.
    """
    table = _Table(page, block)
    if "name" in block:
        last = table.first + table.count - 1
        held = Table(page.sheet, table.first - 1, table.first, last, _KEPT, _KEPT_KINDS)
        keep_table(page, block["name"], held)
    wanted = quantities_of(page, block["quantities"])
    hold_axle_keys(page, block, wanted, ("rack", "wheelbase"))
    for key in ("bands", "left", "right"):
        if key in block and len(block[key]) != len(wanted):
            raise page.trouble(f'the list "{key}" needs one for each of "quantities"', key)
    _effects(page, block, table, wanted)
    asked = _Asked(page, block, [i for i, entry in enumerate(wanted) if not entry[2]], wanted)
    if asked.rows:
        asked.more = _by_log(page, block, table, asked) if "logged" in block else None
        _answer(page, block, table, asked)


class _Table:
    """The adjusters as they stand on the page, from row `first` on, spare rows below them."""

    def __init__(self, page, block):
        adjusters = page.scenario.adjusters(block["from"], page.system)
        columns_of(page, _HEAD)
        self.first = page.row
        self.count = len(adjusters) + SPARE
        unit = units.unit_of("length", page.system)
        for adjuster in [*adjusters, *[None] * SPARE]:
            self._row(page, (block["from"],), adjuster, unit)
        page.row += 1

    def _row(self, page, key, one, unit):
        at = page.row
        words = [None] * 6 if one is None else [one.name, one.moves, one.side, *one.words]
        name = words[0] or "spare"
        ways = [None] * 3 if one is None else one.way
        ends = [None] * 2 if one is None else one.ends
        path = (*key, words[0] or "")
        put_input(page, at, 0, words[0], "text", "Adjuster", path, "name")
        moved = words_of("adjusters")
        put_input(page, at, 1, words[1], "text", "What it moves", path, "moves", choices=moved)
        for i, part in enumerate(ways):
            put_input(page, at, 2 + i, part, "small length", f"{name}, d{'xyz'[i]}", path, i)
        page.sheet.put(at, 5, value=unit, look="unit")
        for i, (end, what) in enumerate(zip(ends, ("least", "most"), strict=True)):
            put_input(page, at, 6 + i, end, "count", f"{name}, {what}", path, what, -1000, 1000)
        for i, (word, what) in enumerate(zip(words[2:], ADJUSTER[4:], strict=True)):
            put_input(
                page, at, 8 + i, word or None, "text", _HEAD[8 + i].capitalize(), path, what,
                choices=SIDES if what == "side" else (),
            )  # fmt: skip
        page.row += 1

    def cell(self, row, column):
        """A cell of an adjuster, as formulas of the page have it."""
        return cell_name(self.first + row, column, True)

    def columns(self, *columns, count=None):
        """Columns of all adjusters, or of the first so many, one after the other."""
        last = self.first + (count or self.count) - 1
        return ",".join(
            f"{cell_name(self.first, c, True)}:{cell_name(last, c, True)}" for c in columns
        )


def _effects(page, block, table, wanted):
    page.line("What one step of each does", "heading")
    names = [f'=IF({table.cell(i, 0)}="","",{table.cell(i, 0)})' for i in range(table.count)]
    columns_of(page, ["result", *names])
    top = page.row
    for name, _, of_axle in wanted:
        page.sheet.put(page.row, 0, value=name, look="label")
        more = f",0,{block['rack']},{block['wheelbase']}" if of_axle else ""
        for i in range(table.count):
            cells = ",".join(table.cell(i, column) for column in range(1, 5))
            page.sheet.put(
                page.row, 1 + i, look="value", number_format="0.0000",
                formula=f'=IF({table.cell(i, 1)}="","",CORNER.ADJUSTER_EFFECT('
                f'{block["corner"]},"{name}",{cells},1{more}))',
            )  # fmt: skip
        page.row += 1
    page.sheet.verdicts.append((top, 1, page.row - 1, table.count))
    page.row += 1


def _by_log(page, block, table, asked):
    """What the log says of a step beyond the linkage, where it is used; the first row of it."""
    page.line("What the log adds to a step", "heading")
    said, top = page.row, page.row + 2
    last = cell_name(top + len(asked.rows) - 1, table.count, True)
    found = f"{cell_name(top, 1, True)}:{last}"
    used = (
        f'IF(COUNT({found})=0,"The log is to be used, but has taught nothing yet: all below is by '
        'the linkage alone.","All below is by the linkage and what the log adds.")'
    )
    alone = '"All below is by the linkage alone: the log is not used."'
    formula = f'=IF({block["use_log"]}="yes",{used},{alone})'
    page.sheet.put(said, 0, look="note", formula=formula).span = page.width - 1
    page.row += 1
    names = [f'=IF({table.cell(i, 0)}="","",{table.cell(i, 0)})' for i in range(table.count)]
    columns_of(page, ["result", *names])
    for name, _, _ in asked.rows:
        page.sheet.put(page.row, 0, value=name, look="label")
        for i in range(table.count if name in block["logged"] else 0):
            place = i * len(block["logged"]) + block["logged"].index(name) + 1
            page.sheet.put(
                page.row, 1 + i, look="value", number_format="0.0000",
                formula=f'=IF({block["use_log"]}="yes",INDEX({block["learned"]},{place}),"")',
            )  # fmt: skip
        page.row += 1
    page.row += 1
    return top


class _Asked:
    """Rows of what was measured on either side, the band wanted, and the changes that fit it.

    rows: (name, kind, row) of each result of one wheel. more: the first row of what a log adds
    to a step of each, or None.
    """

    def __init__(self, page, block, which, wanted):
        self.rows = []
        self.more = None
        if not which:
            return
        page.line("From what was measured to what is wanted", "heading")
        columns_of(page, ["result", "measured left", "right", "wanted from", "to", "unit",
                          "change from, left", "right", "change to, left", "right"])  # fmt: skip
        self.first = page.row
        for i in which:
            name, kind, _ = wanted[i]
            self._row(page, block, i, name, kind)
            self.rows.append((name, kind, page.row))
            page.row += 1
        self.last = page.row - 1
        page.row += 1

    @staticmethod
    def _row(page, block, i, name, kind):
        at = page.row
        page.sheet.put(at, 0, value=name, look="label")
        drawn = f'=CORNER.AT({block["corner"]},"{name}",0,0)'
        for column, side in enumerate(_SIDES, 1):
            said = page.filled(block[side][i]) if side in block else drawn
            words = f"{name}, {side}"
            put_own_input(page, at, column, None, kind, words, words, said or None)
        if "bands" in block:
            put_band(page, at, 3, block["bands"][i], kind, name)
        else:
            for column, end in ((3, "from"), (4, "to")):
                words = f"{name}, {end}"
                put_own_input(page, at, column, None, kind, words, words)
        page.sheet.put(at, 5, value=units.unit_of(kind, page.system), look="unit")
        for column in range(6, 10):
            end, measured = cell_name(at, 3 + (column - 6) // 2), cell_name(at, 1 + column % 2)
            page.sheet.put(
                at, column, look="value", number_format=units.format_of(kind, page.system),
                formula=f'=IF(OR({end}="",{measured}=""),"",'
                f"IF(ISNUMBER({measured}),{end}-{measured},{measured}))",
            )  # fmt: skip

    def area(self, left, right):
        """A range of all rows, of some columns."""
        return f"{cell_name(self.first, left, True)}:{cell_name(self.last, right, True)}"


def _answer(page, block, table, asked):
    sheet = page.sheet
    page.line("What to turn", "heading")
    state_row = page.row
    page.row += 1
    columns_of(page, ["adjuster", "steps left", "steps right", "in words, left", "", "", "",
                      "in words, right"])  # fmt: skip
    top = page.row
    more = ""
    if asked.more is not None:
        ends = (asked.more, 1), (asked.more + len(asked.rows) - 1, table.count)
        more = ",0," + ":".join(cell_name(*end, True) for end in ends)
    formula = "=CORNER.ADJUSTER_STEPS(%s,%s,%s,%s,%s,%s%s)" % (
        block["corner"], asked.area(0, 0), asked.area(6, 7), asked.area(8, 9),
        table.columns(1, 2, 3, 4), table.columns(6, 7, 8), more,
    )  # fmt: skip
    steps = Array(formula, top, 1, top + table.count - 1, 2, "value", "0")
    for i in range(table.count):
        name = table.cell(i, 0)
        sheet.put(top + i, 0, formula=f'=IF({name}="","",{name})', look="label")
        for column in (1, 2):
            n = cell_name(top + i, column)
            way = f"IF({n}>0,{table.cell(i, 10)},{table.cell(i, 11)})"
            said = f'IF({n}=0,"leave",ABS({n})&" x "&{table.cell(i, 9)}&", "&{way})'
            place = sheet.put(
                top + i, 3 + 4 * (column - 1), look="note",
                formula=f'=IF(ISNUMBER({n}),{said},"")',
            )  # fmt: skip
            place.span = 6 if column == 1 else 11
    sheet.put_array(steps)
    page.book.name("AdjusterTurns", sheet, *steps.place)
    page.row += table.count + 1
    turned = [f"{cell_name(top, c, True)}:%s" for c in (1, 2)]
    _after(page, block, table, asked, (top, turned), state_row)
    _order(page, block, table, asked, (top, turned))


def _expected(block, name, measured, table, turned, count, more):
    """What a result then reads: what was measured and the exact change; a sentence passes.

    more: the row of what a log adds to a step, or None.
    """
    if more is not None:
        last = cell_name(more, count or table.count, True)
        turned += f",0,0,0,{cell_name(more, 1, True)}:{last}"
    change = f'CORNER.ADJUSTED_CHANGE({block["corner"]},"{name}",' + (
        f"{table.columns(1, 2, 3, 4, count=count)},{turned})"
    )
    both = f"IF(ISNUMBER({change}),{measured}+{change},{change})"
    return f'=IF({measured}="","",IF(ISNUMBER({measured}),{both},{measured}))'


def _after(page, block, table, asked, turns, state_row):
    """What is to be read once all is turned, judged; and a sentence on whether it is reached."""
    top, turned = turns
    sheet = page.sheet
    page.line("What is then to be read", "heading")
    columns_of(page, ["result", "left", "right", "from", "to", "left", "right", "left off by",
                      "right off by"])  # fmt: skip
    off, verdicts, known, first = [], [], [], page.row
    for number, (name, kind, row) in enumerate(asked.rows):
        more = None if asked.more is None else asked.more + number
        at, shown = page.row, units.format_of(kind, page.system)
        sheet.put(at, 0, value=name, look="label")
        low, high = cell_name(row, 3), cell_name(row, 4)
        for i, end in enumerate((low, high)):
            sheet.put(at, 3 + i, look="value", number_format=shown,
                      formula=f'=IF({end}="","",{end})')  # fmt: skip
        for i, side in enumerate(_SIDES):
            last = cell_name(top + table.count - 1, 1 + i, True)
            measured, now = cell_name(row, 1 + i), cell_name(at, 1 + i)
            expected = _expected(block, name, measured, table, turned[i] % last, None, more)
            sheet.put(at, 1 + i, look="value", number_format=shown, formula=expected)
            judged = verdict(now, cell_name(at, 3), cell_name(at, 4))[1:]
            sheet.put(at, 5 + i, look="verdict", formula=f'=IF({measured}="","",{judged})')
            known.append(f'OR({measured}="",ISNUMBER({now}))')
            beyond = f'MAX(0,IF({low}="",0,{low}-{now}),IF({high}="",0,{now}-{high}))'
            sheet.put(at, 7 + i, look="value", number_format=shown,
                      formula=f'=IF(ISNUMBER({now}),{beyond},"")')  # fmt: skip
            missed, judged = cell_name(at, 7 + i), cell_name(at, 5 + i)
            verdicts.append(f'OR({judged}="{WITHIN}",{judged}="")')
            unit = units.unit_of(kind, page.system)
            digits = units.format_of(kind, page.system).count("0") - 1
            off.append(
                f'IF(ISNUMBER({missed}),IF({missed}>0," {name} {side} is then off by "&'
                f'ROUND({missed},{digits})&" {unit};",""),"")'
            )
        page.row += 1
    sheet.verdicts.append((first, 5, page.row - 1, 6))
    steps = cell_name(top, 1, True)
    reached = '"Every result with a band comes into it; the fewest steps are shown."'
    nearest = '"Cannot be reached within the limits and in whole steps: the nearest is shown;"&'
    said = f"IF(AND({','.join(verdicts)}),{reached},{nearest}{'&'.join(off)})"
    formula = (
        f'=IF(LEFT({steps}&"",1)="#",{steps},IF(AND({",".join(known)}),{said},'
        '"Not known: something above cannot be worked out."))'
    )
    place = sheet.put(state_row, 0, look="note", formula=formula)
    place.span = page.width - 1
    sheet.verdicts.append((state_row, 0, state_row, 0))
    page.row += 1


def _order(page, block, table, asked, turns):
    """The order of work: what is to be read after each adjuster, those before it turned too."""
    top, turned = turns
    sheet = page.sheet
    page.line("In this order: what is to be read after each", "heading")
    titles = [f"{name}, {side}" for name, _, _ in asked.rows for side in _SIDES]
    columns_of(page, ["after", *titles])
    for k in range(table.count):
        name, moved = table.cell(k, 0), table.cell(k, 1)
        sheet.put(page.row, 0, formula=f'=IF({name}="","",{name})', look="label")
        column = 1
        for number, (result, kind, row) in enumerate(asked.rows):
            more = None if asked.more is None else asked.more + number
            for i in range(2):
                last = cell_name(top + k, 1 + i, True)
                expected = _expected(
                    block,
                    result,
                    cell_name(row, 1 + i),
                    table,
                    turned[i] % last,
                    k + 1,
                    more,
                )
                sheet.put(
                    page.row, column, look="value",
                    number_format=units.format_of(kind, page.system),
                    formula=f'=IF({moved}="","",{expected[1:]})',
                )  # fmt: skip
                column += 1
        page.row += 1
