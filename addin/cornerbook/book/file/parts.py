"""The parts of a spreadsheet file: read from the zip, changed in memory, written again.

A part that nobody changes keeps its bytes. One that is asked for by `change` is written
from its tree, with every namespace and unknown element that it came with.
"""

import errno
import io
import posixpath
import zipfile
import zlib
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import unquote

from lxml import etree

from .trouble import Trouble

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
RELATED = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
KIND = RELATED[1:-1] + "/"
_LINK = "{http://schemas.openxmlformats.org/package/2006/relationships}"
_TYPE = "{http://schemas.openxmlformats.org/package/2006/content-types}"
_TYPES = "[Content_Types].xml"
_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_DAMAGE = (
    zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError,
    ValueError,
)  # fmt: skip

LIMIT = 300_000_000
"""Bytes, unpacked, beyond which a file is refused rather than filling the memory."""


@dataclass(frozen=True)
class Relation:
    """One link of a part to another: its id, the last word of its kind, and the target.

    target: the name of a part, or None for something outside the file.
    """

    id: str
    kind: str
    target: str | None


class Parts:
    """All parts of one file by name ("xl/workbook.xml"), in the order of the zip.

    where: what messages call the file.
    """

    def __init__(self, where, contents):
        self.where = where
        self._contents = contents
        self._places = {name.lower(): name for name in contents}
        self._trees = {}
        self._changed = set()

    @classmethod
    def read(cls, path):
        """Every part of the file at `path`. Raises `Trouble` if it is no readable package."""
        return cls(str(path), _unpacked(path))

    def __contains__(self, part):
        return part.lower() in self._places

    def names(self):
        """The names of all parts."""
        return list(self._contents)

    def tree(self, part):
        """The root element of a part, to be read and not changed."""
        name = self._places.get(part.lower())
        if name is None:
            raise Trouble(f"{self.where} is damaged: its part {part} is missing")
        if name not in self._trees:
            self._trees[name] = self._parsed(name)
        return self._trees[name].getroot()

    def change(self, part):
        """The root element of a part, to be changed; the part will be written from it."""
        root = self.tree(part)
        self._changed.add(self._places[part.lower()])
        return root

    def _parsed(self, name):
        # Entities and the network stay off: a workbook needs neither, and both can harm.
        parser = etree.XMLParser(resolve_entities=False, no_network=True, load_dtd=False)
        try:
            tree = etree.parse(io.BytesIO(self._contents[name]), parser)
        except etree.XMLSyntaxError as error:
            raise Trouble(f"{self.where} is damaged: its part {name} cannot be read") from error
        if tree.docinfo.doctype:
            raise Trouble(
                f"{self.where} is refused: its part {name} declares a document type, which no "
                "spreadsheet "
                "needs"
            )
        return tree

    def add(self, part, content, content_type):
        """Put in a new part. content: bytes."""
        self._contents[part] = content
        self._places[part.lower()] = part
        etree.SubElement(
            self.change(_TYPES), _TYPE + "Override",
            PartName="/" + part, ContentType=content_type,
        )  # fmt: skip

    def remove(self, part):
        """Take out a part, its own links, and what only it linked to."""
        name = self._places.get(part.lower())
        if name is None:
            return
        targets = [r.target for r in self.relations(name)]
        links = self._places.get(_links_of(name).lower())
        for gone in filter(None, (name, links)):
            del self._contents[gone], self._places[gone.lower()]
            self._trees.pop(gone, None)
            self._changed.discard(gone)
        for entry in self._overrides(name):
            _take_out(self.change(_TYPES), entry)
        for target in filter(None, targets):
            if not any(self._links_to(target)):
                self.remove(target)

    def _overrides(self, part):
        return [
            entry
            for entry in self.tree(_TYPES).iterchildren(_TYPE + "Override")
            if entry.get("PartName", "").lower() == "/" + part.lower()
        ]

    def content_type(self, part):
        """The declared content type of a part, or ''."""
        for entry in self._overrides(part):
            return entry.get("ContentType", "")
        ending = part.rpartition(".")[2].lower()
        for entry in self.tree(_TYPES).iterchildren(_TYPE + "Default"):
            if entry.get("Extension", "").lower() == ending:
                return entry.get("ContentType", "")
        return ""

    def declare(self, part, content_type):
        """Change the declared content type of a part."""
        for entry in self._overrides(part):
            _take_out(self.change(_TYPES), entry)
        etree.SubElement(
            self.change(_TYPES), _TYPE + "Override",
            PartName="/" + part, ContentType=content_type,
        )  # fmt: skip

    # Links between parts

    def relations(self, part):
        """The links of a part ('' for the file itself), as `Relation`s."""
        links = _links_of(part)
        if links not in self:
            return []
        return [self._relation(part, link) for link in self.tree(links).iterchildren(_LINK + "*")]

    def _relation(self, part, link):
        target = None
        if link.get("TargetMode") != "External":
            path = posixpath.join("/" + posixpath.dirname(part), unquote(link.get("Target", "")))
            target = posixpath.normpath(path).lstrip("/")
            target = self._places.get(target.lower(), target)
        return Relation(link.get("Id", ""), link.get("Type", "").rpartition("/")[2], target)

    def _links_to(self, target):
        for name in list(self._contents):
            folder, _, file = name.rpartition("/")
            if file.endswith(".rels") and folder.split("/")[-1] == "_rels":
                source = posixpath.join(posixpath.dirname(folder), file[: -len(".rels")])
                for relation in self.relations(source):
                    if relation.target and relation.target.lower() == target.lower():
                        yield relation

    def relate(self, part, kind, target):
        """Link a part to another part; the id of the new link."""
        links = _links_of(part)
        if links not in self:
            self._contents[links] = b'<Relationships xmlns="%s"/>' % _LINK[1:-1].encode()
            self._places[links.lower()] = links
        root = self.change(links)
        taken = {link.get("Id") for link in root}
        number = len(taken) + 1
        while f"rId{number}" in taken:
            number += 1
        path = posixpath.relpath("/" + target, "/" + posixpath.dirname(part))
        etree.SubElement(
            root, _LINK + "Relationship",
            Id=f"rId{number}", Type=KIND + kind, Target=path,
        )  # fmt: skip
        return f"rId{number}"

    def unrelate(self, part, kinds):
        """Take out a part's links of some kinds, and the parts that only they linked to.

        Returns whether there was any.
        """
        found = [r for r in self.relations(part) if r.kind in kinds]
        for relation in found:
            root = self.change(_links_of(part))
            for link in list(root.iterchildren(_LINK + "*")):
                if link.get("Id") == relation.id:
                    _take_out(root, link)
            if relation.target and not any(self._links_to(relation.target)):
                self.remove(relation.target)
        return bool(found)

    def to_bytes(self):
        """The file. The same parts give the same bytes."""
        output = io.BytesIO()
        with zipfile.ZipFile(output, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as package:
            for name, content in self._contents.items():
                if name in self._changed:
                    content = etree.tostring(
                        self._trees[name], xml_declaration=True, encoding="UTF-8", standalone=True
                    )
                entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
                entry.compress_type = zipfile.ZIP_DEFLATED
                entry.create_system = 0  # else it would tell the system that it was made on
                package.writestr(entry, content)
        return output.getvalue()


def _links_of(part):
    folder, file = posixpath.split(part)
    return posixpath.join(folder, "_rels", file + ".rels")


def _take_out(root, element):
    """Remove an element and leave the white space after it."""
    if element.tail:
        before = element.getprevious()
        if before is not None:
            before.tail = (before.tail or "") + element.tail
    root.remove(element)


def _unpacked(path):
    path = Path(path)
    try:
        if path.is_dir():
            raise Trouble(f"{path} is a folder; give the name of an .xlsx file")
        if path.stat().st_size > LIMIT:
            raise Trouble(_too_large(path))
        raw = path.read_bytes()
    except OSError as error:
        if error.errno == errno.ENOENT:
            raise Trouble(f"there is no file {path}") from None
        raise Trouble(f"{path} cannot be read: {error.strerror}") from error
    if raw.startswith(_OLE):
        raise Trouble(
            f"{path} is protected by a password or is an old .xls file; open it in your "
            "spreadsheet program and save it as .xlsx with no password"
        )
    if not raw.startswith(b"PK"):
        raise Trouble(f"{path} is not an .xlsx file")
    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as package:
            return _contents(path, package)
    except _DAMAGE as error:
        raise Trouble(f"{path} is damaged: it cannot be unpacked") from error


def _contents(path, package):
    entries = [entry for entry in package.infolist() if not entry.is_dir()]
    if sum(entry.file_size for entry in entries) > LIMIT or len(entries) > 20_000:
        raise Trouble(_too_large(path))
    if any(entry.flag_bits & 1 for entry in entries):
        raise Trouble(f"{path} is protected by a password; save it without one")
    names = {entry.filename for entry in entries}
    if len({name.lower() for name in names}) < len(entries):
        raise zipfile.BadZipFile("a part stands twice")
    if "content.xml" in names and _TYPES not in names:
        raise Trouble(f"{path} is an OpenDocument file; save it as .xlsx first")
    if _TYPES not in names:
        raise Trouble(f"{path} is not an .xlsx file")
    contents = {}
    for entry in entries:
        with package.open(entry) as part:
            # With a limit, or an entry that understates its size is unpacked whole first.
            contents[entry.filename] = part.read(entry.file_size + 1)
    return contents


def _too_large(path):
    return f"{path} is refused: unpacked it is larger than {LIMIT // 1000000} MB"
