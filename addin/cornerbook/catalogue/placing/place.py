"""A place that a formula gives: how it is shown, and what any place is held to."""

from ...cells.declare import Argument
from ...cells.mend import hold
from ...geometry.numbers import absolute, where

GROUP = "Placing points"

AXES = "forward (x), to the left (y), upward (z)"

# A place farther away than this many tyre radii is none.
_FAR = 1000.0

COORDINATE = Argument(
    "coordinate", "text",
    "x, y or z for one number; left out, the three stand side by side.",
    default="all", choices=("x", "y", "z", "all"),
)  # fmt: skip


def shown(place, coordinate):
    return (tuple(place),) if coordinate == "all" else getattr(place, coordinate)


def hold_place(corner, name, place):
    """Raise `Mend` unless a place is one, above the ground and below the wheel's top."""
    radius = corner.drawn.radius
    far = _FAR * radius
    near = where(absolute(place.y) < far, absolute(place.z) < far, False)
    hold(near, f"there is no place for the {name} that gives this, with the rest as drawn")
    ground = corner.drawn.contact_centre().z
    top = ground + 2.0 * radius
    hold(
        where(place.z > ground, place.z < top, False),
        f"the {name} would lie at a height of %s, where one between the ground at %s and the "
        "wheel's "
        "top at %s was expected; ask for something nearer to what the block has",
        place.z,
        ground,
        top,
    )
