"""The two pages that a macro workbook has of ours, as XML: its buttons, and xlwings' settings."""

from xml.sax.saxutils import escape, quoteattr

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATED = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'

IMPORT = ("Import functions", "ImportPythonUDFs")
"""The one button to press: what stands on it, and the macro of xlwings that it starts."""

_BUTTON_ROWS = 2
_BUTTON_COLUMN = 2


def sheet(rows, widths, code_name=None, drawing=None):
    """A sheet's XML. rows: lists of texts, None for an empty cell. widths: of the columns.

    code_name: VBA's name of the sheet. drawing: the relation that leads to its drawing.
    """
    parts = [_HEAD, f'<worksheet xmlns="{MAIN}" xmlns:r="{RELATED}">']
    if code_name:
        parts.append(f"<sheetPr codeName={quoteattr(code_name)}/>")
    parts.append("<cols>")
    for number, width in enumerate(widths, 1):
        parts.append(f'<col min="{number}" max="{number}" width="{width}" customWidth="1"/>')
    parts.append("</cols><sheetData>")
    for number, row in enumerate(rows, 1):
        cells = "".join(
            f'<c r="{chr(65 + column)}{number}" t="inlineStr"><is>'
            f'<t xml:space="preserve">{escape(text)}</t></is></c>'
            for column, text in enumerate(row)
            if text is not None
        )
        parts.append(f'<row r="{number}">{cells}</row>')
    parts.append("</sheetData>")
    if drawing:
        parts.append(f"<drawing r:id={quoteattr(drawing)}/>")
    parts.append("</worksheet>")
    return "".join(parts)


def buttons_page(buttons, version):
    """(rows, widths, drawing XML) of the page with the buttons.

    buttons: (what stands on it, macro) of those below the first, which imports the functions.
    version: of xlwings.
    """
    rows = [
        ["The formulas of cornerbook in Excel for Windows"],
        ["1. File > Options > Trust Center > Trust Center Settings > Macro Settings: tick Trust "
         "access to the VBA project object model. Once is enough."],
        ["2. Press Import functions, below, and again after cornerbook is updated."],
        ["3. Press Ctrl+Alt+F9: every formula is worked out anew. Type =CORNER_ in a cell."],
        ["If Import functions says that Python is not found, write the path of your pythonw.exe "
         "beside Interpreter_Win on the page xlwings.conf."],
        [f"The macros are those of xlwings {version} and work with that version only: make this "
         "workbook anew after an update of xlwings."],
        ["The other buttons work once the functions are imported."],
    ]  # fmt: skip
    top = len(rows) + 1
    shapes = [
        _button(number, top + number * (_BUTTON_ROWS + 1), caption, macro)
        for number, (caption, macro) in enumerate([IMPORT, *buttons])
    ]
    drawing = (
        f'{_HEAD}<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/'
        'spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main">'
        + "".join(shapes)
        + "</xdr:wsDr>"
    )
    return rows, [14], drawing


def _button(number, row, caption, macro):
    def corner(tag, column, row):
        return (
            f"<xdr:{tag}><xdr:col>{column}</xdr:col><xdr:colOff>0</xdr:colOff>"
            f"<xdr:row>{row}</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:{tag}>"
        )

    # A macro of the same workbook is written with [0]! before it.
    return (
        "<xdr:twoCellAnchor>"
        + corner("from", 0, row)
        + corner("to", _BUTTON_COLUMN, row + _BUTTON_ROWS)
        + f'<xdr:sp macro={quoteattr("[0]!" + macro)} textlink=""><xdr:nvSpPr>'
        f"<xdr:cNvPr id={quoteattr(str(number + 2))} name={quoteattr(caption)}/><xdr:cNvSpPr/>"
        '</xdr:nvSpPr><xdr:spPr><a:xfrm><a:off x="0" y="0"/><a:ext cx="1600000" cy="380000"/>'
        '</a:xfrm><a:prstGeom prst="roundRect"><a:avLst/></a:prstGeom><a:solidFill>'
        '<a:srgbClr val="2F6DB5"/></a:solidFill></xdr:spPr><xdr:txBody>'
        '<a:bodyPr anchor="ctr"/><a:lstStyle/><a:p><a:pPr algn="ctr"/><a:r>'
        '<a:rPr lang="en-GB" sz="1100"><a:solidFill><a:srgbClr val="FFFFFF"/></a:solidFill>'
        f"</a:rPr><a:t>{escape(caption)}</a:t></a:r></a:p></xdr:txBody></xdr:sp>"
        "<xdr:clientData/></xdr:twoCellAnchor>"
    )


def settings_page(interpreter, modules):
    """(rows, widths) of xlwings' settings, which have to start in the first cell.

    interpreter: the path of pythonw.exe, '' to let Windows find it. modules: those whose
    functions are imported.
    """
    return [
        ["Interpreter_Win", interpreter or None],
        ["UDF Modules", ";".join(modules)],
    ], [18, 70]
