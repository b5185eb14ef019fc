"""The text of a new worksheet: plain XML, written fast enough for tens of thousands of cells."""

import re
from operator import itemgetter

from .address import column_letters, row_and_column
from .markup import MAIN, escaped
from .values import bare, fitting, written

LONGEST_NAME = 31
"""Characters in the name of a sheet; the limit of Excel."""

# In points: the height that the sheets of our own workbooks have.
ROW_HEIGHT = 15


def free_name(name, taken):
    """A name for a sheet that Excel takes, as near to `name` as may be and not in `taken`."""
    name = re.sub(r"[\[\]:*?/\\\x00-\x1f]", " ", name)
    name = " ".join(name.split()).strip("' ")[:LONGEST_NAME].strip("' ") or "Sheet"
    # Excel keeps this one for itself.
    taken = {other.lower() for other in taken} | {"history"}
    found, number = name, 1
    while found.lower() in taken:
        number += 1
        end = f" {number}"
        found = name[: LONGEST_NAME - len(end)].rstrip() + end
    return found


def sheet_xml(name, rows, style, widths=None, freeze=None, merges=(), heights=None):
    """The bytes of a worksheet part, as a bytearray.

    style: a function from a style key to the number of a style. The rest is as for
    `Package.add_sheet`. Raises `Trouble` for a formula or a text that Excel would refuse.
    """
    body, last_row, last_column = _rows(name, rows, style, heights or {})
    head = [
        (
            '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet '
            f'xmlns="{MAIN[1:-1]}">'
        ),
        f'<dimension ref="A1:{column_letters(last_column - 1)}{last_row}"/>',
        '<sheetViews><sheetView showGridLines="0" workbookViewId="0">',
        _pane(freeze),
        "</sheetView></sheetViews>",
        f'<sheetFormatPr defaultRowHeight="{ROW_HEIGHT}"/>',
        _columns(widths),
        "<sheetData>",
    ]
    tail = [
        "</sheetData>",
        # No password: the lock keeps formulas from a slip of the hand, no more.
        '<sheetProtection sheet="1" objects="1" scenarios="1" formatCells="0" '
        'formatColumns="0" formatRows="0"/>',
    ]
    merges = list(merges)
    if merges:
        tail.append(f'<mergeCells count="{len(merges)}">')
        tail.extend(f'<mergeCell ref="{ref}"/>' for ref in merges)
        tail.append("</mergeCells>")
    tail.append(
        '<pageMargins left="0.5" right="0.5" top="0.6" bottom="0.7" header="0.3" footer="0.3"/>'
        '<pageSetup paperSize="9" scale="70" pageOrder="overThenDown" orientation="landscape"/>'
        "<headerFooter><oddFooter>&amp;L&amp;8&amp;A&amp;R&amp;8page &amp;P of &amp;N</oddFooter>"
        "</headerFooter></worksheet>"
    )
    # Of thousands of rows a second copy would be as large as all else.
    body[:0] = "".join(head).encode()
    body += "".join(tail).encode()
    return body


def _rows(name, rows, style, heights):
    """(the bytes of all rows, the last one's number, the last column's)."""
    # Row by row into bytes: of a hundred thousand cells the texts take many times the room.
    body, letters, styles = bytearray(), {}, {}
    last_row = last_column = 1
    for number, cells in _in_order(name, rows, heights):
        last_row = number
        height = heights.get(number)
        cells = sorted(cells, key=itemgetter(0))
        high = "" if height is None else f' ht="{written(height)[1]}" customHeight="1"'
        made = [f'<row r="{number}"{high}>']
        for column, formula, value, key in cells:
            if column not in letters:
                letters[column] = column_letters(column - 1)
            if key not in styles:
                number_of_style = style(key)
                styles[key] = f' s="{number_of_style}"' if number_of_style else ""
            address = f"{letters[column]}{number}"
            made.append(_cell(name, address, styles[key], formula, value))
        made.append("</row>")
        body += "".join(made).encode("utf-8")
        if cells:
            last_column = max(last_column, cells[-1][0])
    return body, last_row, last_column


def _in_order(name, rows, heights):
    """(number, cells) of every row that has cells or a height."""
    if isinstance(rows, list):
        rows = sorted(rows, key=itemgetter(0))
    bare = sorted(heights, reverse=True)
    before = 0
    for number, cells in rows:
        if number <= before:
            raise ValueError(f"row {number} of the sheet {name} is given twice, or too late")
        while bare and bare[-1] <= number:
            if bare[-1] < number:
                yield bare[-1], ()
            bare.pop()
        yield number, cells
        before = number
    for number in reversed(bare):
        yield number, ()


def _cell(name, address, style, formula, value):
    where = f"{name}!{address}"
    start = f'<c r="{address}"{style}'
    kind = text = None
    if value is not None:
        kind, text = written(fitting(value, where))
        if kind is not None:
            text = escaped(text)
    if formula is None:
        if text is None:
            return start + "/>"
        if kind == "str":
            return f'{start} t="inlineStr"><is><t xml:space="preserve">{text}</t></is></c>'
        inner = ""
    else:
        inner = f"<f>{escaped(bare(formula, where))}</f>"
    if kind is not None:
        start += f' t="{kind}"'
    stored = "" if text is None else f"<v>{text}</v>"
    return f"{start}>{inner}{stored}</c>"


def _columns(widths):
    if not widths:
        return ""
    if not isinstance(widths, dict):
        widths = dict(enumerate(widths, 1))
    made = [
        f'<col min="{column}" max="{column}" width="{written(width)[1]}" customWidth="1"/>'
        for column, width in sorted(widths.items())
        if width is not None
    ]
    return f"<cols>{''.join(made)}</cols>" if made else ""


def _pane(freeze):
    if not freeze:
        return ""
    row, column = row_and_column(freeze)
    across, down = column - 1, row - 1
    if not across and not down:
        return ""
    pane = "bottomRight" if across and down else "topRight" if across else "bottomLeft"
    sizes = (f' xSplit="{across}"' if across else "") + (f' ySplit="{down}"' if down else "")
    return (
        f'<pane{sizes} topLeftCell="{freeze}" activePane="{pane}" state="frozen"/><selection '
        f'pane="{pane}"/>'
    )
