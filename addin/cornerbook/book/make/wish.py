"""A wish: what a measure is to be, from and to, and the aim between them."""

WANTED, TARGET = "wanted", "target"
"""The table of a scenario in which wishes stand, and the one in which bands stood before."""

ENDS = ("from", "aim", "to")
"""What a wish may say; what it leaves out is no limit."""


def name_of_wish(key):
    """A wish's own name: that of a band as older templates wrote it, "target.trail", is trail."""
    table, dot, name = key.partition(".")
    return name if dot and table in (WANTED, TARGET) else key


def keys_of_wish(key):
    """The keys of a scenario that may hold a wish."""
    name = name_of_wish(key)
    return f"{WANTED}.{name}", f"{TARGET}.{name}"
