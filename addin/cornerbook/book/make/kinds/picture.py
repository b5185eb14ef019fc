"""A block that shows a picture from the folder of pictures."""

from ..declare import NUMBER, TEXT, block_kind, needed
from ..model import Picture


@block_kind(
    "picture",
    {"file": needed(TEXT), "width": needed(NUMBER), "rows": needed(NUMBER), "alt": needed(TEXT)},
)
def picture(page, block):
    """A picture over some rows, scaled to a width in pixels."""
    path = page.pictures / block["file"] if page.pictures else None
    if path is None or not path.is_file():
        raise page.trouble(f'there is no picture "{block["file"]}"', "file")
    page.sheet.pictures.append(
        Picture(
            block["file"], path.read_bytes(), (page.row, 0), int(block["rows"]),
            block["width"], block["alt"],
        )
    )  # fmt: skip
    page.row += int(block["rows"])
