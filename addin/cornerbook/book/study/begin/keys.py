"""What is known of a scenario's keys from the chapters: kinds, limits of yellow cells, words."""

import functools

from ...make.texts.places import chapters_of_ours
from ...make.texts.wish import keys_of_wish


class Key:
    """A key of a scenario. kind: of its quantity; words: the label of its row; least, most: what
    may be typed there, in mm and such, or None. blank: whether it may be left out. wished: whether
    it is that of a wish."""

    __slots__ = ("blank", "kind", "least", "most", "wished", "words")

    def __init__(self, row, wished):
        self.kind = row["kind"]
        self.blank = bool(row.get("blank"))
        self.words = row.get("label", "")
        self.least = row.get("least")
        self.most = row.get("most")
        self.wished = wished


@functools.cache
def known_keys():
    """{key with dots: `Key`} of those that rows of our chapters name.

    The kind of a table of rows is a tuple of the kinds of its columns.
    """
    found: dict = {}
    for file in chapters_of_ours():
        for row in _rows(file.content):
            if "from" in row:
                found.setdefault(row["from"], Key(row, False))
            for way in ("wish", "band"):
                for key in keys_of_wish(row[way]) if way in row else ():
                    found.setdefault(key, Key(row, True))
        for block in _tables(file.content):
            kinds = tuple(column["kind"] for column in block["columns"])
            found.setdefault(block["from"], Key({"kind": kinds}, False))
    return found


def _tables(content):
    """The blocks of rows that a scenario fills."""
    for block in _blocks(content):
        if block.get("kind") == "rows" and "from" in block:
            yield block


def _rows(content):
    for block in _blocks(content):
        rows = block.get("rows")
        if isinstance(rows, list):
            yield from (row for row in rows if isinstance(row, dict) and "kind" in row)


def _blocks(content):
    for sheet in content.get("sheet", ()):
        yield from sheet.get("block", ())
