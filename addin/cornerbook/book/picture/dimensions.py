"""Trail and scrub at the ground, with their lengths: in plan as they lie, else below it."""

from ...geometry.corner import outline
from .looks import LOWER, ROD
from .scene import number_text


def draw_dimensions(pen, wheel, decimals):
    """Both in plan, the trail alone in side view, the scrub alone in front view."""
    contact, beside, axis = outline.trail_and_scrub(wheel.pose)
    trail = ("trail", "trail " + number_text(wheel.pose.trail(), decimals), (contact, beside), ROD)
    scrub = ("scrub", "scrub " + number_text(wheel.pose.scrub(), decimals), (beside, axis), LOWER)
    if pen.view.name == "plan":
        for each in (trail, scrub):
            _draw_in_place(pen, wheel, *each)
    else:
        _draw_below(pen, wheel, *(trail if pen.view.name == "side" else scrub))


def _draw_in_place(pen, wheel, part, words, ends, colour):
    """The length itself, where it is, with a label."""
    pen.line(wheel, part, ends, color=colour, linewidth=1.6, zorder=7,
             solid_capstyle="butt")  # fmt: skip
    (a, b), (c, d) = (pen.view.at(wheel, point) for point in ends)
    pen.label(words, (0.5 * (a + c), 0.5 * (b + d)), color=colour, far=1)


def _draw_below(pen, wheel, part, words, ends, colour):
    """A dimension line below the ground, its arrows outside, the words beside them."""
    (a, va), (b, vb) = (pen.view.at(wheel, point) for point in ends)
    left, right, bottom, _ = pen.view.box
    low = min(va, vb)
    line = low - 0.45 * (low - bottom)
    past = low - 0.6 * (low - bottom)
    for h, v in ((a, va), (b, vb)):
        pen.plot(f"{wheel.side}-{part}-from", [(h, v), (h, past)], color=colour, linewidth=0.6)
    pen.plot(f"{wheel.side}-{part}", [(a, line), (b, line)], color=colour, linewidth=0.8)
    out = 0.035 * (right - left)
    ordered = sorted((a, b), reverse=right < left)
    for h, way in zip(ordered, (-out, out), strict=True):
        pen.arrow((h, line), (h + way, line), colour)
    # Toward the middle of the page, where there is room.
    outside, align = ordered[1] + 1.2 * out, "left"
    if pen.view.name == "front" and wheel.side == "left":
        outside, align = ordered[0] - 1.2 * out, "right"
    pen.words(wheel, part, (outside, line), words, colour, align)
