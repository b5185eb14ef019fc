"""The kinds of block that a template may hold, each placed on a page by one function."""

from ..file.address import cell_name
from ..file.trouble import Trouble
from . import design_blocks, lists, units
from .model import Chart, Picture
from .rows import columns_of, put_input


def place(page, block):
    """Place one block and leave a free row below it."""
    heading = block.get("heading")
    if heading:
        page.line(page.filled(heading), "heading")
    note = block.get("note")
    if note:
        page.line(page.filled(note), "aside")
    try:
        KINDS[block["kind"]](page, block)
    except Trouble as trouble:
        if page.template.file.name in str(trouble) or page.scenario.file.name in str(trouble):
            raise
        raise page.trouble(str(trouble)) from None
    page.row += 1


def _title(page, block):
    page.line(page.filled(block["text"]), "title")
    if block.get("below"):
        page.line(page.filled(block["below"]), "below")


def _text(page, block):
    look = block.get("look", "text")
    if look not in ("text", "caution", "aside"):
        raise page.trouble(f'the look "{look}" is not known; text, caution or aside', "look")
    for line in block["lines"]:
        page.line(page.filled(str(line)), look)


def _picture(page, block):
    path = page.pictures / block["file"] if page.pictures else None
    if path is None or not path.is_file():
        raise page.trouble(f'there is no picture "{block["file"]}"', "file")
    page.sheet.pictures.append(
        Picture(
            block["file"], path.read_bytes(), (page.row, 0), int(block["rows"]),
            block["width"], block["alt"],
        )
    )  # fmt: skip
    page.row += int(block["rows"])


def _inputs(page, block):
    for row in block["rows"]:
        kind = row["kind"]
        if "from" in row:
            value = page.scenario.value(row["from"], kind, page.system)
        else:
            value = row["value"]
            if kind != "text":
                value = units.converted(float(value), kind, "mm", page.system)
        at = page.row
        page.sheet.put(at, 0, value=page.filled(row["label"]), look="label")
        put_input(page, at, 1, value, kind, row["label"], row.get("least"), row.get("most"))
        page.sheet.put(at, 2, value=units.unit_of(kind, page.system), look="unit")
        _note(page, at, 3, page.filled(row.get("note", "")))
        if "name" in row:
            page.book.name(row["name"], page.sheet, at, 1, at, 1)
        page.row += 1


def _note(page, row, column, text):
    cell = page.sheet.put(row, column, value=text, look="note")
    last = page.width - 1
    if last > column:
        cell.span = last
    page.fit(text, "note", column, last)


def _corner(page, block):
    name = block["name"]
    head = page.row
    page.sheet.put(head, 0, value="Check", look="label")
    page.sheet.put(head, 1, formula=f'=CORNER.CHECK({name},"{page.system}")', look="said").span = (
        page.width - 1
    )
    page.sheet.heights[head] = 44
    page.sheet.verdicts.append((head, 1, head, 1))
    page.row += 1
    columns_of(page, ["Row", "x", "y", "z", "unit"])
    first = page.row
    _corner_rows(page, block)
    page.book.name(name, page.sheet, first, 0, page.row - 1, 3)


def _corner_rows(page, block):
    for label, kind, numbers in page.scenario.corner(block["from"], page.system):
        at = page.row
        page.sheet.put(at, 0, value=label, look="label")
        for i, number in enumerate(numbers):
            said = label if len(numbers) == 1 else f"{label}, {'xyz'[i]}"
            put_input(page, at, 1 + i, number, kind, said)
        page.sheet.put(at, 4, value=units.unit_of(kind, page.system), look="unit")
        page.row += 1


def _points(page, block):
    """Named points that make no linkage, such as those of the steering column: no check."""
    columns_of(page, ["Row", "x", "y", "z", "unit"])
    first = page.row
    _corner_rows(page, block)
    page.book.name(block["name"], page.sheet, first, 0, page.row - 1, 3)


def _results(page, block):
    titles = [page.filled(title) for title in block["columns"]]
    count = len(titles)
    banded = any("band" in row for row in block["rows"])
    ends = ["wanted from", "to", "verdict"] if banded else []
    columns_of(page, ["", *titles, "unit", *ends, "note"])
    for row in block["rows"]:
        _result(page, row, count, banded)


def _result(page, row, count, banded):
    at, kind = page.row, row["kind"]
    formulas = row.get("formulas") or [row["formula"]]
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


def _table(page, block):
    wanted = lists.quantities_of(page, block["quantities"])
    over = block["over"]
    if over not in ("travel", "rack"):
        raise page.trouble(f'over is "{over}"; travel or rack was expected', "over")
    if any(of_axle for _, _, of_axle in wanted) and "wheelbase" not in block:
        raise page.trouble('quantities of the axle need the key "wheelbase"', "quantities")
    titles = [over, *(name for name, _, _ in wanted)]
    columns_of(page, titles)
    head = page.row - 1
    kinds = ["length", *(kind for _, kind, _ in wanted)]
    for column, kind in enumerate(kinds):
        page.sheet.put(page.row, column, value=units.unit_of(kind, page.system), look="column")
    page.row += 1
    first, running = page.row, _running(page, block)
    axle = ["," + block["wheelbase"] if of_axle else "" for _, _, of_axle in wanted]
    formula = "=CORNER.AT(%s,%s,%s,%s%s)"
    for row, formula_of_first in enumerate(running, first):
        page.sheet.put(
            row, 0, look="table", number_format=units.format_of("length", page.system),
            formula=formula_of_first,
        )  # fmt: skip
        moved = "$" + cell_name(row, 0)
        held = block.get("held", "0")
        pose = (moved, held) if over == "travel" else (held, moved)
        for column, kind in enumerate(kinds[1:], 1):
            asked = cell_name(head, column).replace(str(head + 1), f"${head + 1}")
            page.sheet.put(
                row, column,
                formula=formula % (block["corner"], asked, *pose, axle[column - 1]),
                look="table", number_format=units.format_of(kind, page.system),
            )  # fmt: skip
    last = first + len(running) - 1
    page.sheet.verdicts.append((first, 0, last, len(kinds) - 1))
    _keep_table(page, block["name"], lists.Table(page.sheet, head, first, last, titles, kinds))
    page.row = last + 1


