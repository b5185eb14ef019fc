"""A drawing sheet to print: front, side and plan on A4 or A3, true to a scale that it names.

The corner as drawn, its points numbered, with running dimensions from the datum along each view and
a table of the same coordinates. Lengths on the page are millimetres of paper; `mm` is how many of
them there are in one unit of the block.
"""

from typing import NamedTuple

from ...cells.block import ACTUATION_POINTS, POINTS
from .captions import CAUTION
from .links import draw_wheel
from .looks import FAINT, INK, ROD
from .panel import TITLES
from .pen import Pen
from .running import run_along
from .scene import number_text
from .surroundings import draw_ground, draw_middle, draw_rack
from .view import VIEWS, View, line_up

PAPERS = {"A4": (297.0, 210.0), "A3": (420.0, 297.0)}
"""Width and height across, in mm (ISO 216)."""

SCALES = (1, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 40, 50, 100)
"""Of the car to the drawing: 1, 2, 5, 10 and so on after ISO 5455, and steps between."""

BAR = 100.0
"""A line of this length on paper, to see whether the printer kept to the scale."""

_EDGE, _BAND, _HEAD = 8.0, 13.0, 6.0
"""Free about the sheet; for dimensions beside and below a view; for its title above it."""

_TABLE, _LINE = 88.0, 3.3
"""How wide the table is, and how high a line of it."""

_LINKS = (("rod outer", "rod inner"), ("spring rocker", "spring frame"),
          ("rocker pivot", "rod inner"), ("rocker pivot", "spring rocker"))  # fmt: skip


class Point(NamedTuple):
    """A numbered point of the left-hand corner, where the block has it."""

    number: int
    name: str
    place: object


class Sheet:
    """What a sheet shows of a `Picture` as drawn, and how large.

    paper: a name of `PAPERS`. mm: in one unit of length. datum: (x, y, z) that dimensions run
    from. points: each `Point`. scale: how many times the car is larger.
    """

    def __init__(self, picture, paper, mm=1.0, datum=(0.0, 0.0, 0.0)):
        self.picture, self.paper, self.mm, self.datum = picture, paper, mm, datum
        block = picture.corner.block
        names = [name for name in (*POINTS, *ACTUATION_POINTS) if block.has(name)]
        self.points = [Point(i, name, block.point(name)) for i, name in enumerate(names, 1)]
        picture.more_points = lambda: [point.place for point in self.points]
        self.views = {name: View(name, picture, 0.02) for name in VIEWS}
        line_up(self.views)
        self.spans = {
            name: (abs(view.box[1] - view.box[0]) * mm, abs(view.box[3] - view.box[2]) * mm)
            for name, view in self.views.items()
        }
        self.scale = next((scale for scale in SCALES if self._fits(scale)), None)

    def text_height(self):
        """How high the words and the table are."""
        return 34.0 + _LINE * len(self.points)

    def _fits(self, scale):
        wide, high = PAPERS[self.paper]
        (front, low), (side, _), (_, plan) = (self.spans[name] for name in VIEWS)
        right = max(side / scale, _TABLE - _BAND)
        above = max(plan / scale + _BAND, self.text_height())
        return (
            2 * _EDGE + 2 * _BAND + front / scale + right <= wide
            and 2 * _EDGE + _BAND + 2 * _HEAD + low / scale + above <= high
        )

    def places(self):
        """{view: (left, bottom, width, height) of it, in mm of paper}, and those of the text."""
        size = {name: [part / self.scale for part in span] for name, span in self.spans.items()}
        left, low = _EDGE + _BAND, _EDGE + _BAND
        beside = left + size["front"][0] + _BAND
        above = low + size["front"][1] + _HEAD + _BAND
        return {
            "front": (left, low, *size["front"]),
            "side": (beside, low, *size["side"]),
            "plan": (left, above, *size["plan"]),
        }, (beside, PAPERS[self.paper][1] - _EDGE)


