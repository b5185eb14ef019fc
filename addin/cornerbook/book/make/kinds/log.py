"""A log of set-ups: what was turned, what it changed, and what a step really does by that."""

from ...file.address import cell_name
from ..sheet.declare import TEXT, block_kind, count_of, list_of, needed
from ..sheet.model import Array, Rule
from ..sheet.quantities import quantities_of
from ..sheet.rows import columns_of, put_own_input
from ..texts import units

_SIDES = ("left", "right")
_HEAD = ["Adjuster", "result", "date", "side", "steps", "before", "after", "unit", "change",
         "expected", "a step", "remark"]  # fmt: skip
_ADJUSTER, _RESULT, _DATE, _SIDE, _STEPS, _BEFORE, _AFTER, _UNIT, _CHANGE, _EXPECTED = range(10)
_LEARNED = ["Adjuster", "result", "entries", "expected", "by the log", "deviation",
            "log less expected", "unit", "remark"]  # fmt: skip
_MORE = 6
"""The column of the log less what was expected."""

NOTHING, ONE = "nothing logged yet", "one entry: no spread"
"""What is said of an effect of which there is nothing to learn, or no spread."""


@block_kind(
    "log",
    {
        "name": needed(TEXT), "adjusters": needed(TEXT), "corner": needed(TEXT),
        "quantities": needed(list_of(TEXT)), "rows": needed(count_of(200)),
    },
)  # fmt: skip
def log(page, block):
    """Rows of what was turned and measured; below them what a step of each adjuster does.

    adjusters: the name of a block of adjusters above. name: that of the column of what the log
    says of a step less what the linkage says: for each adjuster each of quantities, which are of
    one wheel and of one unit. rows: how many there are to fill in.
    """
    table = page.tables.get(block["adjusters"])
    if table is None:
        raise page.trouble(f'there is no table "{block["adjusters"]}" above', "adjusters")
    wanted = quantities_of(page, block["quantities"])
    if len({kind for _, kind, _ in wanted}) > 1 or any(of_axle for _, _, of_axle in wanted):
        raise page.trouble("quantities: those of one wheel and of one unit were expected",
                           "quantities")  # fmt: skip
    names, kind = [name for name, _, _ in wanted], wanted[0][1]
    logged = _Log(page, block, table, names, kind)
    page.row += 1
    _learned(page, block, table, names, kind, logged)


class _Log:
    """The rows of the log as they stand on the page: `first` to `last`."""

    def __init__(self, page, block, table, names, kind):
        count = int(block["rows"])
        columns_of(page, _HEAD, kinds=["text"] * 4 + ["count"] + [kind] * 2 + ["text"]
                   + [kind] * 3 + ["text"])  # fmt: skip
        self.first, self.last = page.row, page.row + count - 1
        known = page.columns["{%s:%s}" % (block["adjusters"], table.titles[0])]
        offered = Rule("list", title="Adjuster", message="Choose from the list.")
        offered.listed = (table.sheet.name, table.first, 0, table.last)
        for number in range(count):
            self._row(page, number, names, kind, offered)
            self._worked_out(page, kind, known)
            page.row += 1
        adjusters = [
            page.columns["{%s:%s}" % (block["adjusters"], title)] for title in table.titles
        ]
        asked = ",".join(
            [block["corner"], *adjusters, *map(self.column, (_ADJUSTER, _RESULT, _STEPS))]
        )
        formula = f'=CORNER.EXPECTED_CHANGES({asked},"{",".join(names)}")'
        place = (self.first, _EXPECTED, self.last, _EXPECTED)
        page.sheet.put_array(Array(formula, *place, "value", units.format_of(kind, page.system)))
        page.sheet.verdicts.append((self.first, _EXPECTED, self.last, _EXPECTED + 2))

    def column(self, column):
        """All cells of a column, as formulas of the page have them."""
        return f"{cell_name(self.first, column, True)}:{cell_name(self.last, column, True)}"

    @staticmethod
    def _row(page, number, names, kind, offered):
        cells = (
            (_ADJUSTER, "Adjuster", "text", ()), (_RESULT, "Result", "text", tuple(names)),
            (_DATE, "Date", "text", ()), (_SIDE, "Side", "text", _SIDES),
            (_STEPS, "Steps", "count", ()), (_BEFORE, "Before", kind, ()),
            (_AFTER, "After", kind, ()),
        )  # fmt: skip
        for column, title, of_kind, choices in cells:
            words = f"{title}, row {number + 1}"
            label = title if of_kind == "text" else words
            limits = (-1000, 1000) if column == _STEPS else (None, None)
            put_own_input(
                page, page.row, column, None, of_kind, label, words, None, *limits, choices=choices
            )
        page.sheet.cells[page.row, _ADJUSTER].rule = offered
        page.sheet.put(page.row, _UNIT, value=units.unit_of(kind, page.system), look="unit")

    @staticmethod
    def _worked_out(page, kind, known):
        """What changed, what a step did, and what is missing or wrong."""
        at = page.row
        name, result, _, _, steps, before, after, _, change, expected = (
            cell_name(at, column) for column in range(10)
        )
        whole = ",".join(f"ISNUMBER({cell})" for cell in (steps, before, after))
        page.sheet.put(at, _CHANGE, look="value",
                       number_format=units.format_of(kind, page.system),
                       formula=f'=IF(AND({whole}),{after}-{before},"")')  # fmt: skip
        a_step = f'IF({steps}=0,"",{change}/{steps})'
        page.sheet.put(at, _EXPECTED + 1, look="value", number_format="0.0000",
                       formula=f'=IF(ISNUMBER({change}),{a_step},"")')  # fmt: skip
        blank = ",".join(f'{cell}=""' for cell in (name, result, steps, before, after))
        remark = (
            f'=IF(AND({blank}),"",IF(LEFT({expected}&"",1)="#",MID({expected},3,250),'
            f'IF(OR({name}="",{result}=""),"not counted: which adjuster, and which result?",'
            f'IF(SUMPRODUCT(--({known}={name}))<>1,"not counted: no adjuster has just this name",'
            f'IF(ISNUMBER({change}),"",'
            '"not counted yet: steps, before and after are to be numbers")))))'
        )
        page.sheet.put(at, _EXPECTED + 2, formula=remark, look="note")


