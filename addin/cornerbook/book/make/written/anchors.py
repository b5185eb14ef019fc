"""Charts and pictures of a size of their own, whatever the columns and rows that they stand over.

A program reckons a column's width with its own font. What is anchored to two cells is stretched
with them, and a drawing to scale is so no more; what is anchored to a single cell has its size in
the file.
"""

import io
import re
import struct
import zipfile

from lxml import etree

_DRAWING = "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing"
_PART = re.compile(r"xl/drawings/drawing\d+\.xml")
_EMU_PER_PIXEL = 9525

_HEADER = 30
"""Bytes of what stands before a part's name; its last four say how long that and what is behind
it are (PKWARE, APPNOTE, 4.3.7)."""


def with_fixed_sizes(content, sizes):
    """The same .xlsx with charts and pictures anchored to one cell where they have a size here.

    sizes: {the number of a drawing part, from 1: [(width, height) in pixels, or None to leave one
    as it is]}, in the order in which they stand in it.
    """
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(made, "w") as new:
        for info in old.infolist():
            if _PART.fullmatch(info.filename):
                number = int(re.sub(r"\D", "", info.filename.rsplit("/", 1)[1]))
                part = _anchored(old.read(info), sizes.get(number, ()))
                new.writestr(info, part, compress_type=info.compress_type)
            else:
                _take_over(content, info, new)
    return made.getvalue()


def _take_over(content, info, new):
    """Put a part into another file as it lies compressed in this one."""
    start = info.header_offset
    name, extra = struct.unpack_from("<2H", content, start + _HEADER - 4)
    end = start + _HEADER + name + extra + info.compress_size
    info.header_offset = new.start_dir
    new.fp.seek(new.start_dir)
    new.fp.write(content[start:end])
    new.filelist.append(info)
    new.NameToInfo[info.filename] = info
    new.start_dir = new.fp.tell()


def _anchored(part, sizes):
    root = etree.fromstring(part)
    for anchor, size in zip(root.findall(f"{{{_DRAWING}}}twoCellAnchor"), sizes, strict=False):
        if size is None:
            continue
        end = anchor.find(f"{{{_DRAWING}}}to")
        extent = etree.Element(f"{{{_DRAWING}}}ext")
        for key, pixels in zip(("cx", "cy"), size, strict=True):
            extent.set(key, str(round(pixels * _EMU_PER_PIXEL)))
        anchor.replace(end, extent)
        anchor.tag = f"{{{_DRAWING}}}oneCellAnchor"
        anchor.attrib.pop("editAs", None)
    return etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)
