"""The parts of a spreadsheet file, read from the zip, changed in memory, written again."""

from .content_types import ContentTypes
from .contents import Contents
from .relations import Relations
from .unpack import unpacked


class Parts:
    """All parts of one file, with their types and relations kept in step as parts come and go.

    where: what messages call the file. contents: as for `Contents`. `types` are the
    `ContentTypes`, `relations` the `Relations`.
    """

    def __init__(self, where, contents):
        self.where = where
        self._contents = Contents(where, contents)
        self.types = ContentTypes(self._contents)
        self.relations = Relations(self._contents)

    @classmethod
    def read(cls, path, raw=None):
        """Every part of the file at `path`. raw: its bytes, where they are known.

        Raises `Trouble` if it is no readable package.
        """
        return cls(str(path), unpacked(path, raw))

    def __contains__(self, part):
        return part in self._contents

    def tree(self, part):
        """The root element of a part, to be read and not changed."""
        return self._contents.tree(part)

    def change(self, part):
        """The root element of a part, to be changed; the part will be written from it."""
        return self._contents.change(part)

    def bytes_of(self, part):
        """The bytes of a part as they would be saved."""
        return self._contents.bytes_of(part)

    def free_name(self, part):
        """A part's name that is not taken, with another number where it is."""
        stem, dot, ending = part.rpartition(".")
        stem, number, found = stem.rstrip("0123456789"), 0, part
        while found in self:
            number += 1
            found = f"{stem}{number}{dot}{ending}"
        return found

    def add(self, part, content, content_type):
        """Put in a new part. content: bytes."""
        self._contents.put(part, content)
        self.types.declare(part, content_type)

    def remove(self, part):
        """Take out a part, its own links, and what only it linked to."""
        if part not in self:
            return
        part = self._contents.spelled(part)
        targets = [relation.target for relation in self.relations.of(part)]
        self._contents.drop(part)
        self.relations.drop_all(part)
        self.types.drop(part)
        self._remove_unused(targets)

    def unrelate(self, part, kinds):
        """Take out a part's links of some kinds, and the parts that only they linked to.

        Returns whether there was any.
        """
        found = [r for r in self.relations.of(part) if r.kind in kinds]
        for relation in found:
            self.relations.drop(part, relation)
            self._remove_unused([relation.target])
        return bool(found)

    def _remove_unused(self, targets):
        for target in targets:
            if target and not self.relations.any_to(target):
                self.remove(target)

    def to_bytes(self):
        """The file. The same parts give the same bytes."""
        return self._contents.to_bytes()
