"""What stops a workbook from being made or read, in a sentence for the user."""


class Trouble(Exception):
    """Something for the user to mend: a file, a line, a key; the text says which."""


_LONGEST = 80
"""Letters that are shown of one of many names."""


def some_of(names, most):
    """So many names at most, for a sentence; of the others how many there are."""
    more = len(names) - most
    named = [n if len(n) <= _LONGEST else n[:_LONGEST] + "..." for n in names[:most]]
    return ", ".join(named) + (f" and {more} more" if more > 0 else "")
