"""A Python function for each formula of the catalogue, registered with xlwings."""

import inspect

from ...catalogue import FORMULAS, call
from .cells import READ, raw_value, shown_value
from .names import function_name, parameter_name, shown

LONGEST = 255
"""Of a help text, in characters: Excel takes no more for a VBA function, and what is longer
would be cut in the middle of a word."""


def registered(xlwings, options, classic=False):
    """{Python name: function} for the whole catalogue, in its order.

    xlwings: what has the decorators `func` and `arg`. options: a function of a formula that
    gives the keywords for `func`. classic: whether names are written without a dot.
    """
    found = {}
    for formula in FORMULAS.values():
        function = function_of(formula, classic)
        for argument in formula.arguments:
            help = fitting(argument.help) if classic else argument.help
            function = xlwings.arg(parameter_name(argument.name), doc=help, **READ)(function)
        found[function.__name__] = xlwings.func(**options(formula))(function)
    return found


def function_of(formula, classic=False):
    """A function with the formula's own arguments, for `xlwings.func` to look at."""
    name = formula.name

    def function(*raw):
        try:
            return shown_value(call(name, *map(raw_value, raw)))
        except Exception as problem:  # an exception would be a bare #VALUE! in the cell
            return (
                f"# {shown(name, classic)} met a fault of its own ({type(problem).__name__}: "
                f"{problem}); please report it"
            )

    function.__name__ = function.__qualname__ = function_name(name)
    function.__doc__ = fitting(formula.sentence) if classic else formula.sentence
    # xlwings reads names and defaults from here. None is what an argument that is left out
    # becomes; the catalogue then puts its own default in its place.
    function.__signature__ = inspect.Signature(
        [
            inspect.Parameter(
                parameter_name(argument.name),
                inspect.Parameter.POSITIONAL_OR_KEYWORD,
                default=inspect.Parameter.empty if argument.required else None,
            )
            for argument in formula.arguments
        ]
    )
    return function


def fitting(text, longest=LONGEST):
    """As many whole sentences of a text as fit; where none does, its beginning."""
    if len(text) <= longest:
        return text
    end = text.rfind(". ", 0, longest) + 1
    return text[:end] if end else text[: longest - 3].rsplit(" ", 1)[0] + "..."


def load_xlwings():
    """The xlwings package; raises ImportError with what to do where it is missing."""
    try:
        import xlwings
    except ImportError as problem:
        raise ImportError(
            'xlwings is missing; install it with: pip install "cornerbook[excel]"'
        ) from problem
    return xlwings
