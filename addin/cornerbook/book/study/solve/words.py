"""Cells and numbers in words."""

from ...file.address import column_letters, row_and_column


def described(book, cell):
    """A cell in words: its row's text and its column's, if it has no name of its own."""
    said = book.said(cell)
    row, column = row_and_column(cell[1])
    label = first_text(book, cell[0], ((row, c) for c in range(column - 1, 0, -1)))
    if said.endswith(")") or label is None:
        return said
    heading = first_text(book, cell[0], ((r, column) for r in range(row - 1, 0, -1)))
    if heading is not None and len(heading) <= 2:
        label += " " + heading
    return f"{label} ({said})"


def first_text(book, sheet, places):
    """The first text among cells given as (row, column) from 1; None where there is none."""
    for row, column in places:
        content = book.cells[sheet].get(column_letters(column - 1) + str(row))
        if content is not None and isinstance(content.value, str) and content.value.strip():
            return content.value.strip()
    return None


def listed(words):
    """Words in a row: "a, b and c"."""
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]


def number_text(number):
    """A number as a table shows it."""
    text = f"{number:.9g}"
    return "0" if text == "-0" or abs(number) < 5e-10 else text


def aligned(rows):
    """Rows of texts as lines: the first column to the left, the others to the right."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = []
    for row in rows:
        first = row[0].ljust(widths[0])
        rest = (text.rjust(width) for text, width in zip(row[1:], widths[1:], strict=True))
        lines.append("  ".join([first, *rest]).rstrip())
    return lines
