"""What is known of the cells that a formula reads: numbers, or in doubt, by what it asks itself."""

from ...formula.parse import nodes
from ...formula.spell import spelt

_ASKING = frozenset(("ISNUMBER", "COUNT", "N"))
"""Functions that ask whether what they are given is a number."""

_OTHERWISE = frozenset(("OR", "NOT", "XOR"))
"""With these in a condition, what it asks about need not be so where it is true."""


def key_of(tree):
    """What makes two operands the same."""
    return spelt(tree).replace("$", "").lower()


class Known:
    """What is known of operands at a place in a formula: `numbers` are such, `doubted` may be."""

    def __init__(self, numbers=(), doubted=()):
        self.numbers = frozenset(numbers)
        self.doubted = frozenset(doubted)

    def and_numbers(self, keys):
        """The same, and these are numbers."""
        keys = frozenset(keys)
        return Known(self.numbers | keys, self.doubted - keys)

    def and_doubted(self, keys):
        """The same, and of these is known that they may be no numbers."""
        return Known(self.numbers, self.doubted | (frozenset(keys) - self.numbers))


def asked_by(condition):
    """(keys that are numbers where a condition holds, keys of what it asks about) of its tree."""
    asked, compared, turned = set(), set(), False
    for node in nodes(condition):
        if node[0] == "call":
            turned = turned or node[1] in _OTHERWISE
            if node[1] in _ASKING:
                asked.update(key_of(part) for part in node[2] if part is not None)
            elif node[1] in ("ISTEXT", "ISBLANK"):
                compared.update(map(key_of, node[2]))
        elif node[0] == "infix" and node[1] in ("=", "<>"):
            for one, other in (node[2:], node[:1:-1]):
                if other == ("text", ""):
                    compared.add(key_of(one))
    return (set() if turned else asked), asked | compared
