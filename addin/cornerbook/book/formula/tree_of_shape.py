"""The tree of a formula, made from that of its shape."""

from ..file.trouble import Trouble
from .shapes import blank, filled


def with_addresses(tree):
    """A function from a formula's addresses to its tree, made of that of its numbered shape.

    None where no address is in it. Raises `Trouble` where one stands in an array of constants, or
    before a function's name, as in A1:INDEX(B1:B9,2), which is not known here.
    """
    kind = tree[0]
    if kind in ("reference", "text"):
        taken = blank(tree[1])
        return taken and (lambda addresses: (kind, filled(taken, addresses)))
    if kind == "call":
        return _call(tree[1], tree[2])
    if kind == "infix":
        return _infixes(tree)
    if kind in ("prefix", "postfix"):
        sign, inner = tree[1], with_addresses(tree[2])
        return inner and (lambda addresses: (kind, sign, inner(addresses)))
    if kind == "rows" and any(
        isinstance(one, str) and blank(one) for row in tree[1] for one in row
    ):
        raise Trouble("an array's constants are not made anew")
    return None


def _call(name, arguments):
    if blank(name):
        raise Trouble("a function's name is not made anew")
    parts = [(one, one and with_addresses(one)) for one in arguments]
    if not any(make for _, make in parts):
        return None
    return lambda addresses: (
        "call", name, [one if make is None else make(addresses) for one, make in parts],
    )  # fmt: skip


def _infixes(tree):
    # A sum of thousands of terms leans to the left: it is gone along, not into.
    terms = []
    while tree[0] == "infix":
        terms.append((tree[1], tree[3], with_addresses(tree[3])))
        tree = tree[2]
    terms.reverse()
    first = with_addresses(tree)
    if first is None and not any(make for _, _, make in terms):
        return None

    def made(addresses):
        whole = tree if first is None else first(addresses)
        for sign, term, make in terms:
            whole = ("infix", sign, whole, term if make is None else make(addresses))
        return whole

    return made
