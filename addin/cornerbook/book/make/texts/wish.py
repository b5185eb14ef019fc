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


def ends_of(value):
    """{end: what is given for it} of a wish in any of its forms; None for what is none of them.

    A table of some of `ENDS`, a list [from, to], or the aim alone.
    """
    if isinstance(value, dict):
        return value
    if isinstance(value, list):
        return dict(zip(("from", "to"), value, strict=True)) if len(value) == 2 else None
    return {"aim": value}
