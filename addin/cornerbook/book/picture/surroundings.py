"""What a wheel stands on and is steered by: the ground, the car's middle line, the rack."""

from .looks import FAINT, PALE


def draw_middle(pen):
    """The car's middle plane, edge on; not in side view, which looks at it squarely."""
    if pen.view.name == "side":
        return
    _, _, bottom, top = pen.view.box
    pen.plot("middle", [(0.0, bottom), (0.0, top)], marks=False, color=FAINT,
             linewidth=0.6, linestyle=(0, (8, 3, 1, 3)), alpha=0.7)  # fmt: skip


def draw_ground(pen, contacts):
    """The ground through the contact centres; not in plan. contacts: as `Picture.ground`."""
    if pen.view.name == "plan":
        return
    left, right, bottom, top = pen.view.box
    on = [pen.view.flat(point) for point in contacts]
    slope = 0.0
    if pen.view.name == "front" and len(on) == 2:
        (a, b), (c, d) = on
        slope = (d - b) / (c - a)
    ends = [(h, on[0][1] + slope * (h - on[0][0])) for h in (left, right)]
    pen.plot("ground", ends, color=FAINT, linewidth=1.1, zorder=1.5)
    below = bottom - 1.0 * (top - bottom)
    pen.axes.fill_between(
        [h for h, _ in ends], [v for _, v in ends], below, color=PALE, alpha=0.35,
        linewidth=0, zorder=0,
    )  # fmt: skip


def draw_rack(pen):
    """The rack, from one tie rod's inner end to the other's, or to the car's middle."""
    view = pen.view
    ends = [view.at(wheel, wheel.pose.tie_inner) for wheel in view.wheels]
    if len(ends) == 1:
        ends.append(view.flat(view.wheels[0].middle))
    pen.plot("rack", ends, color=FAINT, linewidth=3.2, alpha=0.45, zorder=3,
             solid_capstyle="butt")  # fmt: skip
    if view.name != "side":
        (a, b), (c, d) = ends
        pen.label("rack", (0.5 * (a + c), 0.5 * (b + d)), color=FAINT)
