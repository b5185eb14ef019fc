"""One view on its axes: the frame, and everything in it in the order in which it is drawn."""

from .centres import draw_instant_centre, draw_roll_centre
from .dimensions import draw_dimensions
from .forces import draw_forces
from .links import draw_wheel
from .looks import FAINT, PALE
from .pen import Pen
from .surroundings import draw_ground, draw_middle, draw_rack

TITLES = {
    "front": "Front view, from ahead: the car's left is on the right",
    "side": "Side view of the left side: forward is to the left",
    "plan": "Plan view: forward is down",
}


def draw_view(axes, view, picture):
    """Draw a `View` of a picture on matplotlib axes of the right place and shape."""
    _frame(axes, view)
    pen = Pen(axes, view)
    draw_middle(pen)
    draw_ground(pen, picture.ground())
    for wheel in view.wheels:
        draw_wheel(pen, wheel)
        draw_dimensions(pen, wheel, picture.decimals())
    draw_rack(pen)
    if picture.forces is not None:
        draw_forces(pen, view.wheels[0], picture.forces)
    for wheel in view.wheels:
        draw_instant_centre(pen, wheel)
    draw_roll_centre(pen, picture.roll_centre())
    pen.place_labels()


def _frame(axes, view):
    """The view's limits, with its title, scales and grid."""
    left, right, bottom, top = view.box
    axes.set_xlim(left, right)
    axes.set_ylim(bottom, top)
    axes.set_title(TITLES[view.name], fontsize=8, color=FAINT, loc="left", pad=5)
    axes.tick_params(labelsize=6, colors=FAINT, length=2.5, width=0.5)
    axes.grid(True, color=PALE, linewidth=0.4, alpha=0.6)
    axes.set_axisbelow(True)
    for spine in axes.spines.values():
        spine.set_color(PALE)
