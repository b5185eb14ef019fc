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
from openxml_audit.schema.validator import SchemaValidator

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


def _push(stack, element, name):
    """What the validator does at each element, but for the element's path.

    That takes a fifth of its time, and is needed for a mistake alone; see `_path`.
    """
    stack._stack.append(context.ElementInfo(element, name, len(stack._stack)))


def _path(stack):
    """Where the validator is, as it would have it."""
    return "".join(f"/{one.path}[{context._sibling_position(one.element)}]" for one in stack._stack)


context.ValidationStack.push = _push
context.ValidationStack.current_path = property(_path)

_KNOWN = {}


def _validate_part(self, part, within, whole=SchemaValidator.validate_part):
    """As the validator's own, but a part that it has seen before, it need not look through again.

    What the schema says of a part depends on nothing outside that part.
    """
    before = len(within.errors)
    key = within.file_format, part.uri, part.raw_content
    if key not in _KNOWN:
        whole(self, part, within)
        _KNOWN[key] = within.errors[before:]
    else:
        within.errors.extend(_KNOWN[key])
    return within.errors


SchemaValidator.validate_part = _validate_part


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


@functools.cache
def _attributes_of(tag):
    space, _, name = tag[1:].rpartition("}")
    return _attributes().get((space, name))


def unknown_attributes(part, root):
    """Sentences on attributes of a part's elements that the SDK does not know."""
    found = set()
    for element in root.iter():
        names = _attributes_of(element.tag)
        if names is None:
            continue  # packaging and document properties; the validator looks at those
        for attribute in element.keys():
            if attribute not in names and not attribute.startswith("{"):
                name = element.tag.rpartition("}")[2]
                found.add(f"{part}: <{name}> has no attribute {attribute}")
    return sorted(found)
