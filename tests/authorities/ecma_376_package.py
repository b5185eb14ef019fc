"""What ECMA-376 asks of an .xlsx as a package of parts, and of references between parts.

Source: ECMA-376 Part 2 (Open Packaging Conventions): content types, relationships, names of
parts. From memory of the standard; the wording is ours.
"""

import io
import posixpath
import zipfile
from xml.etree import ElementTree

CONTENT_TYPES = "[Content_Types].xml"
_TYPES = "{http://schemas.openxmlformats.org/package/2006/content-types}"
_RELATIONSHIPS = "{http://schemas.openxmlformats.org/package/2006/relationships}"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_OFFICE = "{" + OFFICE + "}"


class Package:
    """The parts of a file: `names` in the order of the zip, `xml(name)` parsed."""

    def __init__(self, content):
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            self.names = archive.namelist()
            self.bytes = {name: archive.read(name) for name in self.names}
        self._parsed = {}

    def xml(self, name):
        """The root element of a part."""
        if name not in self._parsed:
            self._parsed[name] = ElementTree.fromstring(self.bytes[name])
        return self._parsed[name]

    def is_xml(self, name):
        """Whether a part holds XML."""
        return name.endswith((".xml", ".rels", ".vml"))

    def relationships(self, part):
        """{id: (kind, target part or None for something outside)} of a part ("" for the root)."""
        name = relationships_of(part)
        if name not in self.bytes:
            return {}
        found = {}
        for one in self.xml(name):
            outside = one.get("TargetMode") == "External"
            target = None if outside else _resolved(part, one.get("Target"))
            found[one.get("Id")] = (one.get("Type").rsplit("/", 1)[1], target)
        return found


def relationships_of(part):
    """The name of the part that holds a part's relationships."""
    folder, name = posixpath.split(part)
    return posixpath.join(folder, "_rels", name + ".rels")


def _resolved(part, target):
    if target.startswith("/"):
        return target[1:]
    return posixpath.normpath(posixpath.join(posixpath.dirname(part), target))


def mistakes(package):
    """Sentences on what the packaging conventions do not allow."""
    lower = [name.lower() for name in package.names]
    found = [f"{n}: two parts of this name" for n in sorted(set(lower)) if lower.count(n) > 1]
    found += _content_types(package)
    reached = {""}
    for part in ["", *package.names]:
        if part.endswith(".rels") or (part and not package.is_xml(part)):
            continue
        found += _relationships(package, part, reached)
    for name in package.names:
        if name.endswith(".rels") or name == CONTENT_TYPES:
            continue
        if name not in reached:
            found.append(f"{name}: no relationship leads to this part")
    return found


def _content_types(package):
    found, defaults, overrides = [], set(), set()
    for one in package.xml(CONTENT_TYPES):
        kind, key = one.tag.replace(_TYPES, ""), one.get("Extension") or one.get("PartName")
        seen = defaults if kind == "Default" else overrides
        if key.lower() in seen:
            found.append(f"{CONTENT_TYPES}: {key} is listed twice")
        seen.add(key.lower())
    present = {"/" + name.lower() for name in package.names}
    found += [f"{CONTENT_TYPES}: there is no part {n}" for n in sorted(overrides - present)]
    for name in package.names:
        extension = name.rsplit(".", 1)[-1].lower()
        if name == CONTENT_TYPES or "/" + name.lower() in overrides:
            continue
        if extension not in defaults or (extension == "xml" and not name.endswith(".rels")):
            # "xml" has a default, but it says only that the part is XML of no known kind.
            found.append(f"{name}: it has no content type of its own")
    return found


def _relationships(package, part, reached):
    found = []
    name = relationships_of(part)
    if name in package.bytes:
        ids = [one.get("Id") for one in package.xml(name)]
        found += [f"{name}: {i} is given twice" for i in sorted(set(ids)) if ids.count(i) > 1]
    known = package.relationships(part)
    for key, (_, target) in known.items():
        if target is None:
            continue
        reached.add(target)
        if target not in package.bytes:
            found.append(f"{name}: {key} leads to {target}, which is not there")
    if part and package.is_xml(part):
        for element in package.xml(part).iter():
            for attribute, value in element.items():
                if attribute.startswith(_OFFICE) and value not in known:
                    found.append(f"{part}: {_local(element)} asks for {value}, which is not there")
    return found


def _local(element):
    return element.tag.rsplit("}", 1)[-1]
