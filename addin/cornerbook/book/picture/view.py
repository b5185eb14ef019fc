"""The three views of a picture: what each shows of the car, and where the page has it.

The front view is seen from ahead of the car, so its left-hand wheel is on the right; the plan
has forward downward; the side view, of the left side, has forward to the left.
"""

from ...geometry.corner import outline

VIEWS = ("front", "side", "plan")

AROUND = 120
"""Points along a rim."""

_ACROSS = {
    "front": lambda p: (p.y, p.z),
    "side": lambda p: (p.x, p.z),
    "plan": lambda p: (p.y, p.x),
}


class View:
    """One view of a picture: its wheels, their points in two dimensions, and its limits.

    name: front, side or plan. box: (left, right, bottom, top) as the page has them, in the
    unit of the block; may be widened, to line up with another view. around: what is left free
    about it all, in shares of its size.
    """

    def __init__(self, name, picture, around=0.07):
        self.around = around
        self.name = name
        self.flat = _ACROSS[name]
        # The side view is that of the left side: the other wheel would only stand behind it.
        self.wheels = picture.wheels[:1] if name == "side" else picture.wheels
        self.box = self._limits(picture.more_points())

    def at(self, wheel, point):
        """Where the page has a point of a wheel, on the wheel's own side of the car."""
        return self.flat(wheel.seen(point))

    def _limits(self, more):
        points = [self.at(wheel, point) for wheel in self.wheels for point in _extent(wheel)]
        points += [self.at(self.wheels[0], point) for point in more]
        if self.name != "side":
            points.append((0.0, points[0][1]))
        (h0, h1), (v0, v1) = ((min(part), max(part)) for part in zip(*points, strict=True))
        around = self.around * max(h1 - h0, v1 - v0)
        h0, h1, v0, v1 = h0 - around, h1 + around, v0 - around, v1 + around
        if self.name == "plan":
            return h0, h1, v1, v0
        # Room below the ground for the dimension lines.
        v0 -= self.around * (v1 - v0)
        return (h1, h0, v0, v1) if self.name == "side" else (h0, h1, v0, v1)


def _extent(wheel):
    """All points of a wheel and its links that a view must hold."""
    lines = (
        outline.rim(wheel.pose, AROUND),
        outline.lower_arm(wheel.pose, wheel.frame),
        outline.upper_arm(wheel.pose, wheel.frame),
        outline.steering_axis(wheel.pose),
        outline.tie_rod(wheel.pose),
        (wheel.middle,),
    )
    return [point for line in lines for point in line]


def line_up(views):
    """Give views beside each other the same heights, and those above each other the same sides.

    views: {name: `View`}; a single one stays as it is.
    """
    if len(views) < 2:
        return
    front, side, plan = (views[name] for name in VIEWS)
    left, right = (pick(front.box[i], plan.box[i]) for i, pick in ((0, min), (1, max)))
    low, high = (pick(front.box[i], side.box[i]) for i, pick in ((2, min), (3, max)))
    front.box = (left, right, low, high)
    plan.box = (left, right, *plan.box[2:])
    side.box = (*side.box[:2], low, high)
