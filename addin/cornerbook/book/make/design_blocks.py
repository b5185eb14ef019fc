"""Blocks of a template for design work: variants, tables of one formula, pictures, adjusters."""

from ...cells.block import POINTS
from ..file.address import cell_name
from ..file.trouble import Trouble
from . import lists, units
from .model import Array, Chart
from .rows import columns_of, put_input

LETTERS = "ABCDEFGH"


def variants(page, block):
    """Variants of a corner side by side: blank cells inherit, yellow ones override.

    The results stand beside those of the corner as it is, with the difference and whether it
    is nearer to its band. Below, each variant is worked out as a block, Variant_A and so on.
    """
    name, count = block["corner"], int(block["count"])
    _, top, left, _, _ = _named(page, name)
    here = page.book.names[name][0].name.replace("'", "''")
    rows = page.scenario.corner(block["from"], page.system)
    columns_of(page, ["Leave blank what a variant inherits", *_heads(count, "xyz")])
    overrides = page.row
    for label, kind, numbers in rows:
        page.sheet.put(page.row, 0, value=label, look="label")
        for variant in range(count):
            for i in range(len(numbers)):
                put_input(page, page.row, 1 + 3 * variant + i, None, kind, label)
        page.row += 1
    extras = list(block.get("inputs", ()))
    for extra in extras:
        page.sheet.put(page.row, 0, value=extra, look="label")
        for variant in range(count):
            put_input(page, page.row, 1 + 3 * variant, None, "length", extra)
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
                from_ = f"'{here}'!{cell_name(top + number, left + 1 + i, True)}"
                page.sheet.put(
                    page.row, column, formula=f'=IF({own}="",{from_},{own})',
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
    heads = [h % LETTERS[v] for v in range(len(words)) for h in ("%s", "%s less as it is", "%s?")]
    columns_of(page, ["", "as it is", *heads, "unit", "wanted from", "to"])
    for row in rows:
        kind, at = row["kind"], page.row
        shown_as = units.format_of(kind, page.system)
        page.sheet.put(at, 0, value=row["label"], look="label")
        page.sheet.put(
            at, 1, formula=_worded(page.filled(row["formula"]), asis), look="value",
            number_format=shown_as,
        )  # fmt: skip
        base, last = cell_name(at, 1), 2 + 3 * len(words)
        low, high = cell_name(at, last + 1), cell_name(at, last + 2)
        for variant, given in enumerate(words):
            column = 2 + 3 * variant
            value = cell_name(at, column)
            formula = _worded(page.filled(row["formula"]), given)
            page.sheet.put(at, column, formula=formula, look="value", number_format=shown_as)
            numbers = f"AND(ISNUMBER({value}),ISNUMBER({base}))"
            page.sheet.put(
                at, column + 1, look="value", number_format=shown_as,
                formula=f'=IF({numbers},{value}-{base},"")',
            )  # fmt: skip
            far = f"MAX({low}-%s,%s-{high},0)"
            one, other = far % (value, value), far % (base, base)
            verdict = '=IF(%s,IF(%s<%s,"better",IF(%s>%s,"worse","as good")),"")'
            page.sheet.put(
                at, column + 2, look="verdict", formula=verdict % (numbers, one, other, one, other)
            )
        page.sheet.put(at, last, value=units.unit_of(kind, page.system), look="unit")
        for i, end in enumerate(page.scenario.band(row["band"], kind, page.system)):
            put_input(page, at, last + 1 + i, end, kind, row["label"])
        page.row += 1


def _worded(formula, words):
    for word, meaning in words.items():
        formula = formula.replace(word, meaning)
    return formula


def grid(page, block):
    """One formula that fills a range of cells, such as a two-way table."""
    formula = page.filled(block["formula"])
    rows, columns = int(block["rows"]), int(block["columns"])
    shown_as = units.format_of(block["unit"], page.system)
    array = Array(formula, page.row, 0, page.row + rows - 1, columns - 1, "value", shown_as)
    page.sheet.put_array(array)
    if "name" in block:
        page.book.name(block["name"], page.sheet, *array.place)
    if block.get("heat"):
        page.sheet.heats.append((page.row + 1, 1, page.row + rows - 1, columns - 1))
    titles = ["row"] + [str(i) for i in range(1, columns)]
    kinds = [block["unit"]] * columns
    table = lists.Table(page.sheet, page.row, page.row + 1, page.row + rows - 1, titles, kinds)
    page.tables[block.get("name", "grid")] = table
    page.row += rows


def heat(page, block):
    """How each coordinate of a corner moves each quantity: a cell each, coloured by size."""
    wanted = lists.quantities_of(page, block["quantities"])
    columns_of(page, [f"one {page.system} at", *(name for name, _, _ in wanted)])
    first = page.row
    for label in POINTS:
        for axis in "xyz":
            page.sheet.put(page.row, 0, value=f"{label} {axis}", look="label")
            for column, (name, _, of_axle) in enumerate(wanted, 1):
                more = f",0,{block['rack']},{block['wheelbase']}" if of_axle else ""
                page.sheet.put(
                    page.row, column, look="table", number_format="0.0000",
                    formula='=CORNER.SENSITIVITY(%s,"%s","%s","%s"%s)'
                    % (block["corner"], name, label, axis, more),
                )  # fmt: skip
            page.row += 1
    for column in range(1, len(wanted) + 1):
        page.sheet.heats.append((first, column, page.row - 1, column))
    page.sheet.verdicts.append((first, 1, page.row - 1, len(wanted)))


def adjusters(page, block):
    """Named adjusters, what one turn of each does, and how many turns of which are wanted."""
    table = page.scenario.adjusters(block["from"], page.system)
    columns_of(page, ["Adjuster", "what it moves", "dx", "dy", "dz", "unit"])
    first = page.row
    for name, adjuster, way in table:
        put_input(page, page.row, 0, name, "text", "Adjuster")
        put_input(page, page.row, 1, adjuster, "text", "What it moves")
        for i, part in enumerate(way):
            put_input(page, page.row, 2 + i, part, "length", f"{name}, d{'xyz'[i]}")
        page.sheet.put(page.row, 5, value=units.unit_of("length", page.system), look="unit")
        page.row += 1
    page.row += 1
    page.line("What one turn of each does", "heading")
    count = len(table)
    columns_of(page, ["result", *(f"={cell_name(first + i, 0)}" for i in range(count))])
    effects = page.row
    wanted = lists.quantities_of(page, block["quantities"])
    for name, _, of_axle in wanted:
        page.sheet.put(page.row, 0, value=name, look="label")
        more = f",0,{block['rack']},{block['wheelbase']}" if of_axle else ""
        for i in range(count):
            cells = ",".join(cell_name(first + i, column, True) for column in range(1, 5))
            page.sheet.put(
                page.row, 1 + i, look="value", number_format="0.0000",
                formula=f'=CORNER.ADJUSTER_EFFECT({block["corner"]},"{name}",{cells},1{more})',
            )  # fmt: skip
        page.row += 1
    last = page.row - 1
    page.sheet.verdicts.append((effects, 1, last, count))
    page.row += 1
    page.line("From what was measured to what is wanted", "heading")
    columns_of(page, ["result", "measured", "wanted", "change"])
    asked = page.row
    for name, kind, _ in wanted:
        page.sheet.put(page.row, 0, value=name, look="label")
        start = f'=CORNER.AT({block["corner"]},"{name}",0,0)'
        shown_as = units.format_of(kind, page.system)
        for column in (1, 2):
            put_input(page, page.row, column, None, kind, name)
            page.sheet.cells[page.row, column].formula = start
        page.sheet.put(
            page.row, 3, look="value", number_format=shown_as,
            formula=_change(cell_name(page.row, 1), cell_name(page.row, 2)),
        )  # fmt: skip
        page.row += 1
    page.row += 1
    columns_of(page, ["adjuster", "turns"])
    turns = Array(
        "=CORNER.ADJUSTER_TURNS(%s:%s,%s:%s)"
        % (
            cell_name(effects, 1, True), cell_name(last, count, True),
            cell_name(asked, 3, True), cell_name(asked + len(wanted) - 1, 3, True),
        ),
        page.row, 1, page.row + count - 1, 1, "value", "0.00",
    )  # fmt: skip
    for i in range(count):
        page.sheet.put(page.row + i, 0, formula="=" + cell_name(first + i, 0), look="label")
    page.sheet.put_array(turns)
    page.book.name("AdjusterTurns", page.sheet, *turns.place)
    page.row += count


def _change(measured, wanted):
    """Wanted less measured; a sentence in either is passed on."""
    return "=IF(ISNUMBER(%s),IF(ISNUMBER(%s),%s-%s,%s),%s)" % (
        measured, wanted, wanted, measured, wanted, measured,
    )  # fmt: skip


def outline(page, block):
    """Points in the order in which a line joins them; an empty name lifts the pen.

    Names are those of VIEW_POINT. Columns: the name, then x, y, z in the road's axes.
    """
    columns_of(page, ["point", "x", "y", "z"])
    first = page.row
    for name in block["points"]:
        page.sheet.put(page.row, 0, value=name or None, look="fixed")
        for column, axis in enumerate("xyz", 1):
            if name:
                page.sheet.put(
                    page.row, column, look="table",
                    number_format=units.format_of("length", page.system),
                    formula='=CORNER.VIEW_POINT(%s,%s,"%s",%s)'
                    % (block["corner"], "$" + cell_name(page.row, 0), axis, block["pose"]),
                )  # fmt: skip
        page.row += 1
    kinds = ["text", "length", "length", "length"]
    table = lists.Table(page.sheet, first - 1, first, page.row - 1, ["point", *"xyz"], kinds)
    page.tables[block["name"]] = table
    page.sheet.verdicts.append((first, 1, page.row - 1, 3))


def drawing(page, block):
    """A view to scale: lines of tables above, across and up being two of x, y and z."""
    lines = []
    across, up = block["across"], block["up"]
    for name in block["tables"]:
        table = page.tables.get(name)
        if table is None:
            raise page.trouble(f'there is no table "{name}" above', "tables")
        x, y = table.titles.index(across), table.titles.index(up)
        sheet = table.sheet.name
        lines.append(
            (name, (sheet, table.first, y, table.last), (sheet, table.first, x, table.last))
        )
    ends = [
        units.converted(float(end), "length", "mm", page.system)
        for end in (*block["range_across"], *block["range_up"])
    ]
    width = int(block.get("width", 720))
    # The plot's own area, inside the chart, has the shape of the range: so it is to scale.
    inside = width * (1.0 - 2.0 * MARGIN)
    tall = inside * (ends[3] - ends[2]) / (ends[1] - ends[0])
    height = round(tall / (1.0 - 2.0 * MARGIN))
    unit = units.unit_of("length", page.system)
    chart = Chart(
        page.filled(block["title"]), (page.row, 0), (width, height), lines[0][2], lines,
        f"{across} ({unit})", unit, ends,
    )  # fmt: skip
    page.sheet.charts.append(chart)
    page.row += chart.rows


MARGIN = 0.1
"""Share of a drawing's width and height that is left free on every side of the plot."""