def figure_of_sheet(sheet):
    """The matplotlib figure of a `Sheet`; each drawn line has a gid, as of a picture."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    wide, high = PAPERS[sheet.paper]
    figure = Figure(figsize=(wide / 25.4, high / 25.4), dpi=150, facecolor="white")
    FigureCanvasAgg(figure)
    places, corner = sheet.places()
    for name, view in sheet.views.items():
        left, low, across, up = places[name]
        at = (left / wide, low / high, across / wide, up / high)
        _draw_view(figure.add_axes(at, label=name), view, sheet)
    _Words(figure, sheet).write(*corner)
    return figure


def _draw_view(axes, view, sheet):
    left, right, bottom, top = view.box
    axes.set_xlim(left, right)
    axes.set_ylim(bottom, top)
    axes.axis("off")
    axes.set_title(TITLES[view.name], fontsize=7, color=FAINT, loc="left", pad=4)
    pen = Pen(axes, view)
    draw_middle(pen)
    draw_ground(pen, sheet.picture.ground())
    numbers = {point.name: str(point.number) for point in sheet.points}
    for wheel in view.wheels:
        draw_wheel(pen, wheel, numbers)
        _draw_actuation(pen, wheel, sheet)
    draw_rack(pen)
    run_along(pen, sheet)
    pen.place_labels()


def _draw_actuation(pen, wheel, sheet):
    """Rod, rocker and spring, of a block that has them."""
    there = {point.name: point for point in sheet.points if point.name in ACTUATION_POINTS}
    springs_end = "spring rocker" if "spring rocker" in there else "rod outer"
    for one, other in (*_LINKS, (springs_end, "spring frame")):
        if one in there and other in there:
            ends = [there[name].place for name in (one, other)]
            part = f"{one}-{other}".replace(" ", "-")
            pen.line(wheel, part, ends, color=ROD, linewidth=1.2, zorder=4)
    for name, point in there.items():
        pen.line(wheel, name.replace(" ", "-"), (point.place,), color=INK, markersize=2.8,
                 marker="o", markerfacecolor="white", linestyle="none", zorder=6)  # fmt: skip
        if wheel.side == "left":
            pen.label(str(point.number), pen.view.at(wheel, point.place))


class _Words:
    """Writes what is beside the views. Places are in mm of paper from below and left."""

    def __init__(self, figure, sheet):
        self.figure, self.sheet = figure, sheet
        self.wide, self.high = PAPERS[sheet.paper]

    def write(self, left, top):
        """All of it, from its upper left corner down."""
        sheet, picture = self.sheet, self.sheet.picture
        self._text(left, top, picture.caption(), fontsize=10, weight="bold")
        scale = f"Scale 1 : {sheet.scale:g} on {sheet.paper}, printed at 100 %"
        self._text(left, top - 5.5, scale, fontsize=9, weight="bold")
        self._bar(left, top - 13.0)
        unit = {1.0: "mm", 10.0: "cm", 25.4: "in", 1000.0: "m"}.get(sheet.mm, "")
        datum = ", ".join(f"{part:g}" for part in sheet.datum)
        said = f"Lengths in {unit} from the datum, which is {datum} of the workbook:"
        self._text(left, top - 16.5, said)
        self._text(left, top - 19.8, "x forward, y left, z up. The right side is the mirror.")
        top -= 25.0
        ends = [left + x for x in (45.0, 60.0, 75.0)]
        for x, head in zip(ends, "xyz", strict=True):
            self._text(x, top, head, ha="right", color=FAINT)
        decimals = picture.decimals()
        for point in sheet.points:
            top -= _LINE
            self._text(left + 4.0, top, str(point.number), ha="right", weight="bold")
            self._text(left + 6.0, top, point.name)
            for x, value, zero in zip(ends, point.place, sheet.datum, strict=True):
                self._text(x, top, number_text(value - zero, decimals), ha="right")
        self._text(left, top - 5.0, CAUTION, style="italic")

    def _bar(self, left, at):
        from matplotlib.lines import Line2D

        ends = [left / self.wide, (left + BAR * _on(self.wide, left)) / self.wide]
        line = Line2D(ends, [at / self.high] * 2, color=INK, linewidth=1.0, marker="|",
                      markersize=6, transform=self.figure.transFigure)  # fmt: skip
        line.set_gid("bar")
        self.figure.add_artist(line)
        length = BAR * _on(self.wide, left)
        self._text(left, at + 4.0, f"This line is {length:g} mm long on paper.")

    def _text(self, x, y, words, **looks):
        looks = {"color": INK, "fontsize": 7, "va": "top", **looks}
        self.figure.text(x / self.wide, y / self.high, words, **looks)


def _on(wide, left):
    """Which part of the bar there is room for."""
    return 1.0 if left + BAR + _EDGE <= wide else 0.5
