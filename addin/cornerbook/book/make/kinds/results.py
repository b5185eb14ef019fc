"""A block of results, one a row: its formulas, the unit, a band with a verdict, a note."""

from ...file.address import cell_name
from .. import units
from ..declare import QUANTITY, TEXT, Row, block_kind, list_of, needed
from ..rows import columns_of, put_input

_ROW = Row(
    "row",
    "label",
    {
        "label": needed(TEXT), "formula": TEXT, "formulas": list_of(TEXT), "kind": needed(QUANTITY),
        "band": TEXT, "note": TEXT, "name": TEXT, "names": list_of(TEXT),
    },
    one_of=("formula", "formulas"),
)  # fmt: skip


@block_kind("results", {"columns": needed(list_of(TEXT)), "rows": needed(list_of(_ROW))})
def results(page, block):
    """A row for each result: a formula or several, the unit, the band wanted, a note."""
    titles = [page.filled(title) for title in block["columns"]]
    count = len(titles)
    banded = any("band" in row for row in block["rows"])
    ends = ["wanted from", "to", "verdict"] if banded else []
    columns_of(page, ["", *titles, "unit", *ends, "note"])
    for row in block["rows"]:
        _result(page, row, count, banded)


def _result(page, row, count, banded):
    at, kind = page.row, row["kind"]
    formulas = row["formulas"] if "formulas" in row else [row["formula"]]
    if not formulas:
        raise page.trouble(f'the row "{row["label"]}" has no formula', row["label"])
    if len(formulas) > count:
        raise page.trouble(
            f'the row "{row["label"]}" has {len(formulas)} formulas for {count} columns',
            row["label"],
        )
    page.sheet.put(at, 0, value=page.filled(row["label"]), look="label")
    shown_as = units.format_of(kind, page.system)
    for i in range(count):
        formula = page.filled(formulas[i]) if i < len(formulas) else ""
        page.sheet.put(at, 1 + i, formula=formula or None, look="value", number_format=shown_as)
    page.sheet.verdicts.append((at, 1, at, count))
    column = 1 + count
    page.sheet.put(at, column, value=units.unit_of(kind, page.system), look="unit")
    value = cell_name(at, 1)
    if banded:
        if "band" in row:
            band = page.scenario.band(row["band"], kind, page.system)
            for i, end in enumerate(band):
                put_input(page, at, column + 1 + i, end, kind, row["label"])
            low, high = cell_name(at, column + 1), cell_name(at, column + 2)
            page.sheet.put(
                at, column + 3, look="verdict",
                formula='=IF(ISNUMBER(%s),IF(AND(%s>=%s,%s<=%s),"pass","look here"),"look here")'
                % (value, value, low, value, high),
            )  # fmt: skip
            page.sheet.verdicts.append((at, column + 3, at, column + 3))
        else:
            for i in range(3):
                page.sheet.put(at, column + 1 + i, look="label")
        column += 3
    # A sentence that says what to mend is too long for a number's cell: it shows here.
    note = page.filled(row.get("note", ""))
    quoted = note.replace('"', '""')
    said = f'"{quoted}"'
    for i in reversed(range(len(formulas))):
        cell = cell_name(at, 1 + i)
        # A row of texts shows its own note after them.
        whole = f'{cell}&". "&{said}' if kind == "text" and note else cell
        said = f"IF(ISTEXT({cell}),{whole},{said})"
    shown = page.sheet.put(at, column + 1, formula="=" + said, look="note")
    page.sheet.verdicts.append((at, column + 1, at, column + 1))
    if page.width - 1 > column + 1:
        shown.span = page.width - 1
    page.fit(note + " " * 20, "note", column + 1, page.width - 1)
    named = row.get("names", [row["name"]] if "name" in row else [])
    for place, name in enumerate(named):
        page.book.name(name, page.sheet, at, 1 + place, at, 1 + place)
    page.row += 1
