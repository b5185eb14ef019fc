"""A corner as formulas see it: a block of cells, its linkage, and the poses asked for."""

from ..geometry.corner import motion
from ..geometry.corner.linkage import Linkage
from ..geometry.corner.pose import Pose
from ..geometry.corner.wheel import spindle_of
from ..geometry.front_axle.road import OnRoad
from ..geometry.numbers import absolute, where
from ..geometry.springing.actuation import MOUNTS, Actuation, Rocker
from ..geometry.vec import Vec
from .block import CROWN, ROCKER_POINTS, ROD_MOUNT, Block
from .kept import Store
from .mend import hold

# Static camber or toe of this many degrees is a mistake, and far from any car's.
_MOST_ANGLE = 45.0

# Two points closer than this part of the tyre's radius count as one.
_SAME = 1e-6


class DrawnPose(Pose):
    """The pose as drawn: no travel, no rack. A row is read when it is asked for.

    A pose's fields that are not set yet arrive at `__getattr__`, so a measure reads
    only the rows that it needs.
    """

    __slots__ = ("block",)

    _ROWS = {  # noqa: RUF012 (never changed)
        "lower": "lower ball joint",
        "upper": "upper ball joint",
        "tie_outer": "tie rod outer",
        "tie_inner": "tie rod inner",
        "wheel_centre": "wheel centre",
    }

    def __init__(self, block):
        self.block = block

    def __getattr__(self, name):
        if name == "spindle":
            value = spindle_of(
                _angle(self.block, "static camber"), _angle(self.block, "static toe")
            )
        elif name == "radius":
            value = _radius(self.block)
        elif name == "crown":
            value = _crown(self.block, self)
        elif name in self._ROWS:
            value = self.block.point(self._ROWS[name])
            if name in ("lower", "upper"):
                self._hold_axis(name, value)
        else:
            raise AttributeError(name)
        setattr(self, name, value)
        return value

    def _hold_axis(self, name, value):
        other = self.block.point(self._ROWS["upper" if name == "lower" else "lower"])
        rise = other.z - value.z if name == "lower" else value.z - other.z
        size = (value - other).length()
        hold(
            rise > _SAME * size,
            "the upper ball joint must lie above the lower one for the two to make a steering axis",
        )


