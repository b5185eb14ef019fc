"""The XML of a spreadsheet file: its namespaces, and taking an element out of it."""

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
RELATED = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"


def take_out(root, element):
    """Remove an element and leave the white space after it."""
    if element.tail:
        before = element.getprevious()
        if before is not None:
            before.tail = (before.tail or "") + element.tail
    root.remove(element)
