"""What is known of a scenario's keys from the chapters: kinds, limits of yellow cells, words."""

import functools

from ...make.places import find, names_in
from ...make.text_files import TextFile


class Key:
    """A key of a scenario. kind: of its quantity; words: the label of its row; least, most: what
    may be typed there, in mm and such, or None. banded: whether it is a band."""

    __slots__ = ("banded", "kind", "least", "most", "words")

    def __init__(self, row, banded):
        self.kind = row["kind"]
        self.words = row.get("label", "")
        self.least = row.get("least")
        self.most = row.get("most")
        self.banded = banded


@functools.cache
def known_keys():
    """{key with dots: `Key`} of those that rows of our chapters name."""
    found: dict = {}
    for name in names_in("chapters"):
        for row in _rows(TextFile(find("chapters", name)).content):
            for way in ("from", "band"):
                if way in row:
                    found.setdefault(row[way], Key(row, way == "band"))
    return found


def _rows(content):
    for sheet in content.get("sheet", ()):
        for block in sheet.get("block", ()):
            rows = block.get("rows")
            if isinstance(rows, list):
                yield from (row for row in rows if isinstance(row, dict) and "kind" in row)
