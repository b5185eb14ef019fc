"""A block that shows a picture from the folder of pictures."""

from ..sheet.declare import NUMBER, TEXT, block_kind, count_of, needed
from ..sheet.model import Picture

_PNG = b"\x89PNG\r\n\x1a\n"


@block_kind(
    "picture",
    {
        "file": needed(TEXT),
        "width": needed(NUMBER),
        "rows": needed(count_of(200)),
        "alt": needed(TEXT),
    },
)
def picture(page, block):
    """A picture over some rows, scaled to a width in pixels."""
    try:
        content = (page.pictures / block["file"]).read_bytes() if page.pictures else b""
    except (OSError, ValueError):
        content = b""
    if not content:
        raise page.trouble(f'there is no picture "{block["file"]}"', "file")
    if not content.startswith(_PNG):
        raise page.trouble(f'the picture "{block["file"]}" is no PNG', "file")
    page.sheet.pictures.append(
        Picture(
            block["file"], content, (page.row, 0), int(block["rows"]), block["width"], block["alt"]
        )
    )
    page.row += int(block["rows"])
