"""Pictures of a corner or an axle: front, side and plan view to one scale, PNG or SVG.

The front view is seen from ahead of the car, so its left-hand wheel is on the right; the plan
stands above it and the side view, of the left side, to its right, as in third-angle
projection. matplotlib does the drawing and is imported only here.
"""

import io

from ...geometry import outline
from ..file.trouble import Trouble
from .labels import Placer, merged
from .scene import INSTANT, MINUS

VIEWS = ("front", "side", "plan")

INK, FAINT, PALE = "#2B3640", "#6C7884", "#D5DBE1"
LOWER, UPPER, ROD = "#2F5D8A", "#6F97BE", "#A8473B"
BODY = "#9AA5B1"
CAUTION = "Geometry only: no check of strength."

UNITS = "Lengths in the unit of the block, at one scale throughout."

AROUND = 120
"""Points along a rim."""

_LETTERS = 100
"""In one row below a single view."""

_INCHES = {"all": 13.0, "front": 9.0, "side": 9.0, "plan": 9.0}
_TITLES = {
    "front": "Front view, from ahead: the car's left is on the right",
    "side": "Side view of the left side: forward is to the left",
    "plan": "Plan view: forward is down",
}
_POINTS = (
    ("lower ball joint", lambda w: w.pose.lower),
    ("upper ball joint", lambda w: w.pose.upper),
    ("lower front pickup", lambda w: w.frame.lower_front),
    ("lower rear pickup", lambda w: w.frame.lower_rear),
    ("upper front pickup", lambda w: w.frame.upper_front),
    ("upper rear pickup", lambda w: w.frame.upper_rear),
    ("tie rod outer", lambda w: w.pose.tie_outer),
    ("tie rod inner", lambda w: w.pose.tie_inner),
    ("wheel centre", lambda w: w.pose.wheel_centre),
    ("contact centre", lambda w: w.pose.contact_centre()),
    ("axis at ground", lambda w: w.pose.axis_at_ground()),
)
_ACROSS = {
    "front": lambda p: (p.y, p.z),
    "side": lambda p: (p.x, p.z),
    "plan": lambda p: (p.y, p.x),
}


def draw(picture, view="all", kind="png"):
    """The bytes of a picture. view: front, side, plan or all. kind: png or svg."""
    matplotlib = _matplotlib()
    settings = {
        "svg.hashsalt": "cornerbook",
        "svg.fonttype": "none",
        "font.family": ["DejaVu Sans", "sans-serif"],
        "font.size": 7.5,
        "axes.linewidth": 0.6,
    }
    # A picture is the same file each time it is made.
    about = {"Software": None} if kind == "png" else {"Date": None, "Creator": "cornerbook"}
    with matplotlib.rc_context(settings):
        figure = figure_of(picture, view)
        content = io.BytesIO()
        figure.savefig(content, format=kind, dpi=150, metadata=about)
    return content.getvalue()


def _matplotlib():
    try:
        import matplotlib
    except ImportError as error:
        raise Trouble(
            "pictures need the package matplotlib; install it with: pip install matplotlib"
        ) from error
    return matplotlib


