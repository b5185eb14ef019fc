"""Results side by side: what a formula gives that fills more than one cell."""

from .tables import Table


class Spread(Table):
    """A block of cells that each show a result of another table. headings: of its columns."""

    def __init__(self, title, headings):
        super().__init__(title)
        for column, heading in enumerate(headings):
            self.show(self.input(column, "Results", heading))

    def add(self, cells):
        """Add a row. cells: (formula, value) for each column; see `Place.cell`."""
        self.rows.append(dict(enumerate(cells)))
        for step in self.shown:
            self.want(step, len(self.rows) - 1)
