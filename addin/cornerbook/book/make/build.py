"""From a template and a scenario to a workbook in memory."""

from ..file.trouble import Trouble
from ..formula.targets import spelled
from .model import Book, Sheet
from .page import Page


def build(template, scenario, system="mm", target="calc", pictures=None):
    """A `Book` made from a `Template` and a `Scenario`, every formula with its value.

    system: "mm" or "in". target: the spreadsheet program, of `targets.TARGETS`.
    pictures: the folder of pictures that the template names.
    Raises `Trouble` with the file and the line or key to mend.
    """
    book = Book(f"{template.title}: {scenario.title}")
    tables, columns = {}, {}
    for number, described in enumerate(template.sheets):
        sheet = Sheet(described["name"])
        if sheet.name.lower() in (known.name.lower() for known in book.sheets):
            raise template.trouble(f'two sheets are named "{sheet.name}"', "name", number, None)
        sheet.widths = list(described.get("widths", [30, 12, 12, 12, 12, 12, 12, 12, 40]))
        sheet.landscape = described.get("landscape", True)
        sheet.colour = described.get("colour")
        book.sheets.append(sheet)
        page = Page(book, sheet, template, scenario, system, tables, columns, pictures)
        for place, block in enumerate(described["block"]):
            page.at = (number, place)
            page.place(block)
    try:
        book.compute()
    except Trouble as trouble:
        raise Trouble(f"{template.file.name}: {trouble}") from None
    for sheet in book.sheets:
        for cell in sheet.cells.values():
            if cell.formula is not None:
                cell.formula = spelled(cell.formula, target)
        arrays = {id(c.array): c.array for c in sheet.cells.values() if c.array is not None}
        for array in arrays.values():
            array.formula = spelled(array.formula, target)
    return book