class Corner:
    """A left-hand corner made from a block; everything is worked out when asked for.

    rows: a sequence of rows of cells, or a `Block`. Raises `Mend` where a row that is needed is
    missing or wrong, or where the points make no linkage.
    """

    def __init__(self, rows):
        self.block = rows if isinstance(rows, Block) else Block(rows)
        self.drawn = DrawnPose(self.block)
        self._linkage = None
        self._actuation = None
        self._kept = Store(type(self))
        self._last = None
        self._last_roads = []

    @property
    def linkage(self):
        """The corner's `Linkage`."""
        if self._linkage is None:
            self._linkage = linkage_of(self.block, self.drawn)
        return self._linkage

    @property
    def actuation(self):
        """The corner's `Actuation`."""
        if self._actuation is None:
            self._actuation = actuation_of(self.block, self.drawn, self.linkage)
        return self._actuation

    def hold_linkage(self):
        """Raise `Mend` unless the block makes a linkage."""
        self._linkage = self.linkage

    def hold_actuation(self):
        """Raise `Mend` unless the block's rows of the spring make an actuation."""
        self._actuation = self.actuation

    def pose(self, travel, rack):
        """The `Pose` at a travel and rack; floats are solved once, arrays as given.

        Without travel and rack no pickup is needed: the pose is the drawn one.
        """
        if not (isinstance(travel, float) and isinstance(rack, float)):
            return self._array("pose", travel, rack, lambda: self.linkage.pose(travel, rack))
        if travel == 0.0 and rack == 0.0:
            return self.drawn
        return self._kept.get("pose", (travel, rack), self._solve)

    def once(self, kind, numbers, make):
        """What `make(*numbers)` gives, worked out once for the same kind and floats.

        kind: anything that can be hashed. For formulas that give one part of a whole each.
        """
        if all(isinstance(number, float) for number in numbers):
            return self._kept.get(kind, numbers, make)
        return make(*numbers)

    def opposite(self, travel, rack):
        """The `Pose` of the wheel on the other side of the car, as a left-hand corner."""
        if isinstance(travel, float) and isinstance(rack, float):
            return self.pose(travel, -rack)
        return self._array("opposite", travel, rack, lambda: self.linkage.pose(travel, -rack))

    def motion(self, travel, rack):
        """The upright's `Motion` per unit of travel at a pose, the rack held."""
        if not (isinstance(travel, float) and isinstance(rack, float)):
            return self._array("motion", travel, rack, lambda: self._move(travel, rack))
        return self._kept.get("motion", (travel, rack), self._move)

    def on_road(self, roll, heave, rack):
        """The wheel's `Pose` in the road's axes, the body rolled and heaved over it.

        roll: degrees. The right-hand wheel is had by the opposite roll and rack. Floats are
        solved once; arrays for as long as both wheels are asked for in turn.
        """
        if not _plain(roll, heave, rack):
            return self._array_on_road(roll, heave, rack)[0].pose
        if roll == 0.0 and heave == 0.0 and rack == 0.0:
            return self.drawn
        return self._kept.get("road", (roll, heave, rack), self._stand).pose

    def on_road_motion(self, roll, heave, rack):
        """The upright's `Motion` per unit of travel there, body and rack held, in road axes."""
        if not _plain(roll, heave, rack):
            solved = self._array_on_road(roll, heave, rack)
            if len(solved) == 1:
                solved.append(solved[0].motion())
            return solved[1]
        if roll == 0.0 and heave == 0.0 and rack == 0.0:
            return self.motion(0.0, 0.0)
        return self._kept.get("road motion", (roll, heave, rack), self._move_on_road)

    def _stand(self, roll, heave, rack):
        return OnRoad(self.linkage, self.drawn, roll, heave, rack)

    def _move_on_road(self, roll, heave, rack):
        return self._kept.get("road", (roll, heave, rack), self._stand).motion()

    def _array_on_road(self, roll, heave, rack):
        """[the wheel on the road] for these very arrays, of the two latest or solved now."""
        for asked, solved in self._last_roads:
            if asked[0] is roll and asked[1] is heave and asked[2] is rack:
                return solved
        solved = [self._stand(roll, heave, rack)]
        self._last_roads = [*self._last_roads[-1:], ((roll, heave, rack), solved)]
        return solved

    def actuated(self, travel, rack):
        """The `Actuated` at a pose: spring length, motion ratio and its change, rocker."""
        if not (isinstance(travel, float) and isinstance(rack, float)):
            return self._array("actuated", travel, rack, lambda: self._actuate(travel, rack))
        return self._kept.get("actuated", (travel, rack), self._actuate)

    def _array(self, what, travel, rack, make):
        """What was made for these very arrays a moment ago, or made now."""
        last = self._last
        if last is None or last[0] is not travel or last[1] is not rack:
            last = self._last = (travel, rack, {})
        if what not in last[2]:
            last[2][what] = make()
        return last[2][what]

    def _solve(self, travel, rack):
        return self.linkage.pose(travel, rack)

    def _move(self, travel, rack):
        return motion.by_travel(self.linkage, self.pose(travel, rack))

    def _actuate(self, travel, rack):
        pose, moved = self.pose(travel, rack), self.motion(travel, rack)
        return self.actuation.at(self.linkage, pose, moved)


def _plain(*values):
    return all(isinstance(value, float) for value in values)


def _angle(block, label):
    angle = block.value(label)
    hold(
        absolute(angle) < _MOST_ANGLE,
        label + ": %s degrees given, less than %s to either side was expected",
        angle,
        _MOST_ANGLE,
    )
    return angle


def _radius(block):
    radius = block.value("tyre radius")
    hold(radius > 0.0, "tyre radius: %s given, a length above 0 was expected", radius)
    return radius


def _crown(block, drawn):
    """The crown radius; nothing where there is no such row."""
    if not block.has(CROWN):
        return 0.0
    crown = block.value(CROWN)
    hold(
        where(crown >= 0.0, where(crown < drawn.radius, True, False), False),
        CROWN + ": %s given, 0 for none, or a length below the tyre radius was expected",
        crown,
    )
    return crown


