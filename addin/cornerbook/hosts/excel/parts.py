"""The parts of an Office file in memory, and what each of them leads to."""

import io
import posixpath
import zipfile

OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"

_TYPES = "[Content_Types].xml"
_IN_TYPES = "{http://schemas.openxmlformats.org/package/2006/content-types}"
_IN_RELATIONS = "{http://schemas.openxmlformats.org/package/2006/relationships}"

_FIXED_TIME = (1980, 1, 1, 0, 0, 0)


class Parts:
    """The parts of a file: their bytes by path, and their content types.

    content: the file's bytes. What is no such file raises what zipfile and lxml raise, or a
    KeyError for a part that must be there. A path means the same in capitals and in small
    letters (ECMA-376, part 2).
    """

    def __init__(self, content):
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            entries = [entry for entry in archive.infolist() if not entry.is_dir()]
            self._held = {entry.filename: archive.read(entry) for entry in entries}
        self._spelled = {path.lower(): path for path in self._held}
        if len(self._spelled) < len(entries):
            raise zipfile.BadZipFile("a part stands twice")
        self.types = self.tree(_TYPES)

    def __contains__(self, path):
        return path.lower() in self._spelled

    def __iter__(self):
        return iter(self._held)

    def __getitem__(self, path):
        return self._held[self._spelled[path.lower()]]

    def __setitem__(self, path, content):
        self._held[self._spelled.setdefault(path.lower(), path)] = content

    def tree(self, path):
        """A part's XML; changes to it come into the file by `to_bytes`."""
        from lxml import etree

        parser = etree.XMLParser(resolve_entities=False, no_network=True)
        return etree.fromstring(self[path], parser)

    def kind(self, path):
        """A part's content type, '' where it has none of its own."""
        entry = self._type_of(path)
        return "" if entry is None else entry.get("ContentType")

    def declare(self, path, kind):
        """Give a part a content type."""
        entry = self._type_of(path)
        if entry is None:
            entry = self.types.makeelement(_IN_TYPES + "Override")
            entry.set("PartName", "/" + path)
            self.types.append(entry)
        entry.set("ContentType", kind)

    def _type_of(self, path):
        named = (e for e in self.types if e.get("PartName", "").lower() == "/" + path.lower())
        return next(named, None)

    def free(self, path):
        """A path that no part has yet. path: with {} for a number, which counts from 1."""
        number = 1
        while path.format(number) in self:
            number += 1
        return path.format(number)

    def relations(self, path):
        """The `Relations` of a part that has some; '' is the file itself."""
        return Relations(path, self.tree(_relations_path(path)))

    def to_bytes(self, changed):
        """The file as bytes; the same parts give the same bytes. changed: {path: its XML}."""
        for path, tree in {_TYPES: self.types, **changed}.items():
            self[path] = as_bytes(tree)
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
            for name, content in self._held.items():
                entry = zipfile.ZipInfo(name, _FIXED_TIME)
                entry.compress_type = zipfile.ZIP_DEFLATED
                archive.writestr(entry, content)
        return packed.getvalue()


class Relations:
    """What a part leads to: the paths of other parts, each by an identifier and of a kind.

    owner: the part's path. tree: the XML of its relations. path: of the part that holds them.
    """

    def __init__(self, owner, tree):
        self.owner = owner
        self.tree = tree
        self.path = _relations_path(owner)

    def of_kind(self, kind):
        """The paths of all parts of a kind."""
        return [self._path(relation) for relation in self.tree if relation.get("Type") == kind]

    def by_identifier(self, identifier):
        """The path of one part."""
        (path,) = (self._path(r) for r in self.tree if r.get("Id") == identifier)
        return path

    def add(self, kind, path):
        """Lead to another part; returns the identifier."""
        taken = {relation.get("Id") for relation in self.tree}
        number = len(taken) + 1
        while f"rId{number}" in taken:
            number += 1
        entry = self.tree.makeelement(_IN_RELATIONS + "Relationship")
        target = posixpath.relpath(path, posixpath.dirname(self.owner))
        for key, value in (("Id", f"rId{number}"), ("Type", kind), ("Target", target)):
            entry.set(key, value)
        self.tree.append(entry)
        return entry.get("Id")

    def _path(self, relation):
        target = relation.get("Target")
        if target.startswith("/"):
            return posixpath.normpath(target[1:])
        return posixpath.normpath(posixpath.join(posixpath.dirname(self.owner), target))


def no_relations(owner):
    """The `Relations` of a part that leads nowhere yet."""
    from lxml import etree

    tree = etree.Element(_IN_RELATIONS + "Relationships", nsmap={None: _IN_RELATIONS[1:-1]})
    return Relations(owner, tree)


def as_bytes(tree):
    """XML as a part holds it."""
    from lxml import etree

    return etree.tostring(tree, xml_declaration=True, encoding="UTF-8", standalone=True)


def _relations_path(path):
    folder, name = posixpath.split(path)
    return posixpath.join(folder, "_rels", name + ".rels")
