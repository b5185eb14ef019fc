"""What makes two numbers of a workbook the same, whatever is typed into its cells.

A number is a sum: a constant, and cells (or texts of formulas) times factors. So half of a
travel is the same however a sheet has worked it out.
"""

from typing import Any, NamedTuple

_DIGITS = 12  # factors that differ by rounding are the same


class Amount(NamedTuple):
    """constant: a float. parts: (text of a cell or formula, factor), in order."""

    constant: Any
    parts: tuple

    def plus(self, other):
        """The sum of two."""
        factors = dict(self.parts)
        for text, factor in other.parts:
            factors[text] = factors.get(text, 0.0) + factor
        return _made(self.constant + other.constant, factors)

    def times(self, factor):
        """The product with a plain number."""
        return _made(self.constant * factor, {text: f * factor for text, f in self.parts})

    def minus(self, other):
        """The difference of two."""
        return self.plus(other.times(-1.0))

    def product(self, other):
        """The product with another one; None where neither is a plain number."""
        if not other.parts:
            return self.times(other.constant)
        return None if self.parts else other.times(self.constant)

    def quotient(self, other):
        """The quotient by another one; None where that is no plain number, or 0."""
        return None if other.parts or not other.constant else self.times(1.0 / other.constant)

    @property
    def bare(self):
        """The same without cells times nothing, which count only while one is no number."""
        return Amount(self.constant, tuple(part for part in self.parts if part[1]))

    def asked(self, other):
        """The same amount where it is asked first whether a cell is a number, the amount other."""
        ((cell, _),) = other.parts
        parts = ((_ASKED + text if text == cell else text, f) for text, f in self.parts)
        return Amount(self.constant, tuple(sorted(parts)))

    def stands_on(self, other):
        """Whether it is asked of it whether a cell is a number, the amount other."""
        ((cell, _),) = other.parts
        return any(text == _ASKED + cell for text, _ in self.parts)


_ASKED = "asked: "


def amount_of(text):
    """The amount that a cell or the text of a formula is."""
    return Amount(0.0, ((text, 1.0),))


def plain(number):
    """The amount that a plain number is."""
    return _made(number, {})


def _made(constant, factors):
    # A cell times nothing is kept: while it holds a text, the sum is no number.
    parts = sorted((text, _rounded(factor)) for text, factor in factors.items())
    return Amount(_rounded(constant), tuple(parts))


def _rounded(number):
    return float(f"{number:.{_DIGITS}g}") + 0.0  # no -0
