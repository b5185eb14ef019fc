"""How a kind of block is declared: once, with all that a template may say in it.

A kind is one function with `@block_kind(...)` above it, in a file of `kinds/`. The function puts
such a block on a page; templates are checked against what is declared here.
"""

from ..texts import units

# ---------------------------------------------------------------- what a key holds


class Field:
    """What one key of a block, or of a row within it, holds.

    holds: the kind of value as `text_files.kind_name` calls it; None for any.
    required: whether the key must be given. among: the accepted words of a text, where they
    are few. each: for a list, the `Row` or `Field` that every one of its items must be.
    least, most: the limits of a number, where it has any; whole: whether it counts something.
    form: (a regular expression, words) of a text that must look like something.
    """

    __slots__ = ("holds", "required", "among", "each", "least", "most", "whole", "form")

    def __init__(
        self, holds, required=False, among=(), each=None, least=None, most=None, whole=False,
        form=None,
    ):  # fmt: skip
        self.holds = holds
        self.required = required
        self.among = tuple(among)
        self.each = each
        self.least = least
        self.most = most
        self.whole = whole
        self.form = form

    def but(self, **changes):
        """The same field with some of it changed."""
        return Field(**{**{key: getattr(self, key) for key in self.__slots__}, **changes})


class Row:
    """What an item of a list holds, where it is a table of keys such as { label = ..., ... }.

    what: 'row' or 'column', for messages. named_by: the key whose value names it there.
    fields: {key: `Field`}. one_of: keys of which exactly one must be given. check: a function
    of a row whose keys are as declared, for what fields cannot say one by one: it gives a key,
    "the value" or whatever is wrong there, and words that follow 'the value of the row "..."'.
    """

    __slots__ = ("what", "named_by", "fields", "one_of", "check")

    def __init__(self, what, named_by, fields, one_of=(), check=None):
        self.what = what
        self.named_by = named_by
        self.fields = fields
        self.one_of = tuple(one_of)
        self.check = check

    @property
    def shown(self):
        """How one is written: its required keys where all but one are, else what names it."""
        keys = [key for key, field in self.fields.items() if field.required]
        if len(keys) >= len(self.fields) - 1:
            return "{ %s }" % ", ".join(f"{key} = ..." for key in keys)
        return "{ %s = ..., ... }" % self.named_by


TEXT = Field("a text")
NUMBER = Field("a number")
TRUTH = Field("true or false")
LIST = Field("a list in square brackets")
ANYTHING = Field(None)
PIXELS = NUMBER.but(least=20, most=4000)
"""How wide or high a picture or a chart is."""
QUANTITY = Field("a text", among=units.KINDS)
"""The kind of quantity that a cell shows, such as length or angle."""


def needed(field):
    """The same field, as one that must be given."""
    return field.but(required=True)


def count_of(most, least=1):
    """A number that counts something."""
    return NUMBER.but(least=least, most=most, whole=True)


def list_of(each):
    """A list, every item of which is this `Row` or `Field`."""
    return Field(LIST.holds, each=each)


# ---------------------------------------------------------------- kinds of block


class Kind:
    """One kind of block; the fields are those that `block_kind` takes, and the function."""

    __slots__ = ("name", "fields", "check", "place", "late")

    def __init__(self, name, fields, check, place, late):
        self.name = name
        self.fields = fields
        self.check = check
        self.place = place
        self.late = late


KINDS: dict[str, Kind] = {}
"""Every kind of block by its name, filled as the files of `kinds/` are imported."""

ANY_BLOCK = {
    "kind": TEXT, "heading": TEXT, "note": TEXT, "on_screen": TRUTH,
    "right_of": NUMBER.but(least=1, most=99, whole=True),
}  # fmt: skip
"""What a block of any kind may hold."""


def block_kind(name, fields, check=None, late=False):
    """Declare the function below as what places a block of a kind.

    The function takes (page, block): the `Page` that is being filled and the block's own
    keys, checked. It puts cells from `page.row` on and leaves `page.row` at the first row
    below them; `page.trouble(message, word)` is what it raises for a mistake in the block.

    name: as a template says it, kind = "...".
    fields: {key: `Field`} besides those of `ANY_BLOCK`.
    check: a function of (block, trouble) for what fields cannot say one by one; it raises
        trouble(message, word), which names the line of the template where the word stands.
    late: it shows what stands on any sheet, above or below: it is placed once all else is, and
        so is what follows it on its sheet.
    """

    def declare(function):
        if name in KINDS:
            raise ValueError(f"the kind of block {name} is declared twice")
        KINDS[name] = Kind(name, {**ANY_BLOCK, **fields}, check, function, late)
        return function

    return declare