def _learned(page, block, table, names, kind, logged):
    """For each adjuster each result: what a step did, its spread, and what was expected."""
    sheet, shown = page.sheet, "0.0000"
    page.line("What a step does by the log, and by the linkage over the same steps", "heading")
    columns_of(page, _LEARNED, kinds=["text"] * 2 + ["count"] + [kind] * 4 + ["text"] * 2)
    first = page.row
    steps, change, expected = (logged.column(column) for column in (_STEPS, _CHANGE, _EXPECTED))
    there = page.columns["{%s:%s}" % (block["adjusters"], table.titles[0])]
    for number in range(table.last - table.first + 1):
        for result in names:
            at = page.row
            label, entries, was, effect, spread, more = (
                cell_name(at, column) for column in (0, 2, 3, 4, 5, _MORE)
            )
            own = f"INDEX({there},{number + 1})"
            of_it = (
                f'({logged.column(_ADJUSTER)}={label})*({logged.column(_RESULT)}="{result}")'
                f"*ISNUMBER({change})"
            )
            squares = f"SUMPRODUCT({of_it},{steps},{steps})"
            products = f"SUMPRODUCT({of_it},{steps},{change})"
            left = f"SUMPRODUCT({of_it},{change},{change})-{effect}*{products}"
            sheet.put(at, 0, formula=f'=IF({own}="","",{own})', look="label")
            sheet.put(at, 1, formula=f'=IF({own}="","","{result}")', look="label")
            sheet.put(at, 2, formula=f'=IF({label}="","",SUMPRODUCT({of_it}))', look="value",
                      number_format="0")  # fmt: skip
            formulas = {
                3: f'=IF(ISNUMBER({effect}),IF(SUMPRODUCT({of_it}*ISNUMBER({expected}))={entries},'
                   f'SUMPRODUCT({of_it},{steps},{expected})/{squares},""),"")',
                4: f'=IF(N({entries})=0,"",IF({squares}=0,"",{products}/{squares}))',
                5: f'=IF(AND(ISNUMBER({effect}),N({entries})>1),'
                   f'SQRT(MAX(0,{left})/({entries}-1)/{squares}),"")',
                _MORE: f'=IF(AND(ISNUMBER({effect}),ISNUMBER({was})),{effect}-{was},"")',
            }  # fmt: skip
            for column, formula in formulas.items():
                sheet.put(at, column, formula=formula, look="value", number_format=shown)
            sheet.put(at, _MORE + 1, value=units.unit_of(kind, page.system), look="unit")
            agrees = (
                f"IF(ABS({more})<=2*{spread}+0.000000001,"
                '"as the linkage says, within twice its deviation",'
                '"not as the linkage says, by more than twice its deviation")'
            )
            remark = (
                f'=IF({label}="","",IF({entries}=0,"{NOTHING}",IF(NOT(ISNUMBER({effect})),'
                f'"no step was turned",IF({entries}=1,"{ONE}",IF(ISNUMBER({more}),{agrees},'
                '"the linkage says nothing of some of it")))))'
            )
            place = sheet.put(at, _MORE + 2, formula=remark, look="note")
            place.span = page.width - 1
            page.row += 1
    page.book.name(block["name"], sheet, first, _MORE, page.row - 1, _MORE)
