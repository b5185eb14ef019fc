"""Cases, one a row: yellow cells that the user changes, and what follows from them beside."""

from ...file.address import cell_name
from ..sheet.declare import LIST, NUMBER, QUANTITY, TEXT, Row, block_kind, list_of, needed
from ..sheet.rows import heads_of, put_own_input
from ..sheet.tables import Table, keep_table
from ..texts import units
from ..texts.text_files import kind_name, number_wrong

_GIVEN = Row(
    "column",
    "title",
    {
        "title": needed(TEXT), "kind": needed(QUANTITY), "least": NUMBER, "most": NUMBER,
        "choices": list_of(TEXT),
    },
)  # fmt: skip
_COLUMN = Row(
    "column",
    "title",
    {"title": needed(TEXT), "kind": needed(QUANTITY), "formula": needed(TEXT)},
)


def _wrong(row):
    """A case's values are numbers in mm and such, words, or formulas that begin with =."""
    for value in row["values"]:
        if not isinstance(value, str) and number_wrong(value) is not None:
            yield "values", "a value", f"is {kind_name(value)}; a number or a text was expected"


_ROW = Row("row", "label", {"label": needed(TEXT), "values": needed(LIST)}, check=_wrong)


def _check_counts(block, trouble):
    """A value for each given column, and of its kind."""
    for row in block["rows"]:
        if len(row["values"]) != len(block["given"]):
            raise trouble(
                f'the row "{row["label"]}" has {len(row["values"])} values for '
                f"{len(block['given'])} columns",
                row["label"],
            )
        for column, value in zip(block["given"], row["values"], strict=True):
            formula = isinstance(value, str) and value.startswith("=")
            if not formula and isinstance(value, str) != (column["kind"] == "text"):
                wanted = "a text" if column["kind"] == "text" else "a number or a formula"
                raise trouble(
                    f'the row "{row["label"]}": {column["title"]} is {kind_name(value)}; '
                    f"{wanted} was expected",
                    row["label"],
                )


@block_kind(
    "cases",
    {
        "name": needed(TEXT), "given": needed(list_of(_GIVEN)),
        "columns": needed(list_of(_COLUMN)), "rows": needed(list_of(_ROW)),
    },
    check=_check_counts,
)  # fmt: skip
def cases(page, block):
    """A row for each case: its name and what is given of it, yellow, then what follows from that.

    In a formula of a column the title of an earlier one in braces stands for its cell. All the
    cells together have the block's name, and formulas below know its columns by it.
    """
    given, columns = block["given"], block["columns"]
    titles = ["case", *(column["title"] for column in (*given, *columns))]
    kinds = ["text", *(column["kind"] for column in (*given, *columns))]
    head = heads_of(page, titles, kinds)
    first = page.row
    for row in block["rows"]:
        label = row["label"]
        put_own_input(page, page.row, 0, page.filled(label), "text", "Case", f"{label}, case")
        for place, (column, value) in enumerate(zip(given, row["values"], strict=True), 1):
            _put_given(page, place, column, value, f"{label}, {column['title']}")
        _put_columns(page, titles, columns, 1 + len(given))
        page.row += 1
    last = page.row - 1
    page.sheet.verdicts.append((first, 0, last, len(titles) - 1))
    page.book.name(block["name"], page.sheet, first, 0, last, len(titles) - 1)
    keep_table(page, block["name"], Table(page.sheet, head, first, last, titles, kinds))


def _put_given(page, place, column, value, label):
    """A yellow cell: a number in mm and such, a word, or a formula until it is typed over."""
    kind, formula = column["kind"], None
    if isinstance(value, str) and value.startswith("="):
        value, formula = None, page.filled(value)
    elif kind != "text":
        value = units.converted(float(value), kind, "mm", page.system)
    rule = column.get("least"), column.get("most"), column.get("choices", ())
    put_own_input(page, page.row, place, value, kind, label, label, formula, *rule)


def _put_columns(page, titles, columns, start):
    words = {"{%s}" % title: "$" + cell_name(page.row, place) for place, title in enumerate(titles)}
    for place, column in enumerate(columns, start):
        text = page.filled(column["formula"])
        for word, cell in words.items():
            text = text.replace(word, cell)
        page.sheet.put(
            page.row, place, formula=text, look="table",
            number_format=units.format_of(column["kind"], page.system),
        )  # fmt: skip
