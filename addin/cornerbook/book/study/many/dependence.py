"""Which cells of a workbook differ from car to car."""


class Dependence:
    """Which cells differ from car to car, because they are spread or worked out from such.

    trees: the `Trees` of the workbook. spread: the cells, as (sheet, address), that are given
    for each car.
    """

    def __init__(self, trees, spread):
        self.trees = trees
        self.spread = frozenset(spread)
        self._differing = dict.fromkeys(self.spread, True)
        self._before = {}

    def differs(self, cell):
        """Whether a cell is spread, or worked out from one that is, or may be."""
        if cell in self._differing:
            return self._differing[cell]
        entered, waiting = set(), [cell]
        while waiting:
            here = waiting[-1]
            if here in self._differing:
                waiting.pop()
                continue
            reads, hidden = self.trees.reads(here)
            if here not in entered:
                entered.add(here)
                # A circle adds nothing.
                waiting.extend(c for c in reads if c not in self._differing and c not in entered)
                continue
            self._differing[here] = (hidden and bool(self.spread)) or any(
                self._differing.get(other, False) for other in reads
            )
        return self._differing[cell]

    def before(self, cell):
        """Cells that differ from car to car, to be worked out before another that does."""
        if cell not in self._before:
            reads = () if cell in self.spread else self.trees.surely_reads(cell)
            self._before[cell] = [other for other in reads if self.differs(other)]
        return self._before[cell]
