"""Cells worked out each after those that it reads, however long their chain is."""


class Needed(Exception):
    """Cells that are not known yet were asked for, all of them by one formula."""

    def __init__(self, *cells):
        super().__init__(*cells)
        self.cells = cells


def ask_for(cells):
    """Ask for some cells, all at once: one by one, a formula that reads a long range would begin
    anew for each."""
    cells = tuple(cells)
    if cells:
        raise Needed(*cells)


def work_out(cell, known, reads, make, circle):
    """Find the value of a cell, and of every cell that it needs.

    known: {cell: value}, which is added to. reads: a function from a cell to those that its
    formula names, to be worked out before it where they can. make: from a cell to its value;
    raises `Needed` for one that is not known. circle: from a cell that needs its own result to
    its value. Nothing nests, so that a chain of thousands of cells is well.
    """
    waiting, entered, asking = [cell], set(), set()
    while waiting:
        here = waiting[-1]
        if here in known:
            waiting.pop()
        elif here not in entered:
            entered.add(here)
            waiting.extend(c for c in reads(here) if c not in known and c not in entered)
        else:
            try:
                known[here] = make(here)
            except Needed as needed:
                # A branch that is not taken may name this very cell: only one that is asked
                # for on the way to itself goes in a circle.
                asking.add(here)
                if asking.isdisjoint(needed.cells):
                    waiting.extend(reversed(needed.cells))
                else:
                    known[here] = circle(here)
            asking.discard(here) if here in known else None
    return known[cell]
