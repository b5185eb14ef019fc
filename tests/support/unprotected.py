"""A workbook whose sheets anybody may edit."""

import io
import re
import zipfile

_LOCK = re.compile(rb"<sheetProtection [^>]*/>")


def unprotected(content):
    """The bytes of a workbook without the protection of its sheets. content: its bytes."""
    made, found = io.BytesIO(), 0
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(made, "w") as new:
        for name in old.namelist():
            part, count = _LOCK.subn(b"", old.read(name))
            new.writestr(name, part, zipfile.ZIP_DEFLATED)
            found += count
    assert found
    return made.getvalue()
