"""From what is wanted to where points go: targets beside what is, and places beside moves."""

from ....cells.block import POINTS, key_of
from ...file.address import cell_name
from ...formula.rewrite import quoted
from ..sheet.declare import QUANTITY, TEXT, Row, block_kind, list_of, needed
from ..sheet.rows import columns_of, no_number, wish_cell
from ..texts import units
from ..texts.text_files import nearest
from ..texts.wish import name_of_wish

_POINTS = frozenset(map(key_of, POINTS))

_TARGET = Row(
    "row",
    "label",
    {
        "label": needed(TEXT), "wish": needed(TEXT), "name": needed(TEXT), "now": needed(TEXT),
        "kind": needed(QUANTITY), "judged": TEXT,
    },
)  # fmt: skip

_PLACE = Row(
    "row",
    "point",
    {"point": needed(TEXT), "meets": needed(TEXT), "formula": needed(TEXT), "note": TEXT},
)


@block_kind("targets", {"rows": needed(list_of(_TARGET))})
def targets(page, block):
    """A row for each wish that places something: its aim, what is now, and how far that is off.

    Without an aim the middle of from and to stands in for it, or the only one of them; the cell
    says which is missing where there is none. judged: the name of the result whose verdict shows.
    """
    columns_of(page, ["", "wanted", "now", "off by", "unit", "verdict"])
    for row in block["rows"]:
        kind, at = row["kind"], page.row
        shown_as = units.format_of(kind, page.system)
        if name_of_wish(row["wish"]) not in page.wishes:
            raise page.trouble(f'the wish "{row["wish"]}" stands on no sheet above', row["wish"])
        page.sheet.put(at, 0, value=page.filled(row["label"]), look="label")
        for column, formula in (
            (1, _aim(page, row)),
            (2, page.filled(row["now"])),
            (3, "=IF(AND(ISNUMBER({1}),ISNUMBER({2})),{2}-{1},\"\")"),
        ):  # fmt: skip
            for other in (1, 2):
                formula = formula.replace("{%d}" % other, cell_name(at, other))
            page.sheet.put(at, column, formula=formula, look="value", number_format=shown_as)
        page.book.name(row["name"], page.sheet, at, 1, at, 1)
        page.sheet.put(at, 4, value=units.unit_of(kind, page.system), look="unit")
        said = {"formula": "={verdict:%s}" % row["judged"]} if "judged" in row else {}
        page.sheet.put(at, 5, look="verdict", **said)
        page.sheet.verdicts += [(at, 1, at, 2), (at, 5, at, 5)]
        page.row += 1


def _aim(page, row):
    low, aim, high = (wish_cell(page, row["wish"], end) for end in ("from", "aim", "to"))
    sheet = page.wishes[name_of_wish(row["wish"])][0]
    none = f'"# no aim is typed for this on the sheet {sheet.name}"'
    rest = (
        f"IF(AND(ISNUMBER({low}),ISNUMBER({high})),({low}+{high})/2,"
        f"IF(ISNUMBER({low}),{low},IF(ISNUMBER({high}),{high},{none})))"
    )
    for cell in filter(None, (high, low, aim)):
        rest = f"IF(ISTEXT({cell}),{no_number(cell)},{rest})"
    return f"=IF(ISNUMBER({aim}),{aim},{rest})" if aim else "=" + rest


@block_kind("places", {"corner": needed(TEXT), "rows": needed(list_of(_PLACE))})
def places(page, block):
    """A row for each point: what it meets, where it goes, and by how much that moves it.

    {axis} in a row's formula is one of "x", "y" and "z", in quotation marks.
    """
    name = block["corner"]
    if name not in page.book.names:
        raise page.trouble(f'there is no block named "{name}" above', name)
    sheet, top, left, bottom, _ = page.book.names[name]
    labels = {key_of(sheet.cells[row, left].value): row for row in range(top, bottom + 1)}
    columns_of(page, ["Point", *"xyz", "unit", "for", "move by x", "y", "z", "note"])
    shown_as = units.format_of("length", page.system)
    for row in block["rows"]:
        if key_of(row["point"]) not in _POINTS:
            said = f'the point "{row["point"]}" is not known; {nearest(row["point"], POINTS)}'
            raise page.trouble(said, row["point"])
        if key_of(row["point"]) not in labels:
            continue  # a scenario without it, which is told of that
        at = page.row
        page.sheet.put(at, 0, value=row["point"], look="label")
        for i, axis in enumerate("xyz"):
            formula = page.filled(row["formula"]).replace("{axis}", f'"{axis}"')
            page.sheet.put(at, 1 + i, formula=formula, look="value", number_format=shown_as)
            drawn = cell_name(labels[key_of(row["point"])], left + 1 + i, True)
            drawn = f"{quoted(sheet.name)}!{drawn}"
            goes = cell_name(at, 1 + i)
            page.sheet.put(
                at, 6 + i, look="value", number_format=shown_as,
                formula=f'=IF(AND(ISNUMBER({goes}),ISNUMBER({drawn})),{goes}-{drawn},"")',
            )  # fmt: skip
        page.sheet.put(at, 4, value=units.unit_of("length", page.system), look="unit")
        page.sheet.put(at, 5, value=row["meets"], look="note")
        first, note = cell_name(at, 1), row.get("note", "").replace('"', '""')
        page.sheet.put(at, 9, formula=f'=IF(ISTEXT({first}),{first},"{note}")', look="note")
        page.fit(row["meets"], "note", 5, 5)
        page.fit(row.get("note", "") + " " * 20, "note", 9, 9)
        page.sheet.verdicts += [(at, 1, at, 3), (at, 9, at, 9)]
        page.row += 1
