"""Labels beside the points of a drawing, each where it covers least."""

import itertools
import math

SIZE = 6.5
"""Of the letters, in points."""

_NEAR = (9.0, 15.0, 23.0, 33.0, 45.0, 60.0)
_WAYS = 16
_OTHER = 4.0
_BY_DISTANCE = 0.12
"""What a place costs for each pixel that it is away from its point."""


def merged(labels, near):
    """Labels of points that fall on one another made one.

    labels: (words, (x, y), looks). near: the distance within which two points are one.
    """
    groups: list = []
    for words, at, looks in labels:
        for group in groups:
            if not looks and not group[2] and math.dist(group[1], at) < near:
                group[0].append(words)
                break
        else:
            groups.append(([words], at, looks))
    return [(_together(words), at, looks) for words, at, looks in groups]


def _together(names):
    """Names in one label: "lower front pickup", "lower rear pickup" are "lower pickups"."""
    left = list(names)
    for arm in ("lower", "upper"):
        pair = [f"{arm} {end} pickup" for end in ("front", "rear")]
        if all(name in left for name in pair):
            left[left.index(pair[0])] = arm + " pickups"
            left.remove(pair[1])
    return ", ".join(left)


class Placer:
    """Puts labels on axes one after another, clear of marks and of each other.

    marks: lines as lists of (x, y), or texts that stand already. points: (x, y) of what the
    labels are for, so that the thin line to one does not lead over another.
    """

    def __init__(self, axes, marks, points):
        self.axes = axes
        self.renderer = axes.figure.canvas.get_renderer()
        self.points = axes.transData.transform(points).tolist()
        self.dots: list = []
        self.boxes: list = []
        for mark in marks:
            if isinstance(mark, list):
                self._sample(axes.transData.transform(mark).tolist())
            else:
                self.boxes.append(mark.get_window_extent(self.renderer).extents.tolist())
        self.frame = axes.get_window_extent(self.renderer).extents.tolist()

    def _sample(self, points):
        """Dots some pixels apart along a line."""
        self.dots.append(points[0])
        for (a, b), (c, d) in itertools.pairwise(points):
            count = min(400, int(math.hypot(c - a, d - b) / 4.0) + 1)
            self.dots += [
                [a + (c - a) * i / count, b + (d - b) * i / count] for i in range(1, count + 1)
            ]

    def put(self, words, at, color="#2B3640", far=0):
        """A label for a point, with a thin line to it. far: leave out the nearest places."""
        text = self.axes.text(*at, words, fontsize=SIZE, color=color, ha="center", va="center")
        box = text.get_window_extent(self.renderer)
        text.remove()
        wide, high = 0.5 * box.width + 1.5, 0.5 * box.height + 1.0
        x, y = self.axes.transData.transform(at).tolist()
        best = None
        for away in _NEAR[far:]:
            if best is not None and _BY_DISTANCE * away >= best[0]:
                break
            over, up = away + 2.0 * wide + 1.0, away + 2.0 * high + 1.0
            left, right, low, top = x - over, x + over, y - up, y + up
            dots = [dot for dot in self.dots if left < dot[0] < right and low < dot[1] < top]
            for turn in range(_WAYS):
                angle = 2.0 * math.pi * turn / _WAYS
                dx = math.cos(angle) * (away + wide)
                dy = math.sin(angle) * (away + high)
                there = (x + dx - wide, y + dy - high, x + dx + wide, y + dy + high)
                cost = self._cost(there, (x, y), away, dots, best[0] if best else math.inf)
                if best is None or cost < best[0]:
                    best = (cost, dx, dy, there)
        _, dx, dy, there = best
        self.boxes.append(list(there))
        points = 72.0 / self.axes.figure.dpi
        self.axes.annotate(
            words, at, (dx * points, dy * points), textcoords="offset points", fontsize=SIZE,
            color=color, ha="center", va="center", zorder=9,
            arrowprops={"arrowstyle": "-", "color": color, "linewidth": 0.35, "alpha": 0.7,
                        "shrinkA": 1.0, "shrinkB": 2.0},
        )  # fmt: skip

    def _cost(self, there, at, away, dots, least):
        """What a place for a label costs; part of it where that is `least` or more already.

        dots: those that it might cover.
        """
        left, low, right, high = there
        cost = _BY_DISTANCE * away
        for a, b, c, d in self.boxes:
            if a < right and c > left and b < high and d > low:
                cost += 60.0
        if cost >= least:
            return cost
        for x, y in dots:
            if left < x < right and low < y < high:
                cost += 3.0
        if cost >= least:
            return cost
        for x, y in self.points:
            if left - _OTHER < x < right + _OTHER and low - _OTHER < y < high + _OTHER:
                cost += 25.0
        # The thin line to the point should cross no other label.
        middle = (0.5 * (left + right), 0.5 * (low + high))
        for share in (0.3, 0.5, 0.7):
            x, y = (a + share * (m - a) for a, m in zip(at, middle, strict=True))
            for a, b, c, d in self.boxes:
                if a < x < c and b < y < d:
                    cost += 15.0
        cost += 12.0 * self._led_over(at, middle)
        a, b, c, d = self.frame
        if left < a or low < b or right > c or high > d:
            cost += 100.0
        return cost

    def _led_over(self, start, end):
        """How many other points the way from one to its label passes close by."""
        x, y = (b - a for a, b in zip(start, end, strict=True))
        long2 = x * x + y * y
        passed = 0
        for a, b in self.points:
            a, b = a - start[0], b - start[1]
            share = (a * x + b * y) / long2
            if math.hypot(a, b) > _OTHER and 0.0 < share < 1.0:
                passed += math.hypot(a - share * x, b - share * y) < _OTHER
        return passed
