"""Where a corner's moving points are at one travel and rack, and what it measures."""

from . import axis, wheel


class Pose:
    """The moving points of a left-hand corner, and the measures taken of them.

    Points are `Vec` in the body's axes; `spindle` is the wheel axis's unit
    direction, outboard; `radius` the loaded radius and `crown` the radius of the
    tread's section, 0.0 for a thin disc. Measures are in degrees and in
    the unit of the points, with the signs of ISO 8855 as each one says. A pose
    that the linkage cannot reach measures NaN.
    """

    __slots__ = (
        "lower", "upper", "tie_outer", "tie_inner", "wheel_centre", "spindle", "radius", "crown",
    )  # fmt: skip

    def __init__(
        self, lower, upper, tie_outer, tie_inner, wheel_centre, spindle, radius, crown=0.0
    ):
        self.lower = lower
        self.upper = upper
        self.tie_outer = tie_outer
        self.tie_inner = tie_inner
        self.wheel_centre = wheel_centre
        self.spindle = spindle
        self.radius = radius
        self.crown = crown

    def caster(self):
        """Caster in degrees; positive: the steering axis's top leans rearward."""
        return axis.caster_of(self.lower, self.upper)

    def inclination(self):
        """Kingpin inclination in degrees; positive: the top leans inward."""
        return axis.inclination_of(self.lower, self.upper)

    def camber(self):
        """Camber in degrees; positive: the top of the wheel leans away from the car."""
        return wheel.camber_of(self.spindle)

    def toe(self):
        """Toe in degrees; positive: the leading edge points inward."""
        return wheel.toe_of(self.spindle)

    def contact_centre(self):
        """Where the wheel stands on level ground."""
        return wheel.contact_centre(self.wheel_centre, self.spindle, self.radius, self.crown)

    def rolling_point(self):
        """Where a force along the heading acts whose torque about the spindle is not taken up."""
        return wheel.rolling_point(self.wheel_centre, self.spindle, self.crown)

    def axis_at_ground(self):
        """Where the steering axis meets the ground under the contact centre."""
        height = self.contact_centre().z
        return axis.axis_at_height(self.lower, self.upper, height)

    def trail(self):
        """Mechanical trail along the wheel's heading; positive: the axis is ahead."""
        way = self.axis_at_ground() - self.contact_centre()
        return way.dot(wheel.heading_of(self.spindle))

    def scrub(self):
        """Scrub radius across the heading; positive: the axis is inboard."""
        way = self.contact_centre() - self.axis_at_ground()
        return way.dot(wheel.outboard_of(self.spindle))
