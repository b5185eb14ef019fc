"""A block whose numbers are recorded steps, and the same block as another table reads it."""

from ....cells.block import A_NUMBER, Block, key_of
from ....cells.mend import is_number
from ....geometry.vec import Vec

AXES = ("x", "y", "z")


class RecordedBlock(Block):
    """A block whose numbers are steps of the points' table.

    rows: the cells' present values. address: a function from the number of a row and of a
    column of the block to that cell's address in a formula of another sheet. table: the
    points' `Table`. Each row that is read adds to the recorder's `said` what is wrong with it.
    """

    def __init__(self, rows, address, table):
        super().__init__(rows)
        self.table = table
        self.address = address
        self.numbers = {}
        self._points = {}
        self._values = {}
        self._said = {}
        self.row_numbers = {
            key_of(row[0]): n for n, row in enumerate(rows) if isinstance(row[0], str)
        }

    def point(self, label):
        name, cells = self.point_cells(label)
        self.say(label, name, cells, AXES)
        if label not in self._points:
            self._points[label] = Vec(
                *(self._number_step(label, i, cells, AXES[i]) for i in range(3))
            )
        return self._points[label]

    def value(self, label):
        name, cells = self.cells_of(label)
        self.say(label, name, cells, ("the value",))
        if label not in self._values:
            self._values[label] = self._number_step(label, 0, cells)
        return self._values[label]

    def word(self, label, choices):
        # A word is read when the copy is made; one that is edited later must not pass.
        found = super().word(label, choices)
        if self.has(label):
            name, cells = self.cells_of(label)
            address = self.address(self.row_numbers[key_of(label)], 1)
            same = self.table.recorder.make("=", self.table.cell(address, cells[0]), cells[0])
            sentence = f"# {name}: this word was edited; make the copy anew to change it"
            self.table.recorder.said.append(self.table.recorder.where(same, "", sentence))
        return found

    def is_filled(self, label):
        # Whether a row is blank is read when the copy is made; one filled later must not pass.
        found = super().is_filled(label)
        if self.has(label) and not found:
            name, cells = self.cells_of(label)
            recorder, said = self.table.recorder, f"# {name}: this row was blank"
            sentence = recorder.step(said + "; make the copy anew to fill it")
            for place in range(3):
                address = self.address(self.row_numbers[key_of(label)], 1 + place)
                value = cells[place] if place < len(cells) else None
                same = recorder.make("=", self.table.cell(address, value), "")
                recorder.said.append(recorder.where(same, "", sentence))
        return found

    def _number_step(self, label, place, cells, axis=""):
        key = (key_of(label), place)
        heading = (f"{label} {axis}").strip()
        step = self.table.input(key, "Numbers of the block; #N/A where a cell holds none", heading)
        where = self.address(self.row_numbers[key[0]], 1 + place)
        value = cells[place] if place < len(cells) else None
        self.numbers[key] = (
            lambda: f"=IF(ISNUMBER({where}),{where},NA())",
            float(value) if is_number(value) else float("nan"),
        )
        return step

    def say(self, label, name, cells, axes):
        """Add what is wrong with a row: its name changed, or a cell that is no number."""
        key = label, axes
        if key not in self._said:
            self._said[key] = self._wrong_with(label, name, cells, axes)
        self.table.show(self._said[key], "What is wrong with a row", label)
        self.table.recorder.said.append(self._said[key])

    def _wrong_with(self, label, name, cells, axes):
        """The step of what is wrong with a row, an empty text for nothing."""
        recorder = self.table.recorder
        row = self.row_numbers[key_of(label)]
        named = self.table.cell(self.address(row, 0), name)
        same = recorder.make("=", named, name)
        sentences = [recorder.where(same, "", f'# the row "{label}" is missing')]
        sentences[0].label = ("What is wrong with a row", f"{label}, its name")
        for place, axis in enumerate(axes):
            value = cells[place] if place < len(cells) else None
            cell = self.table.cell(self.address(row, 1 + place), value)
            start = f"{name}: {axis} is "
            text = recorder.make(
                "&",
                recorder.make("&", f'# {start}"', cell),
                f'"; {A_NUMBER}',
            )
            empty = recorder.step(f"# {start}empty; a number was expected")
            wrong = recorder.where(recorder.make("=", cell, ""), empty, text)
            one = recorder.where(recorder.make("ISNUMBER", cell), "", wrong)
            one.label = ("What is wrong with a row", f"{label}, {axis}")
            sentences.append(one)
        return recorder.first_said(sentences)


class ImportedBlock(Block):
    """The block's numbers as another table reads them; what is wrong is said elsewhere.

    points: the block's `Points`. table: the `Table` that reads them.
    """

    def __init__(self, points, table):
        self._points = points
        self._table = table

    def has(self, label):
        return self._points.block.has(label)

    def has_rocker(self):
        return self._points.block.has_rocker()

    def word(self, label, choices):
        return self._points.block.word(label, choices)

    def point(self, label):
        return self._points.imported(self._table, self._points.block.point(label))

    def value(self, label):
        return self._points.imported(self._table, self._points.block.value(label))
