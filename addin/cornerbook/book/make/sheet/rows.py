"""What blocks of every kind put on a page: yellow cells and headings."""

from ...file.address import cell_name
from ...formula.rewrite import in_quotes, quoted
from ..texts import units
from ..texts.text_files import follows, nearest
from ..texts.wish import ENDS, WANTED, name_of_wish
from .choices import is_long
from .model import ROW_HEIGHT, Array, Rule, Typed
from .said import EXPECTED, shown_as
from .typed import TYPED

_INSTALLED = "ISNUMBER(CORNER.TRAIL_FROM_CASTER(6,262,5))"
"""Whether this program knows the formulas: one of them, of numbers alone."""

_MISSING = (
    "look here: this program does not know the CORNER formulas; install the extension, "
    "or work with a copy made by cornerbook share"
)

LONG = 15
"""Rows of a table whose heads are to stay in sight."""

_IN_SIGHT = 160
"""What may stay above a table, in points."""

UNTIL = "Type a number in %s%s."


def put_input(
    page, row, column, value, kind, label, path, part=None, least=None, most=None, choices=()
):
    """Put a yellow cell for a value of a kind, with what may be typed; limits are in mm.

    The value is as a scenario of the workbook's unit system says it.

    path, part: what it is in a scenario; see `Typed`. choices: the words of a text that may be
    chosen, where they are few.
    """
    rule = None
    if choices:
        long = is_long(choices)
        said = "Choose from the list." if long else f"Choose one of these: {', '.join(choices)}."
        rule = Rule("list", choices=choices, title=label, message=said)
    elif kind != "text":
        limits = [
            None
            if end is None
            else units.on_sheet(
                units.converted(float(end), kind, "mm", page.system), kind, page.system
            )
            for end in (least, most)
        ]
        if value is not None:
            value = units.on_sheet(value, kind, page.system)
        unit = units.unit_of(kind, page.system)
        said = UNTIL % (unit or "figures", _limits_said(*limits))
        rule = Rule("whole" if kind == "count" else "decimal", *limits, title=label, message=said)
    cell = page.sheet.put(
        row, column, value=value, look="input words" if kind == "text" else "input",
        number_format=units.format_of(kind, page.system), rule=rule,
    )  # fmt: skip
    followed = follows(value) if kind != "text" else None
    if followed is not None:
        name, otherwise = followed
        cell.value, cell.formula = None, "=" + name
        if otherwise is not None and name not in page.book.promised:
            cell.value = units.converted(otherwise, kind, page.scenario.unit, page.system)
            cell.formula = None
    cell.typed = Typed(path, part, kind)
    return cell


def put_own_input(
    page, row, column, value, kind, label, words, formula=None, least=None, most=None, choices=()
):
    """Put a yellow cell for what no key of a chapter gives: the scenario may say it by `words`.

    Else it has a value or a formula of the sheet's own.
    """
    sheet, words = page.sheet.name, page.scenario.new_words(page.sheet.name, words)
    said, given = page.scenario.typed(sheet, words, kind, page.system)
    value = given if said else value
    path = (TYPED, sheet, words)
    cell = put_input(page, row, column, value, kind, label, path, None, least, most, choices)
    if formula is not None and not said:
        cell.formula = formula


def given_rows(page, key, kinds, count):
    """The rows of a scenario's key, and rows of None for the room that is left of `count`."""
    given = page.scenario.rows(key, kinds, page.system)
    if len(given) > count:
        raise page.trouble(f"{key} has {len(given)} rows; the block has room for {count}", "count")
    return [*given, *([[None] * len(kinds)] * (count - len(given)))]


def put_wish(page, row, columns, wish, kind, label):
    """Put what the scenario says of a wish into yellow cells: from, aim and to, or from and to."""
    name = name_of_wish(wish)
    said = page.scenario.wish(name, kind, page.system)
    if len(columns) == 2:
        said = (said[0], said[2])
    names = ENDS if len(columns) == 3 else (ENDS[0], ENDS[2])
    for column, name_of_end, end in zip(columns, names, said, strict=True):
        put_input(page, row, column, end, kind, label, (WANTED, name), name_of_end)
    page.wishes[name] = (page.sheet, row, columns)


def put_band(page, row, column, wish, kind, label):
    """Put the two ends of a wish's band, from and to.

    They follow the place where the wish stands, so that it is typed once, and are yellow where it
    stands nowhere above. A blank end stays blank; in place of a word there is a sentence.
    """
    name = name_of_wish(wish)
    if name not in page.wishes:
        known = page.scenario.wishes()
        if name not in known:
            said = f'the wish "{name}" is not known; {nearest(name, known)}'
            page.scenario.mistakes.take(page.trouble(said, wish))
        put_wish(page, row, (column, column + 1), wish, kind, label)
        return
    for i, cell in enumerate((wish_cell(page, name, "from"), wish_cell(page, name, "to"))):
        page.sheet.put(
            row, column + i, look="value", number_format=units.format_of(kind, page.system),
            formula=f'=IF({cell}="","",IF(ISTEXT({cell}),{no_number(cell)},{cell}))',
        )  # fmt: skip


