"""The list of a file's sheets that its document properties repeat."""

from lxml import etree

from .markup import whole
from .trouble import Trouble

_PROPERTIES = "{http://schemas.openxmlformats.org/officeDocument/2006/extended-properties}"
_VECTOR = "{http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes}"


def add_title(parts, name, before):
    """List a new sheet after the worksheets that were there, if the file lists them at all.

    parts: the `Parts`. name: the new sheet. before: the worksheets so far, in order.
    """
    for relation in parts.relations.of(""):
        if relation.kind == "extended-properties" and relation.target in parts:
            _add(parts, relation.target, name, before)


def _add(parts, part, name, before):
    try:
        root = parts.tree(part)
    except Trouble:
        return  # nobody reads it, and it stays as it is
    titles = root.find(f"{_PROPERTIES}TitlesOfParts/{_VECTOR}vector")
    counts = root.findall(f"{_PROPERTIES}HeadingPairs/{_VECTOR}vector/{_VECTOR}variant/{_VECTOR}i4")
    if titles is None:
        return
    # The headings are in the language of the program, so the worksheets are known by their
    # names. A list that does not agree with the workbook is left as it is.
    listed, start = [entry.text for entry in titles], 0
    for count in counts:
        try:
            end = start + whole(count.text, len(listed))
        except ValueError:
            return
        if listed[start:end] == before:
            parts.change(part)
            entry = etree.Element(_VECTOR + "lpstr")
            entry.text = name
            titles.insert(end, entry)
            titles.set("size", str(len(titles)))
            count.text = str(int(count.text) + 1)
            return
        start = end
