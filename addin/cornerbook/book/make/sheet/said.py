"""How a sentence in a cell begins and ends, and how it shows cells."""

NONE, EXPECTED = "# no number comes of ", ": a number was expected"
"""How what is said begins, or ends."""


def shown_as(reference):
    """Cells as a sentence shows them."""
    return reference.replace("$", "").replace("'", "")