def _keep_table(page, name, table):
    """Keep a table for charts and tables below, and its columns for formulas: {name:title}."""
    page.tables[name] = table
    sheet = table.sheet.name.replace("'", "''")
    for column, title in enumerate(table.titles):
        ends = [cell_name(row, column, True) for row in (table.first, table.last)]
        page.columns["{%s:%s}" % (name, title)] = "'%s'!%s:%s" % (sheet, *ends)


def _running(page, block):
    """The formulas down the first column of a table: from end to end, or as in another."""
    if "like" in block:
        other = page.tables.get(block["like"])
        if other is None:
            raise page.trouble(f'there is no table "{block["like"]}" above', "like")
        rows = range(other.first, other.last + 1, int(block.get("every", 1)))
        sheet = other.sheet.name.replace("'", "''")
        return [f"='{sheet}'!{cell_name(row, 0, True)}" for row in rows]
    count = int(block["points"])
    if count < 2:
        raise page.trouble("a table has 2 points at least", "points")
    start, end = block["start"], block["end"]
    formulas = [f"={start}+(({end})-({start}))*{i}/{count - 1}" for i in range(count)]
    if start == "-" + end:
        # The upper half is the opposite of the lower one, and is written so.
        for i in range(count // 2):
            formulas[count - 1 - i] = "=-" + cell_name(page.row + i, 0, True)
    return formulas


def _series(page, block):
    """A table whose columns have formulas of their own.

    {x} stands for what runs, and the title of an earlier column in braces for its cell.
    """
    columns = block["columns"]
    titles = [block["over"], *(column["title"] for column in columns)]
    kinds = [block["kind_over"], *(column["kind"] for column in columns)]
    columns_of(page, titles)
    head = page.row - 1
    for column, kind in enumerate(kinds):
        page.sheet.put(page.row, column, value=units.unit_of(kind, page.system), look="column")
    page.row += 1
    first, running = page.row, _running(page, block)
    for row, formula in enumerate(running, first):
        formulas = [formula]
        moved = "$" + cell_name(row, 0)
        words = {"{x}": moved}
        for place, column in enumerate(columns, 1):
            text = page.filled(column["formula"])
            for word, cell in words.items():
                text = text.replace(word, cell)
            formulas.append(text)
            words.setdefault("{%s}" % column["title"], "$" + cell_name(row, place))
        for column, (formula, kind) in enumerate(zip(formulas, kinds, strict=True)):
            page.sheet.put(
                row, column, formula=formula, look="table",
                number_format=units.format_of(kind, page.system),
            )  # fmt: skip
    last = first + len(running) - 1
    page.sheet.verdicts.append((first, 0, last, len(kinds) - 1))
    _keep_table(page, block["name"], lists.Table(page.sheet, head, first, last, titles, kinds))
    page.row = last + 1


def _chart(page, block):
    table = page.tables.get(block["table"])
    if table is None:
        raise page.trouble(f'there is no table "{block["table"]}" above', "table")
    across = block.get("x", table.titles[0])
    for name in (across, *block["quantities"]):
        if name not in table.titles:
            raise page.trouble(f'the table has no column "{name}"', name)
    columns = [table.titles.index(name) for name in block["quantities"]]
    size = (int(block.get("width", 560)), int(block.get("height", 300)))
    beside = block.get("beside", True) and table.sheet is page.sheet
    at = (table.next_chart, len(table.titles)) if beside else (page.row, 0)
    unit = units.unit_of(table.kinds[columns[0]], page.system)
    x = table.titles.index(across)
    chart = Chart(
        page.filled(block["title"]), at, size,
        (table.sheet.name, table.first, x, table.last),
        [(table.titles[c], (table.sheet.name, table.first, c, table.last)) for c in columns],
        f"{across} ({units.unit_of(table.kinds[x], page.system)})",
        unit,
    )  # fmt: skip
    page.sheet.charts.append(chart)
    if beside:
        table.next_chart += chart.rows
        page.row = max(page.row, table.next_chart) - 1
    else:
        page.row += chart.rows


KINDS = {
    "variants": design_blocks.variants,
    "grid": design_blocks.grid,
    "heat": design_blocks.heat,
    "adjusters": design_blocks.adjusters,
    "outline": design_blocks.outline,
    "drawing": design_blocks.drawing,
    "title": _title,
    "text": _text,
    "picture": _picture,
    "inputs": _inputs,
    "corner": _corner,
    "points": _points,
    "results": _results,
    "table": _table,
    "series": _series,
    "chart": _chart,
    "self check": lists.self_check,
    "formula list": lists.formula_list,
}
