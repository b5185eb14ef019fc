"""What a picture of a corner or an axle shows: wheels at a pose, with all that is read off them.

Nothing here draws. Lengths are in the unit of the block, angles in degrees; the right-hand
wheel is the mirrored corner at the opposite rack and roll.
"""

import math

from ...catalogue import FORMULAS
from ...catalogue.front_axle.axle import hold_left
from ...cells.corner import Corner
from ...cells.mend import Mend
from ...cells.reach import closes, why_not
from ...geometry.corner import instant, outline
from ...geometry.front_axle import road
from ...geometry.vec import Vec
from ..file.trouble import Trouble
from ..formula.named_block import rows_of_block

MOST_ROLL = 45.0

MINUS = "\u2212"


def read_corner(path, name="Front"):
    """The corner in the block of this name in a workbook; its formulas are worked out anew.

    Raises `Trouble` for a file that is no workbook or has no such block.
    """
    spelled, rows = rows_of_block(path, name)
    try:
        return Corner(rows)
    except Mend as mend:
        raise Trouble(f"{spelled} in {path}: {mend}") from mend


class Wheel:
    """One wheel and its links, as a left-hand corner; `seen` puts a point on its own side.

    pose, frame, moved: the `Pose`, the `Frame` and the `Motion` by travel, in one set of axes.
    middle: the rack's middle line, inboard of the tie rod's inner end.
    """

    def __init__(self, side, pose, frame, moved, middle):
        self.side = side
        self.pose = pose
        self.frame = frame
        self.moved = moved
        self.middle = middle

    def seen(self, point):
        """A point of the left-hand corner where this wheel has it."""
        return point.mirrored() if self.side == "right" else point

    def slope(self):
        """Rise inboard of the line from the contact to the front-view instant centre."""
        return road.slope_by_centre(self.moved, self.pose)

    def centre_of(self, find):
        """An instant centre by a function of `instant.py`; None where there is none."""
        try:
            centre = find(self.moved, self.pose)
        except ZeroDivisionError:
            return None
        return centre if all(map(math.isfinite, centre)) else None


