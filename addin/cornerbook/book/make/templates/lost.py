"""What blocks that were left out for a mistake would have given, so that none is said twice."""

_USES = ("table", "like")
"""The keys by which a block names a table above it."""

_UNNAMED = ("variants", "arrangements", "adjusters", "self check")
"""Kinds of block that give names of their own making."""


def names_given(block):
    """The names that a block says it gives, of cells or tables, its rows' too."""
    rows = block.get("rows") if isinstance(block, dict) else None
    for table in (block, *(rows if isinstance(rows, list) else ())):
        if isinstance(table, dict):
            names = table.get("names")
            for name in (table.get("name"), *(names if isinstance(names, list) else ())):
                if isinstance(name, str):
                    yield name


class Lost:
    """Names of cells and tables that are not there because a block is not.

    whole: whether every chapter of the template could be read; of one that could not, nobody
    knows what it would have given.
    """

    def __init__(self, whole):
        self._any = not whole
        self._names = set()
        self._tables = set()

    def part(self, part):
        """A text file whose blocks are not all there: what its head promises may be missing."""
        promised = getattr(part, "given", None)
        if promised is not None:
            self._names.update(name.lower() for name in promised["gives"])
            self._tables.update(promised["tables"])

    def sheet(self, described):
        """A sheet that is left out with all of its blocks."""
        blocks = described.get("block") if isinstance(described, dict) else None
        for block in blocks if isinstance(blocks, list) else ():
            self.block(block)

    def block(self, block):
        """A block that is left out, or stopped half way."""
        if not isinstance(block, dict) or block.get("kind") in _UNNAMED:
            self._any = True
            return
        names = set(names_given(block))
        self._names.update(name.lower() for name in names)
        self._tables |= names

    def used_by(self, block):
        """Whether a block needs a corner or a table that is not there."""
        if not self._tables and not self._names:
            return False
        tables = [block.get(key) for key in _USES] + list(block.get("tables", ()))
        if any(table in self._tables for table in tables if isinstance(table, str)):
            return True
        return str(block.get("corner", "")).lower() in self._names

    def is_in(self, text):
        """Whether a reference, or a formula's text, speaks of what is not there."""
        if self._any:
            return not text.startswith("=")
        if text.startswith("="):
            return any("{%s:" % name in text for name in self._tables)
        return text.lower() in self._names