def is_word(cell):
    """The formula, without =, that asks whether a cell that may be blank holds a word."""
    return f'IF({cell}="",FALSE,ISTEXT({cell}))'


def no_number(cell):
    """The text, as a formula has it, that names a cell for typing in which a word stands."""
    return in_quotes(f"# {shown_as(cell)}{EXPECTED}")


def wish_cell(page, wish, end):
    """The cell in which the from, aim or to of a wish stands, as a formula says it from here.

    None for an aim where the wish stands as a band alone.
    """
    sheet, row, columns = page.wishes[name_of_wish(wish)]
    places = dict(zip(ENDS if len(columns) == 3 else ("from", "to"), columns, strict=True))
    if end not in places:
        return None
    own = "" if sheet is page.sheet else quoted(sheet.name) + "!"
    return own + cell_name(row, places[end], True)


def beside(note, source):
    """A note with where the numbers beside it come from; the note alone where all was given."""
    return " ".join(filter(None, [note, source]))


def shown(page, row):
    """The formula of a row of a template, in the unit in which its kind is shown.

    per: how many of what the formula gives make one of that unit; a sentence on what to mend is
    passed on as it is.
    """
    return in_unit(page, row["formula"], row)


def in_unit(page, formula, row):
    """A formula of a row of a template, likewise."""
    formula = page.filled(formula)
    if "per" not in row or not formula:
        return formula
    body = formula.removeprefix("=")
    return f"=IF(ISNUMBER({body}),({body})/{page.filled(row['per'])},{body})"


def put_live(page, row, column, formula):
    """Put a text that says how things stand now, and is worked out at every opening.

    A program may keep the stored values of ordinary cells when it opens a file, and would then
    show "all is well" though it knows none of our formulas. It works out array formulas, so
    this is one, of a single cell; as such it can be part of no merged cells.

    formula: of the text, without "=". Where the program does not know the formulas, the cell
    says so in its place.
    """
    formula = f'=IF({_INSTALLED},{formula},"{_MISSING}")'
    page.sheet.put_array(Array(formula, row, column, row, column, "state", None))
    page.sheet.verdicts.append((row, column, row, column))


def _limits_said(least, most):
    if least is None and most is None:
        return ""
    if most is None:
        return f", {least:g} or more"
    if least is None:
        return f", {most:g} or less"
    return f", from {least:g} to {most:g}"


_OVER_WORDS = frozenset(
    ("for", "what it moves", "side", "a step is", "a step plus", "a step minus",
     "unit", "sheet", "remark", "note", "why")
)  # fmt: skip
"""Headings of columns that hold words, and begin where these begin: a little apart from the
numbers beside them."""


def columns_of(page, titles, fitted=True, kinds=None):
    """Put a row of headings from `page.column` on; one that begins with = is a formula.

    Over words they stand to the left, over numbers to the right, as what is below them does.
    fitted: make the row as high as the headings need; else it stays as high as any other.
    kinds: those of the columns, where they are known; else the first is one of words.
    """
    for place, title in enumerate(titles):
        column = page.column + place
        if title == "verdict":
            look = "column verdict"
        elif title in _OVER_WORDS or (kinds[place] == "text" if kinds else place == 0):
            look = "column unit" if place else "column first"
        else:
            look = "column"
        said = {"formula": title} if title.startswith("=") else {"value": title}
        page.sheet.put(page.row, column, look=look, **said)
        if fitted:
            page.fit(title, "column", column, column)
    page.row += 1


def heads_of(page, titles, kinds):
    """Put the two rows over a table, headings and the units of kinds; gives the first one's row."""
    columns_of(page, titles, kinds=kinds)
    for column, kind in enumerate(kinds):
        over_words = "column unit" if column else "column first"
        look = over_words if kind == "text" else "column"
        page.sheet.put(page.row, column, value=units.unit_of(kind, page.system), look=look)
    page.row += 1
    return page.row - 2


def keep_heads_in_sight(page, rows):
    """Let what stands above the row at hand stay as one scrolls through so many rows below it.

    Not where that is much of a screen, or a drawing stands in it.
    """
    sheet = page.sheet
    above = sum(sheet.heights.get(row, ROW_HEIGHT) for row in range(page.row))
    drawn = any(each.at[0] < page.row for each in sheet.charts + sheet.pictures)
    if rows >= LONG and sheet.frozen is None and not drawn and above <= _IN_SIGHT:
        sheet.frozen = page.row
