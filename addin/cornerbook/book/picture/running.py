"""Running dimensions: how far each point of a view is from the datum, along two of its edges.

All are measured from one origin (ISO 129-1, running dimensioning; from memory), each with a thin
line from the point to its number; numbers that would touch are pushed apart.
"""

from .looks import FAINT, INK, PALE
from .scene import number_text

_APART, _KINK, _REACH = 2.6, 3.5, 1.0
"""Between numbers, for the bend of a line toward its number, and before it, in mm of paper."""

_AXES = {"front": (1, 2), "side": (0, 2), "plan": (1, 0)}
"""The coordinates across and up the page."""


def run_along(pen, sheet):
    """The dimensions of a view of a `Sheet`: below it those across, to its left those upward."""
    for which in (0, 1):
        _run(pen, sheet, which)


def _run(pen, sheet, which):
    view = pen.view
    left, right, bottom, top = view.box
    start, end = ((left, right), (bottom, top))[which]
    way = 1.0 if end > start else -1.0
    # Block's unit for a mm of paper.
    unit = sheet.scale / sheet.mm
    axis, zero = _AXES[view.name][which], sheet.datum[_AXES[view.name][which]]
    decimals = sheet.picture.decimals()
    found = {}
    for point in sheet.points:
        flat = view.flat(point.place)
        text = number_text(tuple(point.place)[axis] - zero, decimals)
        found.setdefault(text, []).append(flat)
    if min(start, end) <= zero <= max(start, end):
        found.setdefault(number_text(0.0, decimals), [])
    order = sorted(found.items(), key=lambda one: way * _along(one, which, zero))
    there = [way * (_along(one, which, zero) - start) / unit for one in order]
    put = _pushed_apart(there, _APART)
    edge = bottom if which == 0 else left
    out = (-1.0 if which == 0 or right > left else 1.0) * unit
    if which == 0 and top < bottom:
        out = -out
    for (text, flats), at, moved in zip(order, there, put, strict=True):
        at, moved = start + way * at * unit, start + way * moved * unit
        far = edge
        for flat in flats:
            # From the point that is farthest from the edge: over the others of its line.
            if abs(flat[1 - which] - edge) > abs(far - edge):
                far = flat[1 - which]
        path = [(at, far), (at, edge), (moved, edge + _KINK * out)]
        if which == 1:
            path = [(v, u) for u, v in path]
        (line,) = pen.axes.plot(*zip(*path, strict=True), color=PALE if flats else FAINT,
                                linewidth=0.4, clip_on=False, zorder=0.5)  # fmt: skip
        line.set_gid(f"{view.name}-running-{'across' if which == 0 else 'up'}-{text}")
        place = (moved, edge + (_KINK + _REACH) * out)
        looks = {"fontsize": 6, "color": INK, "clip_on": False}
        if which == 0:
            pen.axes.text(*place, text, rotation=90, ha="center", va="top", **looks)
        else:
            pen.axes.text(*place[::-1], text, ha="right", va="center", **looks)


def _along(one, which, zero):
    flats = one[1]
    return flats[0][which] if flats else zero


def _pushed_apart(places, apart):
    """Places in order, as near to where they were as leaves them so far apart.

    Neighbours that touch become a group about the middle of where they were to be.
    """
    groups: list = []
    for place in places:
        groups.append([place, 1])
        while len(groups) > 1:
            (a, n), (b, m) = groups[-2:]
            if b - a >= 0.5 * (n + m) * apart:
                break
            groups[-2:] = [[(a * n + b * m) / (n + m), n + m]]
    return [
        middle + (i - 0.5 * (count - 1)) * apart for middle, count in groups for i in range(count)
    ]
