"""How a formula is declared: once, with all that any host or page needs to know.

A formula is one function with `@formula(...)` above it. The Calc extension, the
Excel module, the function list in the workbook, the self-check page and the tests
are all made from what is declared here.
"""

import typing

from .mend import shown


class Argument:
    """One argument of a formula.

    name: as the user sees it, in lower case with underscores.
    kind: 'block' (a labelled block of cells), 'number', 'whole' (a whole number),
        'text', 'names' (a text with commas, or cells that hold one name each), 'cells'
        (cells of numbers, row by row), 'gaps' (such cells of which some may be empty: None),
        'labels' (cells of texts, '' for an empty one), 'any' (cells as they are, None for an
        empty one, which the formula judges itself), or 'rows' (a range of rows, blank ones
        being nothing).
    help: one sentence for the function wizard.
    unit: 'length', 'angle' (degrees), 'count', 'share', 'ratio', 'force', 'force per length'
        and other words that say it, or '' where it has none.
    default: the value when the argument is left out; `REQUIRED` if it may not be.
    above, below: the limits of a number, where it has any, themselves not allowed.
    choices: the accepted words of a text, where they are few.
    columns: of rows, the `Column`s of numbers; named: whether a column of names stands before;
        blank: whether no row need have a number; of other cells, whether all may be empty.
    """

    __slots__ = (
        "name", "kind", "help", "unit", "default", "above", "below", "choices", "columns", "named",
        "blank",
    )  # fmt: skip

    def __init__(
        self, name, kind, help, unit="", default=None, above=None, below=None, choices=(),
        columns=(), named=False, blank=False,
    ):  # fmt: skip
        self.name = name
        self.kind = kind
        self.help = help
        self.unit = unit
        self.default = REQUIRED if default is None else default
        self.above = above
        self.below = below
        self.choices = tuple(choices)
        self.columns = tuple(columns)
        self.named = named
        self.blank = blank

    @property
    def required(self):
        """Whether the argument must be given."""
        return self.default is REQUIRED

    @property
    def between(self):
        """The limits in words, such as 'above 0'."""
        if self.above is None:
            return f"below {shown(self.below)}"
        if self.below is None:
            return f"above {shown(self.above)}"
        return f"between {shown(self.above)} and {shown(self.below)}"

    def but(self, **changes):
        """The same argument with some of its description changed."""
        described = {key: getattr(self, key) for key in self.__slots__}
        if described["default"] is REQUIRED:
            described["default"] = None
        described.update(changes)
        return Argument(**described)


class _Required:
    def __repr__(self):
        return "REQUIRED"


REQUIRED = _Required()


class Formula:
    """One formula of the catalogue; the fields are those that `formula` takes."""

    __slots__ = (
        "name", "group", "arguments", "unit", "positive", "help",
        "source", "example", "check", "shape", "function", "why", "beyond", "plain",
    )  # fmt: skip

    def __init__(self, **fields):
        for key in self.__slots__:
            setattr(self, key, fields[key])

    @property
    def signature(self):
        """The call as a user types it, optional arguments in square brackets."""
        words = [a.name if a.required else f"[{a.name}]" for a in self.arguments]
        return f"CORNER.{self.name}({', '.join(words)})"

    @property
    def sentence(self):
        """The help with the unit and the sign, as shown in a function list."""
        parts = [self.help]
        if self.unit == "length":
            parts.append("Unit: that of the lengths given.")
        elif self.unit:
            parts.append(f"Unit: {self.unit}.")
        if self.positive:
            parts.append(f"Positive when {self.positive}.")
        return " ".join(parts)


FORMULAS: typing.Dict[str, Formula] = {}
"""Every formula by its name, in the order of declaration."""


def formula(
    name,
    group,
    arguments,
    help,
    source,
    example,
    check,
    unit="",
    positive="",
    shape="number",
    why=None,
    beyond="no solution was found at this travel and rack",
    plain=True,
):
    """Declare the function below as the formula `CORNER.name`.

    name: capitals, digits and underscores, as typed in a cell.
    group: the subject, a heading in the function list.
    arguments: the `Argument`s in order; the function takes them by position.
    help: one sentence on what it gives.
    source: the standard, book or derivation that it follows.
    example: a call with the namespace, as `=CORNER.TRAIL(Example)`; `Example` is
        the fixed corner of `cells/example.py`.
    check: what the example gives; a test holds it to an independent computation.
    unit: of the result. positive: what a positive result means.
    shape: 'number', 'text' or 'table'.
    why: for good arguments whose result has no real value, a function of the same
        arguments that says in a sentence what to mend.
    beyond: the same in a fixed sentence, for copies that cannot look for the limits.
    plain: whether the copy without an add-in can work it out in plain formulas.
    """

    def declare(function):
        if name in FORMULAS:
            raise ValueError(f"the formula {name} is declared twice")
        FORMULAS[name] = Formula(
            name=name, group=group, arguments=tuple(arguments), unit=unit,
            positive=positive, help=help, source=source, example=example,
            check=check, shape=shape, function=function, why=why, beyond=beyond,
            plain=plain,
        )  # fmt: skip
        return function

    return declare
