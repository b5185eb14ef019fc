"""Formulas for a steered axle whose left and right corner are not alike, as welded cars have it."""

from ...cells.arguments import CORNER, RACK_TURNED, TRAVEL, WHEELBASE
from ...cells.declare import Argument, formula
from ...cells.mend import Mend
from ...cells.reach import closes, why_not
from ...geometry.corner import outline
from ...geometry.front_axle import road
from ...geometry.front_axle.axle import Axle
from ...geometry.steering import hands, moments
from ..front_axle.axle import NO_INNER_WHEEL, hold_left
from .moments import hold_rod

GROUP = "The steered axle"


class _Wheels:
    """Both wheels at a rack, each as a left-hand corner; the right one sees the rack mirrored."""

    def __init__(self, left, right, wheelbase, rack, travel):
        self.corners = ((left, rack), (right, -rack))
        self.travel = travel
        self.left, self.right = (corner.pose(travel, at) for corner, at in self.corners)
        middle = 0.5 * (left.drawn.wheel_centre.x + right.drawn.wheel_centre.x)
        self.axle = Axle(self.left, self.right, middle - wheelbase)

    def track(self):
        return self.left.contact_centre().y + self.right.contact_centre().y

    def rack_pull(self):
        for corner, _ in self.corners:
            hold_rod(corner)
        arms = (moments.vertical_load_arm(pose) for pose in (self.left, self.right))
        return hands.rack_force(self.left, self.right, *arms)

    def roll_centre(self):
        """Where the lines of both wheels cross, above the ground between the contacts."""
        slopes = [
            road.slope_by_centre(corner.motion(self.travel, rack), corner.pose(self.travel, rack))
            for corner, rack in self.corners
        ]
        at_left, at_right = self.left.contact_centre(), self.right.contact_centre()
        centre = outline.roll_centre(at_left, at_right, *slopes)
        share = (at_left.y - centre.y) / (at_left.y + at_right.y)
        return centre.z - (at_left.z + (at_right.z - at_left.z) * share)


_FOUND = {
    "steer left": lambda wheels: wheels.axle.steer_left,
    "steer right": lambda wheels: wheels.axle.steer_right,
    "ideal outer": lambda wheels: wheels.axle.ideal_outer(),
    "ackermann": lambda wheels: wheels.axle.ackermann(),
    "turning radius": lambda wheels: wheels.axle.turning_radius(),
    "mid rear radius": lambda wheels: wheels.axle.mid_rear_radius(),
    "toe sum": lambda wheels: wheels.left.toe() + wheels.right.toe(),
    "track": _Wheels.track,
    "rack pull": _Wheels.rack_pull,
    "roll centre": _Wheels.roll_centre,
}


def _why(left, right, quantity, wheelbase, rack, travel):
    for side, corner, at in (("left", left, rack), ("right", right, -rack)):
        if not closes(corner, travel, at):
            return f"{side} corner: {why_not(corner, travel, at)}"
    if quantity == "rack pull":
        return "a tie rod points at its steering axis there and cannot turn the wheel"
    if quantity == "roll centre":
        return "the lines from both contact centres run side by side there: they do not cross"
    return NO_INNER_WHEEL


@formula(
    name="AXLE_AS_BUILT",
    group=GROUP,
    arguments=(
        CORNER.but(name="left_corner", help="The block of the left corner as built."),
        CORNER.but(
            name="right_corner",
            help="The block of the right corner as built, given as a left-hand one: y positive.",
        ),
        Argument(
            "quantity", "text",
            "One of these: " + ", ".join(_FOUND) + ".", choices=tuple(_FOUND),
        ),
        WHEELBASE, RACK_TURNED, TRAVEL,
    ),
    unit="that of the quantity",
    positive="steer: to the left; rack pull: to the left; else as the formula of one corner",
    help="A measure of an axle whose two corners differ: STEER_LEFT, STEER_RIGHT, IDEAL_OUTER, "
    "ACKERMANN, TURNING_RADIUS and MID_REAR_RADIUS as they say; the sum of both toes; the track "
    "between the contact centres; the force on the rack for each unit of load on either wheel; "
    "the height of the roll centre.",
    source="As those formulas, each wheel by its own corner, the right one at the opposite rack; "
    "the rear axle line lies the wheelbase behind the mean of both wheel centres.",
    example='=CORNER.AXLE_AS_BUILT(Example, Example, "ackermann", 1600, -30)',
    check=16.0220205249,
    why=_why,
    beyond="no solution was found at this rack, or the wheels are straight ahead",
)  # fmt: skip
def axle_as_built(left_corner, right_corner, quantity, wheelbase, rack, travel):
    for side, corner in (("left", left_corner), ("right", right_corner)):
        try:
            corner.hold_linkage()
            hold_left(corner)
        except Mend as mend:
            raise Mend(f"{side} corner: {mend}") from mend
    return _FOUND[quantity](_Wheels(left_corner, right_corner, wheelbase, rack, travel))
