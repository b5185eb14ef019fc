"""The bytes of a file's parts and the XML trees made of them.

A part that nobody changes keeps its bytes. One that is asked for by `change` is written
from its tree, with every namespace and unknown element that it came with.
"""

import io
import zipfile

from lxml import etree

from .trouble import Trouble

_LEVEL = 4
"""Of compressing: one more takes half as long again, and 6 % off a shared copy (measured)."""


class Contents:
    """Each part of one file by its name, as bytes and as an XML tree.

    where: what messages call the file. contents: {name ("xl/workbook.xml"): bytes} in the
    order of the zip. A part is found by its name in capitals or small letters.
    """

    def __init__(self, where, contents):
        self.where = where
        self._contents = contents
        self._spellings = {name.lower(): name for name in contents}
        self._trees = {}
        self._changed = set()

    def __contains__(self, part):
        return part.lower() in self._spellings

    def names(self):
        """The names of all parts."""
        return list(self._contents)

    def spelled(self, part):
        """A part's name as the file spells it; one that is missing as it is given."""
        return self._spellings.get(part.lower(), part)

    def tree(self, part):
        """The root element of a part, to be read and not changed."""
        name = self._spellings.get(part.lower())
        if name is None:
            raise Trouble(f"{self.where} is damaged: its part {part} is missing")
        if name not in self._trees:
            self._trees[name] = self._parsed(name)
        return self._trees[name].getroot()

    def change(self, part):
        """The root element of a part, to be changed; the part will be written from it."""
        root = self.tree(part)
        self._changed.add(self.spelled(part))
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
                "spreadsheet needs"
            )
        return tree

    def bytes_of(self, part):
        """The bytes of a part as they would be saved."""
        name = self.spelled(part)
        if name not in self._contents:
            raise Trouble(f"{self.where} is damaged: its part {part} is missing")
        return self._saved(name)

    def put(self, part, content):
        """Put in a new part. content: bytes."""
        self._contents[part] = content
        self._spellings[part.lower()] = part

    def drop(self, part):
        """Take out a part, if it is there."""
        name = self._spellings.pop(part.lower(), None)
        if name is not None:
            del self._contents[name]
            self._trees.pop(name, None)
            self._changed.discard(name)

    def to_bytes(self):
        """The file. The same parts give the same bytes."""
        output = io.BytesIO()
        with zipfile.ZipFile(output, "w", zipfile.ZIP_DEFLATED) as package:
            for name in self._contents:
                content = self._saved(name)
                entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
                entry.compress_type = zipfile.ZIP_DEFLATED
                entry.create_system = 0  # else it would tell the system that it was made on
                package.writestr(entry, content, compresslevel=_LEVEL)
        return output.getvalue()

    def _saved(self, name):
        if name not in self._changed:
            return self._contents[name]
        return etree.tostring(
            self._trees[name], xml_declaration=True, encoding="UTF-8", standalone=True
        )
