"""Charts and pictures of a size of their own, whatever the columns and rows that they stand over.

A program reckons a column's width with its own font. What is anchored to two cells is stretched
with them, and a drawing to scale is so no more; what is anchored to a single cell has its size in
the file.
"""

import io
import re
import zipfile

from lxml import etree

_DRAWING = "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing"
_PART = re.compile(r"xl/drawings/drawing\d+\.xml")
_EMU_PER_PIXEL = 9525


def with_fixed_sizes(content, sizes):
    """The same .xlsx with charts and pictures anchored to one cell where they have a size here.

    sizes: {the number of a drawing part, from 1: [(width, height) in pixels, or None to leave one
    as it is]}, in the order in which they stand in it.
    """
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(made, "w") as new:
        for info in old.infolist():
            part = old.read(info)
            if _PART.fullmatch(info.filename):
                number = int(re.sub(r"\D", "", info.filename.rsplit("/", 1)[1]))
                part = _anchored(part, sizes.get(number, ()))
            new.writestr(info, part, compress_type=info.compress_type)
    return made.getvalue()


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
