"""The text of a picture: the pose, the wheels' measures, and what the picture is not."""

from .looks import FAINT, INK, LOWER, PULL, PUSH, ROD, UPPER
from .scene import number_text

CAUTION = "Geometry only: no check of strength."
CAUTION_OF_FORCES = "Forces under stated assumptions: no check of strength."

UNITS = "Lengths in the unit of the block, at one scale throughout."

_LETTERS = 100
"""In one row below a single view."""

_LEGEND = (("lower arm", LOWER), ("upper arm", UPPER), ("tie rod, steering axis", ROD))
_OF_FORCES = (("pull", PULL), ("push", PUSH))


class Captions:
    """Writes the text of a picture on its figure. Places are in inches from below and left."""

    def __init__(self, figure, picture):
        self.figure = figure
        self.picture = picture
        self.size = figure.get_size_inches()
        forces = picture.forces is not None
        self.legend = _OF_FORCES if forces else _LEGEND
        self.caution = CAUTION_OF_FORCES if forces else CAUTION
        self.heads = [wheel.side for wheel in picture.wheels] if picture.both else []
        self.lines = [
            (name, [number_text(value, decimals, mark) for value in values])
            for name, mark, decimals, values in picture.measures()
        ]

    def beside(self, left, top):
        """A table with a legend below it, for the corner that three views leave free."""
        self._text(left, top, self.picture.caption(), fontsize=11, color=INK, weight="bold")
        self._text(left, top - 0.28, self.picture.axes_said(), color=FAINT)
        y = top - 0.62
        for column, head in enumerate(self.heads):
            self._text(left + 1.9 + 0.7 * column, y, head, color=FAINT, ha="right")
        for name, values in self.lines:
            y -= 0.19
            self._text(left, y, name, color=INK)
            for column, value in enumerate(values):
                self._text(left + 1.9 + 0.7 * column, y, value, color=INK, ha="right")
        y -= 0.36
        for name, colour in self.legend:
            self._text(left, y, name, color=colour, weight="bold")
            y -= 0.19
        self._text(left, y - 0.1, self.caution, color=FAINT, style="italic")
        self._text(left, y - 0.29, UNITS, color=FAINT, style="italic")

    def below(self, left, top):
        """Rows of running text, for the strip below a single view."""
        head = self.picture.caption() + ", " + self.picture.axes_said()
        self._text(left, top, head, color=INK, weight="bold", fontsize=8.5)
        said = [f"{name} {' | '.join(values)}" for name, values in self.lines]
        if self.heads:
            said.insert(0, "left | right")
        row = ""
        y = top - 0.24
        for each in said:
            if len(row) + len(each) > _LETTERS:
                self._text(left, y, row, color=INK)
                row, y = "", y - 0.18
            row += each + "   "
        self._text(left, y, row, color=INK)
        self._text(left, top - 0.62, self.caution + " " + UNITS, color=FAINT, style="italic")

    def _text(self, x, y, words, **looks):
        wide, high = self.size
        self.figure.text(x / wide, y / high, words, va="top", **looks)