def figure_of(picture, view="all"):
    """The matplotlib figure; each drawn line has a gid such as "front-left-tie-rod"."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    views = VIEWS if view == "all" else (view,)
    panels = {name: _Panel(name, picture) for name in views}
    _line_up(panels)
    places, size = _layout(view, {name: panel.box for name, panel in panels.items()})
    figure = Figure(figsize=size, dpi=100, facecolor="white")
    FigureCanvasAgg(figure)
    for name, panel in panels.items():
        panel.draw(figure.add_axes(places[name], label=name))
    _captions(figure, picture, view, places["beside"])
    return figure


def _line_up(panels):
    """Give views beside each other the same heights, and those above each other the same sides."""
    if len(panels) < 2:
        return
    front, side, plan = (panels[name] for name in VIEWS)
    left, right = (pick(front.box[i], plan.box[i]) for i, pick in ((0, min), (1, max)))
    low, high = (pick(front.box[i], side.box[i]) for i, pick in ((2, min), (3, max)))
    front.box = (left, right, low, high)
    plan.box = (left, right, *plan.box[2:])
    side.box = (*side.box[:2], low, high)


def _layout(view, limits):
    """({view: place of its axes, "beside": (left, top) of the text}, figure size in inches)."""
    spans = {name: (abs(b - a), abs(d - c)) for name, (a, b, c, d) in limits.items()}
    edge, gap = 0.45, 0.75
    title = 0.45
    if view != "all":
        wide, high = spans[view]
        scale = min((_INCHES[view] - 2 * edge) / wide, 7.5 / high)
        low = 1.25
        size = (max(wide * scale, 6.5) + 2 * edge, high * scale + low + title)
        left = 0.5 * (size[0] - wide * scale)
        at = (left / size[0], low / size[1], wide * scale / size[0], high * scale / size[1])
        return {view: at, "beside": (edge, low - 0.35)}, size
    front, side, plan = (spans[name] for name in VIEWS)
    scale = (_INCHES["all"] - 2 * edge - gap) / (front[0] + side[0])
    scale = min(scale, 10.0 / (front[1] + plan[1]))
    wide = 2 * edge + gap + scale * (front[0] + side[0])
    high = 2 * edge + gap + scale * (front[1] + plan[1])

    def place(left, low, span):
        return (left / wide, low / high, scale * span[0] / wide, scale * span[1] / high)

    above = edge + gap + scale * front[1]
    beside = 2 * edge + gap + scale * front[0] - 0.3
    places = {
        "front": place(edge, edge, front),
        "side": place(edge + gap + scale * front[0], edge, side),
        "plan": place(edge, above, plan),
        "beside": (beside, above + scale * plan[1]),
    }
    return places, (wide, high)


def _captions(figure, picture, view, beside):
    wide, high = figure.get_size_inches()
    left, top = beside

    def text(x, y, words, **looks):
        figure.text(x / wide, y / high, words, va="top", **looks)

    heads = [wheel.side for wheel in picture.wheels] if picture.both else []
    lines = [(name, [_number(v, n, mark) for v in values])
             for name, mark, n, values in picture.measures()]  # fmt: skip
    legend = (("lower arm", LOWER), ("upper arm", UPPER), ("tie rod, steering axis", ROD))
    if view == "all":
        text(left, top, picture.caption(), fontsize=11, color=INK, weight="bold")
        text(left, top - 0.28, picture.axes_said(), color=FAINT)
        y = top - 0.62
        for column, head in enumerate(heads):
            text(left + 1.9 + 0.7 * column, y, head, color=FAINT, ha="right")
        for name, values in lines:
            y -= 0.19
            text(left, y, name, color=INK)
            for column, value in enumerate(values):
                text(left + 1.9 + 0.7 * column, y, value, color=INK, ha="right")
        y -= 0.36
        for name, colour in legend:
            text(left, y, name, color=colour, weight="bold")
            y -= 0.19
        text(left, y - 0.1, CAUTION, color=FAINT, style="italic")
        text(left, y - 0.29, UNITS, color=FAINT, style="italic")
        return
    text(left, top, picture.caption() + ", " + picture.axes_said(), color=INK, weight="bold",
         fontsize=8.5)  # fmt: skip
    said = [f"{name} {' | '.join(values)}" for name, values in lines]
    if heads:
        said.insert(0, "left | right")
    row = ""
    y = top - 0.24
    for each in said:
        if len(row) + len(each) > _LETTERS:
            text(left, y, row, color=INK)
            row, y = "", y - 0.18
        row += each + "   "
    text(left, y, row, color=INK)
    text(left, top - 0.62, CAUTION + " " + UNITS, color=FAINT, style="italic")


def _number(value, decimals, mark=""):
    shown = "%.*f" % (decimals, value)
    # No minus before a number that is shown as zero.
    return (shown.lstrip("-") if float(shown) == 0.0 else shown.replace("-", MINUS)) + mark


class _Panel:
    """One view: first what it must hold, for its limits, then the drawing."""

    def __init__(self, name, picture):
        self.name = name
        self.picture = picture
        self.flat = _ACROSS[name]
        # The side view is that of the left side: the other wheel would only stand behind it.
        self.wheels = picture.wheels[:1] if name == "side" else picture.wheels
        self.box = self.limits()

    def limits(self):
        """(left, right, bottom, top) as the page has them."""
        points = [self.flat(p) for wheel in self.wheels for p in self._of(wheel)]
        if self.name != "side":
            points.append((0.0, points[0][1]))
        (h0, h1), (v0, v1) = ((min(part), max(part)) for part in zip(*points, strict=True))
        around = 0.07 * max(h1 - h0, v1 - v0)
        h0, h1, v0, v1 = h0 - around, h1 + around, v0 - around, v1 + around
        if self.name == "plan":
            return h0, h1, v1, v0
        # Room below the ground for the dimension lines.
        v0 -= 0.07 * (v1 - v0)
        return (h1, h0, v0, v1) if self.name == "side" else (h0, h1, v0, v1)

    def _of(self, wheel):
        lines = (
            outline.rim(wheel.pose, AROUND),
            outline.lower_arm(wheel.pose, wheel.frame),
            outline.upper_arm(wheel.pose, wheel.frame),
            outline.steering_axis(wheel.pose),
            outline.tie_rod(wheel.pose),
            (wheel.middle,),
        )
        return [wheel.seen(point) for line in lines for point in line]

    def draw(self, axes):
        """Draw on matplotlib axes of the right place and shape."""
        self.axes = axes
        left, right, bottom, top = self.box
        axes.set_xlim(left, right)
        axes.set_ylim(bottom, top)
        axes.set_title(_TITLES[self.name], fontsize=8, color=FAINT, loc="left", pad=5)
        axes.tick_params(labelsize=6, colors=FAINT, length=2.5, width=0.5)
        axes.grid(True, color=PALE, linewidth=0.4, alpha=0.6)
        axes.set_axisbelow(True)
        for spine in axes.spines.values():
            spine.set_color(PALE)
        self.labels, self.marks = [], []
        self._ground()
        for wheel in self.wheels:
            self._wheel(wheel)
            self._dimensions(wheel)
        self._rack()
        if self.name != "plan":
            self._centres()
        placer = Placer(axes, self.marks, [at for _, at, _ in self.labels])
        for words, at, looks in merged(self.labels, 0.011 * abs(right - left)):
            placer.put(words, at, **looks)

    # Lines

    def _line(self, wheel, part, points, **looks):
        """A line through points of a wheel, on its own side."""
        flat = [self.flat(wheel.seen(point)) for point in points]
        return self._plot(f"{wheel.side}-{part}", flat, **looks)

    def _plot(self, part, flat, marks=True, **looks):
        (line,) = self.axes.plot(*zip(*flat, strict=True), **looks)
        line.set_gid(f"{self.name}-{part}")
        if marks:
            self.marks.append(flat)
        return line

    def _fill(self, wheel, part, points, **looks):
        flat = [self.flat(wheel.seen(point)) for point in points]
        (patch,) = self.axes.fill(*zip(*flat, strict=True), **looks)
        patch.set_gid(f"{self.name}-{wheel.side}-{part}")

    def _wheel(self, wheel):
        pose, frame = wheel.pose, wheel.frame
        rim = outline.rim(pose, AROUND)
        self._fill(wheel, "disc", rim, facecolor=INK, alpha=0.06, linewidth=0, zorder=1)
        self._line(wheel, "rim", rim, color=INK, linewidth=1.2, zorder=2)
        for part, points in (("upright", outline.upright(pose)), ("hub", outline.hub(pose))):
            self._fill(wheel, part, points, facecolor=BODY, alpha=0.35, edgecolor=BODY,
                       linewidth=0.8, zorder=2)  # fmt: skip
        for part, points, colour in (
            ("lower-arm", outline.lower_arm(pose, frame), LOWER),
            ("upper-arm", outline.upper_arm(pose, frame), UPPER),
        ):
            self._line(wheel, part, points, color=colour, linewidth=2.0, zorder=4,
                       solid_joinstyle="round")  # fmt: skip
            self._line(wheel, part + "-axis", (points[0], points[2]), color=colour,
                       linewidth=0.7, linestyle=(0, (2, 2)), zorder=3)  # fmt: skip
        self._line(wheel, "tie-rod", outline.tie_rod(pose), color=ROD, linewidth=1.7, zorder=5)
        self._line(wheel, "steering-axis", outline.steering_axis(pose), color=ROD,
                   linewidth=0.8, linestyle=(0, (6, 2, 1, 2)), zorder=3)  # fmt: skip
        for name, find in _POINTS:
            at = wheel.seen(find(wheel))
            looks = {"markersize": 3.4, "color": INK, "markerfacecolor": "white", "marker": "o"}
            if name in ("contact centre", "axis at ground"):
                looks.update(markerfacecolor=INK, markersize=2.6)
            elif name == "wheel centre":
                looks.update(marker="+", markersize=7.0)
            self._line(wheel, name.replace(" ", "-"), (find(wheel),), zorder=6,
                       linestyle="none", markeredgewidth=0.8, **looks)  # fmt: skip
            # The other wheel's points have the same names.
            if wheel.side == "left":
                self.labels.append((name, self.flat(at), {}))

    def _rack(self):
        wheels = self.wheels
        ends = [self.flat(wheel.seen(wheel.pose.tie_inner)) for wheel in wheels]
        if len(ends) == 1:
            ends.append(self.flat(wheels[0].middle))
        self._plot("rack", ends, color=FAINT, linewidth=3.2, alpha=0.45, zorder=3,
                   solid_capstyle="butt")  # fmt: skip
        if self.name != "side":
            (a, b), (c, d) = ends
            self.labels.append(("rack", (0.5 * (a + c), 0.5 * (b + d)), {"color": FAINT}))

    def _ground(self):
        left, right, bottom, top = self.box
        if self.name != "side":
            self._plot("middle", [(0.0, bottom), (0.0, top)], marks=False, color=FAINT,
                       linewidth=0.6, linestyle=(0, (8, 3, 1, 3)), alpha=0.7)  # fmt: skip
        if self.name == "plan":
            return
        on = [self.flat(point) for point in self.picture.ground()]
        slope = 0.0
        if self.name == "front" and len(on) == 2:
            (a, b), (c, d) = on
            slope = (d - b) / (c - a)
        ends = [(h, on[0][1] + slope * (h - on[0][0])) for h in (left, right)]
        self._plot("ground", ends, color=FAINT, linewidth=1.1, zorder=1.5)
        below = bottom - 1.0 * (top - bottom)
        self.axes.fill_between(
            [h for h, _ in ends], [v for _, v in ends], below, color=PALE, alpha=0.35,
            linewidth=0, zorder=0,
        )  # fmt: skip

    # Dimensions

    def _dimensions(self, wheel):
        contact, beside, axis = outline.trail_and_scrub(wheel.pose)
        number = self.picture.decimals()
        trail = "trail " + _number(wheel.pose.trail(), number)
        scrub = "scrub " + _number(wheel.pose.scrub(), number)
        if self.name == "plan":
            for part, words, ends, colour in (
                ("trail", trail, (contact, beside), ROD),
                ("scrub", scrub, (beside, axis), LOWER),
            ):
                self._line(wheel, part, ends, color=colour, linewidth=1.6, zorder=7,
                           solid_capstyle="butt")  # fmt: skip
                (a, b), (c, d) = (self.flat(wheel.seen(p)) for p in ends)
                self.labels.append(
                    (words, (0.5 * (a + c), 0.5 * (b + d)), {"color": colour, "far": 1})
                )
            return
        if self.name == "side":
            self._dimension(wheel, "trail", trail, (contact, beside), ROD)
        else:
            self._dimension(wheel, "scrub", scrub, (beside, axis), LOWER)

    def _dimension(self, wheel, part, words, ends, colour):
        """A dimension line below the ground, its arrows outside, the words beside them."""
        (a, va), (b, vb) = (self.flat(wheel.seen(point)) for point in ends)
        left, right, bottom, _ = self.box
        low = min(va, vb)
        line = low - 0.45 * (low - bottom)
        past = low - 0.6 * (low - bottom)
        for h, v in ((a, va), (b, vb)):
            self._plot(f"{wheel.side}-{part}-from", [(h, v), (h, past)], color=colour,
                       linewidth=0.6)  # fmt: skip
        self._plot(f"{wheel.side}-{part}", [(a, line), (b, line)], color=colour,
                   linewidth=0.8)  # fmt: skip
        out = 0.035 * (right - left)
        ordered = sorted((a, b), reverse=right < left)
        for h, way in zip(ordered, (-out, out), strict=True):
            self.axes.annotate(
                "", (h, line), (h + way, line), annotation_clip=False,
                arrowprops={"arrowstyle": "-|>", "color": colour, "linewidth": 0.7,
                            "mutation_scale": 6, "shrinkA": 0, "shrinkB": 0},
            )  # fmt: skip
            self.marks.append([(h, line), (h + way, line)])
        # Toward the middle of the page, where there is room.
        outside = ordered[1] + 1.2 * out, "left"
        if self.name == "front" and wheel.side == "left":
            outside = ordered[0] - 1.2 * out, "right"
        words = self.axes.text(
            outside[0], line, words, ha=outside[1], va="center", color=colour, fontsize=7
        )
        words.set_gid(f"{self.name}-{wheel.side}-{part}-words")
        self.marks.append(words)

    # Instant centres

    def _centres(self):
        for wheel in self.wheels:
            centre = wheel.centre_of(INSTANT[self.name])
            if centre is None:
                continue
            contact = self.flat(wheel.seen(wheel.pose.contact_centre()))
            there = self.flat(wheel.seen(centre))
            self._plot(f"{wheel.side}-to-instant-centre", [contact, there], color=FAINT,
                       linewidth=0.6, linestyle=(0, (4, 2)), zorder=2.5, marks=False)  # fmt: skip
            self.marks.append([contact, self._within(contact, there)])
            words = "instant centre" if self.name == "front" else "side instant centre"
            self._spot(f"{wheel.side}-instant-centre", words, there, LOWER)
        if self.name == "front":
            centre = self.picture.roll_centre()
            if centre is not None:
                self._spot("roll-centre", "roll centre", self.flat(centre), ROD)

    def _within(self, start, end):
        """Where a line from a point in view leaves it, or its end."""
        share = 1.0
        for i, (a, b) in enumerate((sorted(self.box[:2]), sorted(self.box[2:]))):
            way = end[i] - start[i]
            if way:
                share = min(share, ((b if way > 0.0 else a) - start[i]) / way)
        return tuple(a + share * (b - a) for a, b in zip(start, end, strict=True))

    def _spot(self, part, words, at, colour):
        """A diamond and a label, where they are in view."""
        left, right, bottom, top = self.box
        if min(left, right) < at[0] < max(left, right) and bottom < at[1] < top:
            self._plot(part, [at], color=colour, marker="D", markersize=4.0, linestyle="none",
                       markerfacecolor="white", zorder=7)  # fmt: skip
            self.labels.append((words, at, {"color": colour}))
