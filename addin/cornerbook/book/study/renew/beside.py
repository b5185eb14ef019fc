"""What a user put on sheets of ours beside the yellow cells, which nothing carries over."""

from ...file.trouble import some_of

NAMED = 8
"""How many cells a sentence names."""

ORIGINS = "Where these numbers come from"
"""The heading of rows that stand in a workbook of few numbers alone."""


def left_beside(old, new, own):
    """Sentences on texts, numbers and charts that stand on sheets of ours in the old workbook
    alone. old, new: the `Package`s, of one version; own: the user's own sheets."""
    there = {name.lower(): name for name in new.sheets}
    cells, said = [], []
    for sheet in old.sheets:
        if sheet in own or sheet.lower() not in there:
            continue
        name = there[sheet.lower()]
        contents, now = old.cells(sheet), new.cells(name)
        texts = {content.value for content in now.values()}
        open_ = set(old.inputs(sheet))
        if not any(content.value == ORIGINS for content in contents.values()):
            cells += [
                f"{sheet}!{address}"
                for address, content in contents.items()
                if address not in now and address not in open_ and content.value not in texts
                and content.in_array is None
            ]  # fmt: skip
        more = len(old.charts(sheet)) - len(new.charts(name))
        if more > 0:
            said.append(f"{sheet}: {more} of the charts there are of yours and did not come along.")
    if cells:
        said.append(
            "Of yours on sheets of ours, and not carried over; put it on a sheet of your own: "
            f"{some_of(cells, NAMED)}."
        )
    return said
