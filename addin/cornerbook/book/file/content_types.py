"""The list in a file of what kind of content each of its parts holds."""

from lxml import etree

from .markup import take_out

TYPES = "[Content_Types].xml"
"""The part that holds the list; every .xlsx file has one."""

SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml."
"""What the types of a spreadsheet's own parts begin with."""

_TYPE = "{http://schemas.openxmlformats.org/package/2006/content-types}"


class ContentTypes:
    """The declared content type of each part of a file. contents: its `Contents`."""

    def __init__(self, contents):
        self._contents = contents

    def of(self, part):
        """The declared content type of a part, or ''."""
        for entry in self._declared(part):
            return entry.get("ContentType", "")
        ending = part.rpartition(".")[2].lower()
        for entry in self._contents.tree(TYPES).iterchildren(_TYPE + "Default"):
            if entry.get("Extension", "").lower() == ending:
                return entry.get("ContentType", "")
        return ""

    def declare(self, part, content_type):
        """Declare the content type of a part, in place of what was declared."""
        self.drop(part)
        etree.SubElement(
            self._contents.change(TYPES), _TYPE + "Override",
            PartName="/" + part, ContentType=content_type,
        )  # fmt: skip

    def drop(self, part):
        """Take out what is declared of a part alone."""
        for entry in self._declared(part):
            take_out(self._contents.change(TYPES), entry)

    def _declared(self, part):
        return [
            entry
            for entry in self._contents.tree(TYPES).iterchildren(_TYPE + "Override")
            if entry.get("PartName", "").lower() == "/" + part.lower()
        ]
