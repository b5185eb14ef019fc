"""Draws in one view, and keeps what labels are to stand clear of."""

from .labels import Placer, merged


class Pen:
    """Puts lines, areas and words on the axes of one view.

    Each is named for its view and part, such as "front-left-tie-rod". Labels are only noted
    while lines are drawn; `place_labels`, at the end, finds room for them.
    """

    def __init__(self, axes, view):
        self.axes = axes
        self.view = view
        self.labels = []
        """(words, (x, y), looks) still to be placed."""
        self.marks = []
        """What labels keep clear of: lines as lists of (x, y), or texts that stand already."""

    def plot(self, part, flat, marks=True, **looks):
        """A line through (x, y) of the page. marks: whether labels are to keep clear of it."""
        (line,) = self.axes.plot(*zip(*flat, strict=True), **looks)
        line.set_gid(f"{self.view.name}-{part}")
        if marks:
            self.marks.append(flat)

    def line(self, wheel, part, points, **looks):
        """A line through points of a wheel, on its own side."""
        self.plot(f"{wheel.side}-{part}", [self.view.at(wheel, p) for p in points], **looks)

    def fill(self, wheel, part, points, **looks):
        """An area within points of a wheel; labels may stand on it."""
        flat = [self.view.at(wheel, point) for point in points]
        (patch,) = self.axes.fill(*zip(*flat, strict=True), **looks)
        patch.set_gid(f"{self.view.name}-{wheel.side}-{part}")

    def arrow(self, tip, tail, colour):
        """An arrow of a dimension line, its head at `tip`, both (x, y) of the page."""
        self.axes.annotate(
            "", tip, tail, annotation_clip=False,
            arrowprops={"arrowstyle": "-|>", "color": colour, "linewidth": 0.7,
                        "mutation_scale": 6, "shrinkA": 0, "shrinkB": 0},
        )  # fmt: skip
        self.marks.append([tip, tail])

    def words(self, wheel, part, at, words, colour, align):
        """Words at a place of their own, which labels keep clear of. align: left or right."""
        text = self.axes.text(*at, words, ha=align, va="center", color=colour, fontsize=7)
        text.set_gid(f"{self.view.name}-{wheel.side}-{part}-words")
        self.marks.append(text)

    def label(self, words, at, **looks):
        """Note a label for a point (x, y) of the page; `Placer.put` says what looks there are."""
        self.labels.append((words, at, looks))

    def place_labels(self):
        """Put all labels where they cover least."""
        left, right, _, _ = self.view.box
        placer = Placer(self.axes, self.marks, [at for _, at, _ in self.labels])
        for words, at, looks in merged(self.labels, 0.011 * abs(right - left)):
            placer.put(words, at, **looks)
