"""Blocks of words: a sheet's title, and paragraphs."""

from ..sheet.declare import LIST, TEXT, block_kind, needed


@block_kind("title", {"text": needed(TEXT), "below": TEXT})
def title(page, block):
    """A sheet's title, and a sentence below it."""
    page.line(page.filled(block["text"]), "title")
    if block.get("below"):
        page.line(page.filled(block["below"]), "below")


@block_kind("text", {"lines": needed(LIST), "look": TEXT})
def text(page, block):
    """Paragraphs, one a row, in the look of a text, a caution or an aside."""
    look = block.get("look", "text")
    if look not in ("text", "caution", "aside"):
        raise page.trouble(f'the look "{look}" is not known; text, caution or aside', "look")
    for line in block["lines"]:
        page.line(page.filled(str(line)), look)
