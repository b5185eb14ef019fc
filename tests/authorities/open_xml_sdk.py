"""What the Open XML SDK of Microsoft says an .xlsx may hold, element by element.

The package openxml-audit is a port of that SDK's validator and carries its descriptions of
every element of ECMA-376 and of Office's extensions. It validates structure, values and some
references. Tried by breaking files on purpose, it passes over the attributes of some elements
(cells, rows and the page setup among them), so `unknown_attributes` reads its descriptions
for all of them.
"""

import functools
import json
from pathlib import Path

import openxml_audit
from openxml_audit import FileFormat, OpenXmlValidator, ValidationSeverity, context

VERSIONS = (FileFormat.OFFICE_2010, FileFormat.MICROSOFT_365)
"""The oldest Excel that a shared copy is for, and the newest."""

NOT_SO = {
    # [MS-ODRAWXML] section 5.31 asks for a prefix on this attribute, since its schema says
    # attributeFormDefault="qualified". Excel itself writes it without one, and XlsxWriter,
    # which writes the element, is held to Excel's own files by its tests. (Both from memory:
    # no Excel here.) The element tells charts to treat #N/A as a gap.
    ("dispNaAsBlank", "The 'val' attribute is not declared."),
}
"""Findings that are no mistakes: (element, what is said)."""


_LAST = {}


def _position(element):
    """An element's place among its siblings of that name, from 1.

    The validator's own count begins at the first of them for each, which takes a sixth of its
    time; it goes through them in order, so that the last one asked for is the one before.
    """
    before = next(element.itersiblings(element.tag, preceding=True), None)
    last, position = _LAST.get(element.tag, (None, 0))
    if before is None:
        position = 0
    elif before is not last:
        position = sum(1 for _ in element.itersiblings(element.tag, preceding=True))
    _LAST[element.tag] = element, position + 1
    return position + 1


context._sibling_position = _position


@functools.cache
def validator(version):
    """The validator for a version of Office; reading its descriptions takes half a second."""
    return OpenXmlValidator(file_format=version, max_errors=0)


def mistakes(path, versions=VERSIONS):
    """Sentences on what the SDK's validator finds in a file, for each version of Office."""
    found = []
    for version in versions:
        for one in validator(version).validate(path).errors:
            if one.severity != ValidationSeverity.ERROR:
                continue  # such as texts in the cells themselves, which the standard allows
            element = one.path.rsplit("/", 1)[-1].split("[")[0]
            if (element, one.description) not in NOT_SO:
                found.append(f"{version.value}: {one.part_uri} {one.path}: {one.description}")
    return found


@functools.cache
def _attributes():
    """{(namespace, element): names of its attributes} over all types of that element."""
    data = Path(openxml_audit.__file__).parent / "data" / "openxml"
    prefixes = {
        one["Prefix"]: one["Uri"]
        for one in json.loads((data / "namespaces.json").read_text(encoding="utf-8"))
    }
    types = [
        (file["TargetNamespace"], one)
        for path in sorted((data / "schemas").glob("*.json"))
        for file in [json.loads(path.read_text(encoding="utf-8"))]
        for one in file.get("Types", [])
    ]
    by_class = {(space, one["ClassName"]): one for space, one in types}
    known: dict[tuple[str, str], set[str]] = {}
    for space, one in types:
        prefix, _, element = one["Name"].rpartition("/")[2].partition(":")
        names = known.setdefault((prefixes.get(prefix, ""), element), set())
        kind = one
        while kind is not None:
            names |= {a["QName"].rpartition(":")[2] for a in kind.get("Attributes", [])}
            kind = by_class.get((space, kind.get("BaseClass", "")))
    return known


def unknown_attributes(part, root):
    """Sentences on attributes of a part's elements that the SDK does not know."""
    known, found = _attributes(), set()
    for element in root.iter():
        space, _, name = element.tag[1:].rpartition("}")
        names = known.get((space, name))
        if names is None:
            continue  # packaging and document properties; the validator looks at those
        for attribute in element.attrib:
            if not attribute.startswith("{") and attribute not in names:
                found.add(f"{part}: <{name}> has no attribute {attribute}")
    return sorted(found)
