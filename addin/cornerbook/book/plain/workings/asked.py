"""Numbers that a row of the workings asks for, and what makes two of them the same."""

from collections.abc import Callable
from typing import Any, NamedTuple

from ..recorded.work import evaluated
from .amount import amount_of, plain


class Asked(NamedTuple):
    """A number that a row asks for.

    formula: a function for its text, '=' included, called once all is placed. value: what it
    is now. key: the `Amount`, which equal numbers share. literal: whether it is typed in a call
    itself, so that its cell needs no formula.
    """

    formula: Callable
    value: Any
    key: Any
    literal: bool = False

    @property
    def cell(self):
        """(formula, value) as the row of a `Table` has it."""
        return None if self.literal else self.formula, self.value


def worked_out(step, arguments):
    """The `Asked` for a step that is made of a call's arguments, sums and products.

    arguments: an `Asked` by name; the step's inputs are these names. Raises
    NotImplementedError for other work.
    """
    text = _text(step, arguments)
    value = evaluated(step, lambda what: arguments[what[1]].value, {})

    def formula():
        """A call's argument that is no number stands in place of what is made of it."""
        shown = text(False)
        made_of = _names(step) if step.parts else ()
        given = [arguments[name].formula()[1:] for name in made_of]
        for one in reversed(list(dict.fromkeys(given))):
            shown = f"IF(ISNUMBER({one}),{shown},{one})"
        return "=" + shown

    literal = all(arguments[name].literal for name in _names(step))
    return Asked(formula, value, _key(step, arguments), literal)


def _names(step):
    """The names of the arguments of which a step is made."""
    if step.kind == "input":
        yield step.what[1]
    for part in step.parts:
        yield from _names(part)


def _text(step, arguments):
    """A function for the text of a step with the call's own arguments put in.

    The function takes whether the text stands within another one and wants brackets.
    """
    if step.kind == "constant":
        return lambda inside: f"{step.what:.15g}"
    if step.kind == "input":
        return lambda inside: ("(%s)" if inside else "%s") % arguments[step.what[1]].formula()[1:]
    parts = [_text(part, arguments) for part in step.parts]
    if step.kind == "minus":
        return lambda inside: ("(-%s)" if inside else "-%s") % parts[0](True)
    if step.kind in ("+", "-", "*", "/"):

        def text(inside):
            whole = parts[0](True) + step.kind + parts[1](True)
            return f"({whole})" if inside else whole

        return text
    raise NotImplementedError("a pose is asked for by more than sums and products of arguments")


def _key(step, arguments):
    """The `Amount` of a step."""
    if step.kind == "constant":
        return plain(step.what)
    if step.kind == "input":
        return arguments[step.what[1]].key
    first, *others = [_key(part, arguments) for part in step.parts]
    if step.kind == "minus":
        return first.times(-1.0)
    (second,) = others
    if step.kind == "+":
        return first.plus(second)
    if step.kind == "-":
        return first.minus(second)
    found = first.product(second) if step.kind == "*" else first.quotient(second)
    return found or amount_of(f"{first}{step.kind}{second}")
