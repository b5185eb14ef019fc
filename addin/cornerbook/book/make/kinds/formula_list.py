"""The list of every formula, made from the catalogue's declarations."""

from ....catalogue import FORMULAS
from ..sheet.declare import block_kind
from ..sheet.rows import columns_of


@block_kind("formula list", {})
def formula_list(page, block):
    """Every formula with its help, arguments, source and example."""
    group = None
    titles = ["Formula, and an example", "What it gives", "Arguments", "Source"]
    columns_of(page, titles, fitted=False)
    page.sheet.repeat = (page.row - 1, page.row - 1)
    page.sheet.frozen = page.row
    for formula in FORMULAS.values():
        if formula.group != group:
            group = formula.group
            page.line(group, "heading")
        arguments = "\n".join(f"{a.name}: {a.help}" for a in formula.arguments)
        call = f"{formula.signature}\n{formula.example}"
        texts = [call, formula.sentence, arguments, formula.source]
        for column, text in enumerate(texts):
            look = "code" if column == 0 else "note"
            page.sheet.put(page.row, column, value=text, look=look)
            page.fit(text, look, column, column)
        page.row += 1
