"""Where the numbers of a workbook of few numbers came from, as its sheets say."""

from ...file.address import row_and_column
from ...make.kinds.points import APART, ORIGINS
from ...make.texts.origins import of_shown


def origins(package, book, places):
    """{key with dots: sentence} of the numbers that a `Package` says it of.

    book: the workbook as it is laid out, without such sentences, which stand behind its own notes.
    places: {path of a key: the `Yellow` that it was read from}.
    """
    sheets = {yellow.sheet for yellow in places.values()}
    texts = {sheet: _texts(package, sheet) for sheet in sheets}
    listed = {sheet: _listed(texts[sheet]) for sheet in sheets}
    if not any(listed.values()):
        return {}
    notes = {
        sheet.name: {cell.value for cell in sheet.cells.values() if isinstance(cell.value, str)}
        for sheet in book.sheets
    }
    found = {}
    for path, yellow in places.items():
        below = listed[yellow.sheet]
        if below and yellow.label in below:
            text = below[yellow.label]
        else:
            row = texts[yellow.sheet].get(yellow.row, {})
            beside = [row[column] for column in sorted(row) if column > yellow.column]
            text = _source(beside[-1], notes.get(yellow.sheet, ())) if beside else ""
        if text.endswith("."):
            found[".".join(path)] = of_shown(text)
    return found


def _texts(package, sheet):
    """{row: {column: text}}, from 0, of the locked cells of a sheet that hold a text."""
    found: dict = {}
    open_ = set(package.inputs(sheet))
    for address, content in package.cells(sheet).items():
        if content.formula is None and isinstance(content.value, str) and address not in open_:
            row, column = row_and_column(address)
            found.setdefault(row - 1, {})[column - 1] = content.value
    return found


def _listed(texts):
    """{row of a corner: sentence} of what stands below it; other numbers have it beside them."""
    head = next((row for row in texts if texts[row].get(0) == ORIGINS), None)
    found = {}
    while head is not None and len(texts.get(head + 1, ())) == 2:
        head += 1
        labels, sentence = (texts[head][column] for column in sorted(texts[head]))
        found.update(dict.fromkeys(labels.split(APART), sentence))
    return found


def _source(text, notes):
    """A note without what stands there in every workbook."""
    if text in notes:
        return ""
    before = max((note for note in notes if text.startswith(note + " ")), key=len, default="")
    return text[len(before) :].strip()
