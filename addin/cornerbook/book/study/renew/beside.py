"""What a user put on sheets of ours beside the yellow cells, which nothing carries over."""

from ...file.address import cell_name
from ...file.trouble import some_of
from ...make.templates.template import Template
from ...make.texts.places import find
from ..typed.known import ADJUSTERS, laid_out
from ..typed.origins import ORIGINS

NAMED = 12
"""How many cells a sentence names."""


def left_beside(old, template, taken):
    """Sentences on cells and charts that the sheets of ours would not have if they were made now.

    old: the `Package`. template: the name of its `Template`. taken: what is typed in it.
    """
    sheets = set(old.sheets)
    whole = Template(find("templates", template))
    there = [c.name for c in whole.chapters if {s["name"] for s in c.sheets} & sheets]
    rows = {path: value for path, value in taken.values.items() if len(path) > 1
            and path[0] in ("corner", "column", ADJUSTERS)}  # fmt: skip
    book = laid_out(Template(find("templates", template), only=there), taken.unit, rows)
    few = any(
        content.value == ORIGINS
        for sheet in book.sheets if sheet.name in sheets
        for content in old.cells(sheet.name).values()
    )  # fmt: skip
    cells, said = [], []
    for sheet in book.sheets:
        if sheet.name not in sheets:
            continue
        cells += [f"{sheet.name}!{address}" for address in _more_cells(old, sheet, few)]
        more = len(old.charts(sheet.name)) - len(sheet.charts)
        if more > 0:
            said.append(f"{sheet.name} had more charts than it has now, which are gone: {more}.")
    if cells:
        said.append(
            "Stood on sheets of ours beside the yellow cells and is not there now; what is of "
            f"yours is better put on a sheet of your own: {some_of(cells, NAMED)}."
        )
    return said


def _more_cells(old, sheet, few):
    """The addresses of cells that are filled and would not be.

    few: whether it is a workbook of few numbers: its notes say where they came from and are not
    missed, nor the sheet on which rows of such notes move all below them.
    """
    contents = old.cells(sheet.name)
    if few and any(content.value == ORIGINS for content in contents.values()):
        return
    now = {cell_name(*place) for place in sheet.cells}
    texts = {cell.value for cell in sheet.cells.values() if isinstance(cell.value, str)}
    open_ = set(old.inputs(sheet.name))
    for address, content in contents.items():
        is_note = few and content.formula is None and isinstance(content.value, str)
        known = address in now or address in open_ or content.value in texts
        if not known and content.in_array is None and not is_note:
            yield address
