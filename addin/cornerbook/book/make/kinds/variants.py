"""Variants of a corner side by side: a cell left blank inherits, results are compared."""

from ...file.address import cell_name
from ...file.trouble import Trouble
from ...formula.rewrite import quoted
from ..sheet.choices import words_of_row
from ..sheet.declare import NUMBER, QUANTITY, TEXT, Row, block_kind, list_of, needed
from ..sheet.rows import columns_of, is_word, put_band, put_own_input, shown
from ..texts import units

LETTERS = "ABCDEFGH"
"""What variants are called; there can be as many."""

_ROW = Row(
    "row",
    "label",
    {
        "label": needed(TEXT), "kind": needed(QUANTITY), "formula": needed(TEXT),
        "band": needed(TEXT), "per": TEXT,
    },
)  # fmt: skip


def _check_count(block, trouble):
    if block["count"] not in range(1, len(LETTERS) + 1):
        raise trouble(f"the count of variants is 1 to {len(LETTERS)}", "count")


@block_kind(
    "variants",
    {
        "corner": needed(TEXT), "from": needed(TEXT), "count": needed(NUMBER),
        "inputs": list_of(TEXT), "rows": needed(list_of(_ROW)),
    },
    check=_check_count,
)  # fmt: skip
def variants(page, block):
    """Variants of a corner side by side: blank cells inherit, yellow ones override.

    The results stand beside those of the corner as it is, with the difference and whether it
    is nearer to its band. Below, each variant is worked out as a block, Variant_A and so on.
    """
    name, count = block["corner"], int(block["count"])
    _, top, left, _, _ = _named(page, name)
    here = quoted(page.book.names[name][0].name)
    rows = page.scenario.corner(block["from"], page.system)
    columns_of(page, ["Leave blank what a variant inherits", *_heads(count, "xyz")])
    overrides = page.row
    for label, kind, numbers in rows:
        page.sheet.put(page.row, 0, value=label, look="label")
        for variant in range(count):
            for i in range(len(numbers)):
                axis = " " + "xyz"[i] if len(numbers) > 1 else ""
                words = f"{LETTERS[variant]}: {label}{axis}"
                put_own_input(
                    page, page.row, 1 + 3 * variant + i, None, kind, label, words,
                    choices=words_of_row(label) if kind == "text" else (),
                )  # fmt: skip
        page.row += 1
    extras = list(block.get("inputs", ()))
    for extra in extras:
        page.sheet.put(page.row, 0, value=extra, look="label")
        for variant in range(count):
            words = f"{LETTERS[variant]}: {extra}"
            put_own_input(page, page.row, 1 + 3 * variant, None, "length", extra, words)
        page.row += 1
    page.row += 1
    words = []
    for variant in range(count):
        given = {"{corner}": "Variant_" + LETTERS[variant]}
        for number, extra in enumerate(extras):
            own = cell_name(overrides + len(rows) + number, 1 + 3 * variant, True)
            given["{%s}" % extra] = f'IF({own}="",{extra},{own})'
        words.append(given)
    asis = {"{corner}": name, **{"{%s}" % extra: extra for extra in extras}}
    _variant_results(page, block["rows"], asis, words)
    page.row += 1
    page.line("What each variant is made of (worked out, locked)", "heading")
    columns_of(page, ["", *_heads(count, "xyz")])
    made = page.row
    for number, (label, kind, numbers) in enumerate(rows):
        page.sheet.put(page.row, 0, value=label, look="label")
        for variant in range(count):
            for i in range(len(numbers)):
                column = 1 + 3 * variant + i
                own = cell_name(overrides + number, column)
                from_ = f"{here}!{cell_name(top + number, left + 1 + i, True)}"
                page.sheet.put(
                    page.row, column, formula=f'=IF({own}="",IF({from_}="","",{from_}),{own})',
                    look="value", number_format=units.format_of(kind, page.system),
                )  # fmt: skip
        page.row += 1
    page.row += 1
    _variant_blocks(page, rows, made, count)


def _heads(count, axes):
    return [f"{LETTERS[v]}: {axis}" for v in range(count) for axis in axes]


def _named(page, name):
    if name not in page.book.names:
        raise Trouble(f'there is no block named "{name}" above')
    return page.book.names[name]


def _variant_blocks(page, rows, made, count):
    """A block of four columns for each variant, one below the other."""
    for variant in range(count):
        page.line(f"Variant {LETTERS[variant]} as a block", "aside")
        first = page.row
        for number, (label, kind, numbers) in enumerate(rows):
            page.sheet.put(page.row, 0, value=label, look="fixed")
            for i in range(len(numbers)):
                page.sheet.put(
                    page.row, 1 + i, look="fixed",
                    formula="=" + cell_name(made + number, 1 + 3 * variant + i),
                    number_format=units.format_of(kind, page.system),
                )  # fmt: skip
            page.row += 1
        page.book.name("Variant_" + LETTERS[variant], page.sheet, first, 0, page.row - 1, 3)
        page.row += 1


def _variant_results(page, rows, asis, words):
    page.line("Side by side", "heading")
    heads = [h % LETTERS[v] for v in range(len(words)) for h in ("%s", "%s, change", "%s, verdict")]
    columns_of(page, ["", "now", *heads, "unit", "wanted from", "to"])
    for row in rows:
        kind, at = row["kind"], page.row
        shown_as = units.format_of(kind, page.system)
        # A difference of distances that is shown as 0 makes no variant better or worse, wherever
        # the two lie: two that were rounded each for itself could be a digit apart.
        decimals = len(shown_as.partition(".")[2]) if shown_as else 9
        page.sheet.put(at, 0, value=row["label"], look="label")
        page.sheet.put(
            at, 1, formula=_worded(shown(page, row), asis), look="value",
            number_format=shown_as,
        )  # fmt: skip
        base, last = cell_name(at, 1), 2 + 3 * len(words)
        low, high = cell_name(at, last + 1), cell_name(at, last + 2)
        for variant, given in enumerate(words):
            column = 2 + 3 * variant
            value = cell_name(at, column)
            formula = _worded(shown(page, row), given)
            page.sheet.put(at, column, formula=formula, look="value", number_format=shown_as)
            numbers = f"AND(ISNUMBER({value}),ISNUMBER({base}))"
            page.sheet.put(
                at, column + 1, look="value", number_format=shown_as,
                formula=f'=IF({numbers},{value}-{base},"")',
            )  # fmt: skip
            more = f"ROUND({_off(value, low, high)}-{_off(base, low, high)},{decimals})"
            verdict = f'IF({more}<0,"better",IF({more}>0,"worse","as good"))'
            for end in (high, low):
                verdict = f"IF({is_word(end)},{end},{verdict})"
            verdict = f'=IF({numbers},{verdict},"")'
            page.sheet.put(at, column + 2, look="verdict", formula=verdict)
        page.sheet.put(at, last, value=units.unit_of(kind, page.system), look="unit")
        put_band(page, at, last + 1, row["band"], kind, row["label"])
        page.row += 1


def _off(value, low, high):
    """How far a value is outside a band."""
    below, above = f'IF({low}="",0,{low}-{value})', f'IF({high}="",0,{value}-{high})'
    return f"MAX({below},{above},0)"


def _worded(formula, words):
    for word, meaning in words.items():
        formula = formula.replace(word, meaning)
    return formula