def linkage_of(block, drawn):
    """The `Linkage` of a block and its drawn pose; `Mend` where the points make none."""
    points = {
        "lower_ball": drawn.lower,
        "lower_front": block.point("lower front pickup"),
        "lower_rear": block.point("lower rear pickup"),
        "upper_ball": drawn.upper,
        "upper_front": block.point("upper front pickup"),
        "upper_rear": block.point("upper rear pickup"),
        "tie_outer": block.point("tie rod outer"),
        "tie_inner": block.point("tie rod inner"),
        "wheel_centre": drawn.wheel_centre,
    }
    same = _SAME * drawn.radius
    for arm in ("lower", "upper"):
        _hold_arm(arm, points[arm + "_ball"], points[arm + "_front"], points[arm + "_rear"], same)
    rod = points["tie_inner"] - points["tie_outer"]
    hold(
        rod.length() > same,
        "tie rod outer and tie rod inner are one point: the rod has no length",
    )
    upright = points["upper_ball"] - points["lower_ball"]
    for end in ("tie_outer", "tie_inner"):
        hold(
            _distance(points[end], points["lower_ball"], upright) > same,
            end.replace("tie_", "tie rod ")
            + " lies on the steering axis: the tie rod has no lever to turn the wheel",
        )
    return Linkage(spindle=drawn.spindle, radius=drawn.radius, crown=drawn.crown, **points)


def has_rocker(block):
    """Whether any row of a rocker is filled; else the spring stands on the rod's outer point."""
    return block.has_rocker()


def upright_carries_spring(block):
    """Whether the rod, or the spring, stands on the upright, which turns it as the wheel steers."""
    return block.word(ROD_MOUNT, MOUNTS) == "upright"


def actuation_of(block, drawn, linkage):
    """The `Actuation` of a block; `Mend` where its points make none."""
    mount = block.word(ROD_MOUNT, MOUNTS)
    same = _SAME * drawn.radius
    outer, frame = block.point("rod outer"), block.point("spring frame")
    if not has_rocker(block):
        hold(
            (frame - outer).length() > same,
            "rod outer and spring frame are one point: the spring has no length",
        )
        return Actuation(linkage, drawn, mount, outer, frame)
    inner, pivot, axis_point, end = (block.point(label) for label in ROCKER_POINTS)
    axis = axis_point - pivot
    hold(
        axis.length() > same,
        "rocker pivot and rocker axis are one point: the rocker's axis has no direction",
    )
    rod = outer - inner
    hold(rod.length() > same, "rod outer and rod inner are one point: the rod has no length")
    for label, point in (("rod inner", inner), ("spring rocker", end)):
        hold(
            _distance(point, pivot, axis) > same,
            label + " lies on the rocker's axis and has no lever about it",
        )
    hold(
        (frame - end).length() > same,
        "spring rocker and spring frame are one point: the spring has no length",
    )
    across = axis.cross(inner - pivot)
    hold(
        absolute(rod.dot(across)) > _SAME * rod.length() * across.length(),
        "rod outer, rod inner and the rocker's axis lie in one plane as drawn: "
        "the rod is over centre and cannot turn the rocker",
    )
    rocker = Rocker(outer, inner, pivot, axis_point, end, frame)
    return Actuation(linkage, drawn, mount, outer, frame, rocker)


def _hold_arm(arm, ball, front, rear, same):
    line = front - rear
    hold(
        line.length() > same,
        f"{arm} front pickup and {arm} rear pickup are one point: "
        "the arm has no axis to turn about",
    )
    hold(
        Vec(line.x, line.y, 0.0).length() > same,
        f"{arm} front pickup and {arm} rear pickup stand one above the other: "
        "the arm's axis must not be upright",
    )
    hold(
        _distance(ball, front, line) > same,
        f"{arm} ball joint lies on the line through its two pickups: the arm has no length",
    )


def _distance(point, on_line, line):
    return line.cross(point - on_line).length() / line.length()