class Picture:
    """A corner or an axle at a pose.

    corner: a `Corner`. travel, rack, roll: as the formulas have them; under a roll the wheels
    stand on the road and find their own travel, so travel must be 0 then. both: the whole
    axle. name: what the picture is called.

    Without roll, points are in the body's axes; with roll, in those of the road. Raises
    `Trouble` with a sentence where the block or the pose is no good.
    """

    forces = None
    """The `Forces` of a load case that it shows, if any."""

    def __init__(self, corner, travel=0.0, rack=0.0, roll=0.0, both=False, name="Front"):
        for label, value in (("travel", travel), ("rack", rack), ("roll", roll)):
            if not math.isfinite(value):
                raise Trouble(f"{label}: {value} given, a number was expected")
        if not abs(roll) < MOST_ROLL:
            raise Trouble(
                f"roll: {roll:g} degrees given, less than {MOST_ROLL:g} to either side was expected"
            )
        if roll and travel:
            raise Trouble(
                "give roll or travel, not both: under a roll the wheels stand on the road and "
                "find their own travel"
            )
        self.corner = corner
        self.travel, self.rack, self.roll = float(travel), float(rack), float(roll)
        self.both = both
        self.name = name
        try:
            corner.hold_linkage()
            hold_left(corner)
            sides = ("left", "right") if both else ("left",)
            self.wheels = [self._wheel(corner, side) for side in sides]
        except Mend as mend:
            raise Trouble(f"{name}: {mend}") from mend
        except (ZeroDivisionError, OverflowError) as error:
            raise Trouble(
                f"{name}: the points make no linkage there that could be drawn"
            ) from error

    def _wheel(self, corner, side):
        sign = 1.0 if side == "left" else -1.0
        rack, roll = sign * self.rack, sign * self.roll
        point = corner.block.point
        frame = outline.Frame(
            *(point(arm + end + "pickup") for arm in ("lower ", "upper ")
              for end in ("front ", "rear "))
        )  # fmt: skip
        inner = corner.drawn.tie_inner
        middle = Vec(inner.x, 0.0, inner.z)
        if roll:
            pose = corner.on_road(roll, 0.0, rack)
            if math.isnan(pose.wheel_centre.z):
                raise Mend(
                    FORMULAS["WHEEL_TRAVEL_IN_ROLL"].why(corner, side, self.roll, 0.0, self.rack)
                )
            stance = road.Stance(roll, 0.0, corner.drawn.contact_centre().z)
            moved = corner.on_road_motion(roll, 0.0, rack)
            return Wheel(side, pose, frame.placed(stance), moved, stance.place(middle))
        if not closes(corner, self.travel, rack):
            raise Mend(why_not(corner, self.travel, self.rack, opposite=side == "right"))
        pose, moved = corner.pose(self.travel, rack), corner.motion(self.travel, rack)
        return Wheel(side, pose, frame, moved, middle)

    def more_points(self):
        """Points besides the wheels and their links that a view must hold."""
        return [] if self.forces is None else self.forces.points()

    def ground(self):
        """The left contact centre and, for the axle, the right one, each where it truly is."""
        return [wheel.seen(wheel.pose.contact_centre()) for wheel in self.wheels]

    def roll_centre(self):
        """Where the lines of both wheels cross in front view; None where they do not.

        Of a single corner, only while the other wheel must be its mirror.
        """
        if not self.both and (self.rack or self.roll):
            return None
        left, right = self.wheels[0], self.wheels[-1]
        try:
            centre = outline.roll_centre(
                left.pose.contact_centre(), right.pose.contact_centre(),
                left.slope(), right.slope(),
            )  # fmt: skip
        except ZeroDivisionError:
            return None
        return centre if all(map(math.isfinite, centre)) else None

    def roll_centre_height(self):
        """Its height above the ground between both contacts; None where there is none."""
        centre = self.roll_centre()
        if centre is None:
            return None
        left, right = self.wheels[0], self.wheels[-1]
        a, b = left.pose.contact_centre(), right.pose.contact_centre()
        return centre.z - (a.z + (b.z - a.z) * (a.y - centre.y) / (a.y + b.y))

    def decimals(self):
        """How many decimals a length is worth showing with, in whatever unit it is."""
        return max(0, 3 - math.floor(math.log10(self.wheels[0].pose.radius)))

    def caption(self):
        """The pose in words."""
        what = "axle" if self.both else "left-hand corner"
        if self.forces is not None:
            what = f"case {self.forces.case.name},"
        if not (self.travel or self.rack or self.roll):
            return f"{self.name}: {what} as drawn"
        first = f"roll {self.roll:g}°" if self.roll else f"travel {self.travel:g}"
        at = f"{first}, rack {self.rack:g}"
        return f"{self.name}: {what} at {at.replace('-', MINUS)}"

    def axes_said(self):
        """Whose axes the picture is in."""
        if self.forces is not None:
            return "forces in the left-hand corner, in the body's axes"
        if self.roll:
            return "in the road's axes, both wheels on a level road"
        return "in the body's axes"

    def measures(self):
        """(name, unit mark, decimals, [value of each wheel]) of what is written beside."""
        length = self.decimals()
        found = [
            (name, "°", 2, [getattr(wheel.pose, measure)() for wheel in self.wheels])
            for name, measure in (
                ("camber", "camber"), ("toe", "toe"), ("caster", "caster"),
                ("kingpin inclination", "inclination"),
            )
        ]  # fmt: skip
        for name in ("trail", "scrub"):
            found.append((name, "", length, [getattr(wheel.pose, name)() for wheel in self.wheels]))
        height = self.roll_centre_height()
        if height is not None:
            found.append(("roll centre height", "", length, [height]))
        return found


INSTANT = {"front": instant.front_centre, "side": instant.side_centre}
"""The instant centre that a view shows."""


def number_text(value, decimals, mark=""):
    """A number as a picture shows it. mark: of its unit, put behind it."""
    shown = "%.*f" % (decimals, value)
    # No minus before a number that is shown as zero.
    return (shown.lstrip("-") if float(shown) == 0.0 else shown.replace("-", MINUS)) + mark
