"""What is asked of a wheel's height: that its centre has risen so far, or some amount more."""


class WheelAt:
    """That the wheel centre has risen to a height."""

    __slots__ = ("height",)

    def __init__(self, height):
        self.height = height

    def __call__(self, centre, spindle):
        """By how much the height is missed."""
        return centre.z - self.height

    def rate(self, spin, moved, arm, spindle):
        """How fast that changes, the upright spinning and its lower ball joint moving.

        arm: the way from there to the wheel centre.
        """
        return moved.z + spin.x * arm.y - spin.y * arm.x


class Shifted:
    """That a height is missed by some amount more."""

    __slots__ = ("missed", "by")

    def __init__(self, missed, by):
        self.missed = missed
        self.by = by

    def __call__(self, centre, spindle):
        """By how much it is missed."""
        return self.missed(centre, spindle) - self.by
