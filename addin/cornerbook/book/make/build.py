"""From a template and a scenario to a workbook in memory."""

from ..formula.targets import spelled
from .model import Book, CellTrouble, Sheet
from .page import Page, Shared


def build(template, scenario, system="mm", target="calc", pictures=None):
    """A `Book` made from a `Template` and a `Scenario`, every formula with its value.

    system: "mm" or "in". target: the spreadsheet program, of `targets.TARGETS`.
    pictures: the folder of pictures that the template names.
    Raises `Trouble` with the file and the line or key to mend.
    """
    book = Book(f"{template.title}: {scenario.title}")
    pages, shared = {}, Shared()
    for part in template.parts:
        names_above, tables_above = set(book.names), dict(shared.tables)
        for number, described in enumerate(part.sheets):
            sheet = _sheet(book, part, number, described)
            page = Page(book, sheet, part, number, scenario, system, shared, pictures)
            pages[sheet.name] = page
            for block in described["block"]:
                page.place(block)
        part.hold_promise(
            [name for name in book.names if name not in names_above],
            [name for name, table in shared.tables.items() if tables_above.get(name) is not table],
        )
    _fill_in_columns(book, shared.columns)
    try:
        book.compute()
    except CellTrouble as trouble:
        raise pages[trouble.sheet].cell_trouble(trouble) from None
    for sheet in book.sheets:
        for cell in sheet.cells.values():
            if cell.formula is not None:
                cell.formula = spelled(cell.formula, target)
        arrays = {id(c.array): c.array for c in sheet.cells.values() if c.array is not None}
        for array in arrays.values():
            array.formula = spelled(array.formula, target)
    return book


def _fill_in_columns(book, columns):
    """Fill in the columns of tables in formulas that stand above them."""
    for sheet in book.sheets:
        for cell in sheet.cells.values():
            if cell.formula is not None and "{" in cell.formula:
                for word, cells in columns.items():
                    cell.formula = cell.formula.replace(word, cells)


def _sheet(book, part, number, described):
    """A new sheet of the book, empty, as it is described."""
    sheet = Sheet(described["name"])
    if sheet.name.lower() in (known.name.lower() for known in book.sheets):
        raise part.trouble(f'two sheets are named "{sheet.name}"', "name", number)
    sheet.widths = list(described.get("widths", [30, 12, 12, 12, 12, 12, 12, 12, 40]))
    sheet.landscape = described.get("landscape", True)
    sheet.colour = described.get("colour")
    book.sheets.append(sheet)
    return sheet
