"""Which part of a file uses which: the `.rels` parts that stand beside them."""

import posixpath
from typing import NamedTuple
from urllib.parse import unquote

from lxml import etree

from .markup import RELATED, take_out

_RELATION = "{http://schemas.openxmlformats.org/package/2006/relationships}"


class Relation(NamedTuple):
    """One link of a part to another: its id, the last word of its kind, and the target.

    target: the name of a part, or None for something outside the file.
    """

    id: str
    kind: str
    target: str | None


class Relations:
    """The links of each part of a file to others; those of the file itself are of ''.

    contents: its `Contents`.
    """

    def __init__(self, contents):
        self._contents = contents

    def of(self, part):
        """The links of a part, as `Relation`s."""
        return [self._relation(part, link) for link in self._links(part)]

    def targets(self, part, kind):
        """The parts that a part links to by one kind of link."""
        return [relation.target for relation in self.of(part) if relation.kind == kind]

    def any_to(self, target):
        """Whether any part links to a part."""
        return any(
            relation.target and relation.target.lower() == target.lower()
            for source in self._sources()
            for relation in self.of(source)
        )

    def links(self, part):
        """[(id, whole kind, what it leads to as written, the `Relation`)] of a part's links."""
        return [
            (each.get("Id"), each.get("Type"), each.get("Target"), self._relation(part, each))
            for each in self._links(part)
        ]

    def put(self, part, links):
        """Give a part that has no links some. links: [(id, whole kind, the name of a part, or
        None, what it leads to outside the file, or None)]."""
        root = etree.Element(_RELATION + "Relationships", nsmap={None: _RELATION[1:-1]})
        for id_, kind, target, outside in links:
            link = etree.SubElement(root, _RELATION + "Relationship", Id=id_, Type=kind)
            if target is None:
                link.set("Target", outside)
                link.set("TargetMode", "External")
            else:
                folder = "/" + posixpath.dirname(part)
                link.set("Target", posixpath.relpath("/" + target, folder))
        self._contents.put(
            _beside(part),
            etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True),
        )

    def add(self, part, kind, target):
        """Link a part to another part; the id of the new link."""
        beside = _beside(part)
        if beside not in self._contents:
            self._contents.put(beside, b'<Relationships xmlns="%s"/>' % _RELATION[1:-1].encode())
        root = self._contents.change(beside)
        taken = {link.get("Id") for link in root}
        number = len(taken) + 1
        while f"rId{number}" in taken:
            number += 1
        path = posixpath.relpath("/" + target, "/" + posixpath.dirname(part))
        etree.SubElement(
            root, _RELATION + "Relationship",
            Id=f"rId{number}", Type=f"{RELATED[1:-1]}/{kind}", Target=path,
        )  # fmt: skip
        return f"rId{number}"

    def drop(self, part, relation):
        """Take out one `Relation` of a part."""
        root = self._contents.change(_beside(part))
        for link in self._links(part):
            if link.get("Id") == relation.id:
                take_out(root, link)

    def drop_all(self, part):
        """Take out all links of a part."""
        self._contents.drop(_beside(part))

    def _links(self, part):
        beside = _beside(part)
        if beside not in self._contents:
            return []
        return list(self._contents.tree(beside).iterchildren(_RELATION + "*"))

    def _relation(self, part, link):
        target = None
        if link.get("TargetMode") != "External":
            path = posixpath.join("/" + posixpath.dirname(part), unquote(link.get("Target", "")))
            target = self._contents.spelled(posixpath.normpath(path).lstrip("/"))
        return Relation(link.get("Id", ""), link.get("Type", "").rpartition("/")[2], target)

    def _sources(self):
        """Every part that has links."""
        for name in self._contents.names():
            folder, _, file = name.rpartition("/")
            if file.endswith(".rels") and folder.split("/")[-1] == "_rels":
                yield posixpath.join(posixpath.dirname(folder), file[: -len(".rels")])


def _beside(part):
    """The name of the part that holds a part's links."""
    folder, file = posixpath.split(part)
    return posixpath.join(folder, "_rels", file + ".rels")
