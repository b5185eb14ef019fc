"""A wheel with its upright, arms and tie rod, as drawn in any view."""

from ...geometry.corner import outline
from .looks import BODY, INK, LOWER, ROD, UPPER
from .view import AROUND

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


def draw_wheel(pen, wheel, words=None):
    """The wheel, what holds it, and its named points. words: {name: label}, where not alike."""
    _draw_body(pen, wheel)
    _draw_links(pen, wheel)
    for name, find in _POINTS:
        _draw_point(pen, wheel, name, find(wheel), name if words is None else words.get(name))


def _draw_body(pen, wheel):
    rim = outline.rim(wheel.pose, AROUND)
    pen.fill(wheel, "disc", rim, facecolor=INK, alpha=0.06, linewidth=0, zorder=1)
    pen.line(wheel, "rim", rim, color=INK, linewidth=1.2, zorder=2)
    for part, points in (
        ("upright", outline.upright(wheel.pose)),
        ("hub", outline.hub(wheel.pose)),
    ):
        pen.fill(wheel, part, points, facecolor=BODY, alpha=0.35, edgecolor=BODY,
                 linewidth=0.8, zorder=2)  # fmt: skip


def _draw_links(pen, wheel):
    pose, frame = wheel.pose, wheel.frame
    for part, points, colour in (
        ("lower-arm", outline.lower_arm(pose, frame), LOWER),
        ("upper-arm", outline.upper_arm(pose, frame), UPPER),
    ):
        pen.line(wheel, part, points, color=colour, linewidth=2.0, zorder=4,
                 solid_joinstyle="round")  # fmt: skip
        pen.line(wheel, part + "-axis", (points[0], points[2]), color=colour,
                 linewidth=0.7, linestyle=(0, (2, 2)), zorder=3)  # fmt: skip
    pen.line(wheel, "tie-rod", outline.tie_rod(pose), color=ROD, linewidth=1.7, zorder=5)
    pen.line(wheel, "steering-axis", outline.steering_axis(pose), color=ROD,
             linewidth=0.8, linestyle=(0, (6, 2, 1, 2)), zorder=3)  # fmt: skip


def _draw_point(pen, wheel, name, point, words):
    looks = {"markersize": 3.4, "color": INK, "markerfacecolor": "white", "marker": "o"}
    if name in ("contact centre", "axis at ground"):
        looks.update(markerfacecolor=INK, markersize=2.6)
    elif name == "wheel centre":
        looks.update(marker="+", markersize=7.0)
    pen.line(wheel, name.replace(" ", "-"), (point,), zorder=6, linestyle="none",
             markeredgewidth=0.8, **looks)  # fmt: skip
    # The other wheel's points have the same names.
    if wheel.side == "left" and words:
        pen.label(words, pen.view.at(wheel, point))
