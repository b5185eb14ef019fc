"""Instant centres and the roll centre, with the lines that lead to them."""

from .looks import FAINT, LOWER, ROD
from .scene import INSTANT


def draw_instant_centre(pen, wheel):
    """The line from the contact centre to the instant centre of the view, if it has one."""
    view = pen.view
    if view.name not in INSTANT:
        return
    centre = wheel.centre_of(INSTANT[view.name])
    if centre is None:
        return
    contact, there = view.at(wheel, wheel.pose.contact_centre()), view.at(wheel, centre)
    pen.plot(f"{wheel.side}-to-instant-centre", [contact, there], color=FAINT,
             linewidth=0.6, linestyle=(0, (4, 2)), zorder=2.5, marks=False)  # fmt: skip
    # The centre may be far away: labels keep clear of what is in view.
    pen.marks.append([contact, _within(view.box, contact, there)])
    words = "instant centre" if view.name == "front" else "side instant centre"
    _draw_spot(pen, f"{wheel.side}-instant-centre", words, there, LOWER)


def draw_roll_centre(pen, centre):
    """The roll centre, in front view; None where there is none."""
    if pen.view.name == "front" and centre is not None:
        _draw_spot(pen, "roll-centre", "roll centre", pen.view.flat(centre), ROD)


def _within(box, start, end):
    """Where a line from a point in view leaves it, or its end."""
    share = 1.0
    for i, (a, b) in enumerate((sorted(box[:2]), sorted(box[2:]))):
        way = end[i] - start[i]
        if way:
            share = min(share, ((b if way > 0.0 else a) - start[i]) / way)
    return tuple(a + share * (b - a) for a, b in zip(start, end, strict=True))


def _draw_spot(pen, part, words, at, colour):
    """A diamond and a label, where they are in view."""
    left, right, bottom, top = pen.view.box
    if min(left, right) < at[0] < max(left, right) and bottom < at[1] < top:
        pen.plot(part, [at], color=colour, marker="D", markersize=4.0, linestyle="none",
                 markerfacecolor="white", zorder=7)  # fmt: skip
        pen.label(words, at, color=colour)
