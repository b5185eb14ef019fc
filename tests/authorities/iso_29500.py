"""A workbook's parts, held to the schemas of ISO/IEC 29500 in its transitional form.

The schemas are not in the repository, nor in a package that the suite could take: none of those
of PyPI, npm and Debian that we looked into carries them (openpyxl, python-docx, python-pptx,
Apache POI, validators; projects that keep them leave them out of what they release). ISO gives
them to everybody at standards.iso.org/ittf/PubliclyAvailableStandards:

    ISO/IEC 29500-4 (transitional), in it OfficeOpenXML-XMLSchema-Transitional.zip
    ISO/IEC 29500-2 (packages), in it OpenPackagingConventions-XMLSchema.zip

The first has sml.xsd, dml-*.xsd, shared-*.xsd; without the second the lists of relationships and
of content types and the core properties have no schema. The core properties' own schema imports
two of the Dublin Core's from the net, which is not asked: until the import names files of the
folder, that part has no schema either.
"""

import re
import zipfile
from pathlib import Path

from lxml import etree

COMPATIBILITY = "{http://schemas.openxmlformats.org/markup-compatibility/2006}"
SPACE = "{http://www.w3.org/XML/1998/namespace}space"

_PARSER = etree.XMLParser(no_network=True, resolve_entities=False, huge_tree=True)


class Schemas:
    """The schemas of a folder, each found by the namespace that it is for."""

    def __init__(self, folder):
        self._files = {}
        for path in sorted(Path(folder).rglob("*.xsd")):
            target = re.search(r"targetNamespace\s*=\s*[\"']([^\"']+)", path.read_text("utf-8-sig"))
            if target:
                self._files.setdefault(target[1], path)
        self._read = {}

    @property
    def namespaces(self):
        """Those that have a schema, which makes them the ones that are understood."""
        return self._files.keys()

    def of(self, namespace):
        """(schema, None), or (None, why there is none)."""
        if namespace not in self._files:
            return None, f"no schema is for {namespace or 'a root of no namespace'}"
        if namespace not in self._read:
            path = self._files[namespace]
            try:
                found = etree.XMLSchema(etree.parse(path, _PARSER)), None
            except etree.XMLSchemaParseError as problem:
                found = None, f"{path.name} cannot be read: {problem}"
            self._read[namespace] = found
        return self._read[namespace]

    def held(self, path):
        """(names of the parts that were held, {part: why it was not}, sentences on what is wrong)
        of a file."""
        held, without, wrong = [], {}, []
        with zipfile.ZipFile(path) as archive:
            for name in archive.namelist():
                if not name.endswith((".xml", ".rels", ".vml")):
                    without[name] = "no XML"
                    continue
                root = etree.fromstring(archive.read(name), _PARSER)
                schema, why = self.of(etree.QName(root).namespace)
                if schema is None:
                    without[name] = why
                    continue
                held.append(name)
                wrong += [f"{name}: {one}" for one in _wrong(schema, root, self.namespaces)]
        return held, without, wrong


def _wrong(schema, root, understood):
    """Sentences on what a schema does not allow of a part, each kind of mistake once."""
    missing = prepared(root, understood)
    if missing:
        return [f"must be understood and has no schema: {one}" for one in missing]
    schema.validate(root)
    return list(dict.fromkeys(f"line {one.line}: {one.message}" for one in schema.error_log))


def prepared(root, understood):
    """Leave of a part what a reader sees that understands these namespaces, as ISO/IEC 29500-3
    has it, before it looks at the rest by the schema: of alternatives the first that it
    understands, nothing of namespaces that may be ignored, no attribute of that part itself.

    What stands in an extLst stays: the schemas let through there what they do not know.
    Returns the namespaces that must be understood and are not.
    """
    ignorable, missing = set(), set()
    for element in list(root.iter(etree.Element)):
        ignorable |= _spaces(element, "Ignorable")
        missing |= _spaces(element, "MustUnderstand") - set(understood)
    ignorable -= set(understood)
    for element in list(root.iter(COMPATIBILITY + "AlternateContent")):
        _replace(element, list(_chosen(element, understood)))
    for element in list(root.iter(etree.Element)):
        for name in list(element.attrib):
            space = etree.QName(name).namespace
            # XML's own attribute, which Excel writes on texts too; the schemas give these a
            # simple type, to which no attribute can be added.
            if name == SPACE or space in ignorable or name.startswith(COMPATIBILITY):
                del element.attrib[name]
        if element is not root and etree.QName(element).namespace in ignorable:
            _replace(element, [])
    return sorted(missing)


def _spaces(element, attribute):
    """The namespaces whose prefixes an attribute of the compatibility part lists."""
    listed = element.get(COMPATIBILITY + attribute, "").split()
    return {element.nsmap[prefix] for prefix in listed}


def _chosen(alternatives, understood):
    """The elements of the choice that a reader takes who understands these namespaces."""
    for one in alternatives.iterchildren(COMPATIBILITY + "Choice"):
        if {one.nsmap[prefix] for prefix in one.get("Requires").split()} <= set(understood):
            return one
    fallback = alternatives.find(COMPATIBILITY + "Fallback")
    return [] if fallback is None else fallback


def _replace(element, others):
    parent = element.getparent()
    place = parent.index(element)
    parent[place : place + 1] = others
