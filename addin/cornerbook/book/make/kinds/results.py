"""A block of results, one a row: its formulas, the unit, a band with a verdict, a note."""

from ...file.address import cell_name
from ..sheet.declare import QUANTITY, TEXT, TRUTH, Row, block_kind, count_of, list_of, needed
from ..sheet.judged import Judged, verdict
from ..sheet.rows import columns_of, in_unit, is_word, put_band
from ..texts import units

_ROW = Row(
    "row",
    "label",
    {
        "label": needed(TEXT), "formula": TEXT, "formulas": list_of(TEXT), "kind": needed(QUANTITY),
        "worst": TEXT, "over": TEXT, "less_rest": TRUTH, "missing": TEXT, "lines": count_of(20),
        "per": TEXT, "blank": TRUTH,
        "band": TEXT, "note": TEXT, "name": TEXT, "names": list_of(TEXT),
    },
    one_of=("formula", "formulas", "worst"),
)  # fmt: skip

NOT_REACHED = (
    "# no solution was found for all of the travel shown, or an input is wrong; "
    "show less travel on the sheet Car"
)


@block_kind("results", {"columns": needed(list_of(TEXT)), "rows": needed(list_of(_ROW))})
def results(page, block):
    """A row for each result: a formula or several, the unit, the band wanted, a note.

    In place of a formula, worst = "{table:title}" gives of a column of a table what is nearest
    to an end of the band or farthest beyond it, and over = "{table:title}" what runs there, the
    travel or words, for the note to say where; less_rest: less the value in the middle of the
    table, at rest; missing: what is said where a row has none, if not that travel is out of reach.
    blank: an empty text is no result, and has no verdict.
    per: how many of what the formulas give make one of the kind's unit.
    lines: of a formula that gives a long text, how many it takes across the sheet; nothing else
    stands in its row.
    """
    titles = [page.filled(title) for title in block["columns"]]
    count = len(titles)
    banded = any("band" in row for row in block["rows"])
    ends = ["wanted from", "to", "verdict"] if banded else []
    if any("lines" not in row for row in block["rows"]):
        columns_of(page, ["", *titles, "unit", *ends, "note"])
    for row in block["rows"]:
        if "lines" in row:
            _long_text(page, row)
        else:
            _result(page, row, count, banded)


def _result(page, row, count, banded):
    at, kind = page.row, row["kind"]
    column = 1 + count
    low, high = cell_name(at, column + 1), cell_name(at, column + 2)
    where = None
    if "worst" in row:
        formulas, where = _worst(page, row, low, high)
    else:
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
        formula = in_unit(page, formulas[i], row) if i < len(formulas) else ""
        page.sheet.put(at, 1 + i, formula=formula or None, look="value", number_format=shown_as)
    page.sheet.verdicts.append((at, 1, at, count))
    page.sheet.put(at, column, value=units.unit_of(kind, page.system), look="unit")
    if banded:
        if "band" in row:
            put_band(page, at, column + 1, row["band"], kind, row["label"])
            page.sheet.put(
                at, column + 3, look="verdict",
                formula=verdict(cell_name(at, 1), low, high, row.get("blank", False)),
            )  # fmt: skip
            page.sheet.verdicts.append((at, column + 3, at, column + 3))
            _keep_judged(page, row, at, column)
        else:
            for i in range(3):
                page.sheet.put(at, column + 1 + i, look="label")
        column += 3
    ends = (low, high) if banded and "band" in row else ()
    _note(page, row, len(formulas), column + 1, where, ends)
    for place, name in enumerate(_names(row)):
        page.book.name(name, page.sheet, at, 1 + place, at, 1 + place)
    page.row += 1


def _long_text(page, row):
    if row["kind"] != "text" or "formula" not in row:
        raise page.trouble(f'the row "{row["label"]}" has lines, so it is one text', row["label"])
    at = page.row
    page.sheet.put(at, 0, value=page.filled(row["label"]), look="label")
    cell = page.sheet.put(at, 1, formula=page.filled(row["formula"]), look="said")
    cell.span = page.width - 1
    page.fit("", "said", 1, page.width - 1, int(row["lines"]))
    page.sheet.verdicts.append((at, 1, at, 1))
    for name in _names(row):
        page.book.name(name, page.sheet, at, 1, at, 1)
    page.row += 1


def _keep_judged(page, row, at, column):
    """Keep a judged result for what shows it on other sheets."""
    kind = row["kind"]
    judged = Judged(
        page.sheet, at, 1, column + 1, column + 2, column + 3, page.filled(row["label"]), kind,
        units.unit_of(kind, page.system),
    )  # fmt: skip
    page.judged.append(judged)
    for name in _names(row)[:1]:
        for word, what in (("verdict", "verdict"), ("from", "low"), ("to", "high")):
            page.columns["{%s:%s}" % (word, name)] = judged.cell(what)


def _names(row):
    """The names that a row gives to its values, in order."""
    return row.get("names", [row["name"]] if "name" in row else [])


def _worst(page, row, low, high):
    """([the formula of the worst value in a column], the formula of where that is)."""
    if "band" not in row or "over" not in row:
        raise page.trouble(
            f'the row "{row["label"]}" judges the worst, so it needs a band and over', row["label"]
        )
    cells, over = page.filled(row["worst"]), page.filled(row["over"])
    rest = f"-INDEX({cells},(ROWS({cells})+1)/2)" if row.get("less_rest") else ""
    beyond = f"MAX({cells}){rest}-{high}>{low}-(MIN({cells}){rest})"
    worst = (
        f'IF({high}="",MIN({cells}),IF({low}="",MAX({cells}),'
        f"IF({beyond},MAX({cells}),MIN({cells}))))"
    )
    whole = f"COUNT({cells})=ROWS({cells})"
    missing = row.get("missing", NOT_REACHED)
    formula = f'=IF({whole},{worst}{rest},"{missing}")'
    digits = 1 if page.system == "mm" else 2
    place = f"INDEX({over},MATCH({worst},{cells},0))"
    said = f'"At travel "&ROUND({place},{digits})'
    if "missing" in row:
        said = f'"Of: "&{place}'
    return [formula], said + "&"


def _note(page, row, count, column, where, ends):
    """The note of a row; in its place the sentence of a formula that gives no number.

    ends: the cells of its band, which may hold one too.
    """
    at, kind = page.row, row["kind"]
    # A sentence that says what to mend is too long for a number's cell: it shows here.
    note = page.filled(row.get("note", ""))
    quoted = note.replace('"', '""')
    said = f'"{quoted}"'
    if where:
        said = where + (f'". {quoted}"' if note else '"."')
    for end in reversed(ends):
        said = f"IF({is_word(end)},{end},{said})"
    for i in reversed(range(count)):
        cell = cell_name(at, 1 + i)
        # A row of texts shows its own note after them.
        whole = f'{cell}&". "&{said}' if kind == "text" and note else cell
        told = is_word(cell) if row.get("blank") else f"ISTEXT({cell})"
        said = f"IF({told},{whole},{said})"
    shown = page.sheet.put(at, column, formula="=" + said, look="note")
    page.sheet.verdicts.append((at, column, at, column))
    if page.width - 1 > column:
        shown.span = page.width - 1
    page.fit(note + " " * (20 if where else 0), "note", column, page.width - 1)
