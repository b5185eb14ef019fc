"""Formulas of a spreadsheet file that stand outside its cells."""

from lxml import etree

from .markup import MAIN

_XM = "{http://schemas.microsoft.com/office/excel/2006/main}"
_FORMULAS = (MAIN + "formula", MAIN + "formula1", MAIN + "formula2", _XM + "f")
_KINDS = {
    "conditionalFormatting": "the conditional format of %s",
    "dataValidation": "the data validation of %s",
}


def formulas_elsewhere(parts, sheets, names):
    """[(place in words, formula with '=')]; names: as `Package.names`.

    sheets: (name, part) of each worksheet.
    """
    found = []
    for name, scope, text in names:
        place = f"the name {name}" if scope is None else f"the name {name} of {scope}"
        found.append((place, "=" + text))
    for sheet, part in sheets:
        for element in parts.tree(part).iter(*_FORMULAS):
            place = _place(element, sheet)
            if place and element.text:
                found.append((place, "=" + element.text.removeprefix("=")))
        for relation in parts.relations.of(part):
            if relation.kind == "table" and relation.target in parts:
                found.extend(_of_table(parts.tree(relation.target), sheet))
    return found


def _place(element, sheet):
    for above in element.iterancestors():
        kind = etree.QName(above).localname
        if kind in _KINDS:
            cells = above.get("sqref") or above.findtext(_XM + "sqref") or ""
            return _KINDS[kind] % (f"{sheet}!{cells}")
    return None


def _of_table(table, sheet):
    name = table.get("displayName") or table.get("name")
    for column in table.iter(MAIN + "tableColumn"):
        for kind in ("calculatedColumnFormula", "totalsRowFormula"):
            text = column.findtext(MAIN + kind)
            if text:
                place = f"the column {column.get('name')} of the table {name} on {sheet}"
                yield place, "=" + text.removeprefix("=")
