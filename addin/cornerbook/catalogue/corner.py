"""A corner as formulas see it: a block of cells, its linkage, and the poses asked for."""

from ..geometry import motion
from ..geometry.linkage import Linkage
from ..geometry.numbers import absolute
from ..geometry.pose import Pose
from ..geometry.vec import Vec
from ..geometry.wheel import spindle_of
from .block import Block
from .mend import hold

# Poses kept per corner; a table of some thousand cells asks for each one many times.
KEPT = 16384

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

    rows: a sequence of rows of cells. Raises `Mend` where a row that is needed is
    missing or wrong, or where the points make no linkage.
    """

    def __init__(self, rows):
        self.block = Block(rows)
        self.drawn = DrawnPose(self.block)
        self._linkage = None
        self._poses = {}
        self._motions = {}
        self._last = None

    @property
    def linkage(self):
        """The corner's `Linkage`."""
        if self._linkage is None:
            self._linkage = linkage_of(self.block, self.drawn)
        return self._linkage

    def hold_linkage(self):
        """Raise `Mend` unless the block makes a linkage."""
        self._linkage = self.linkage

    def pose(self, travel, rack):
        """The `Pose` at a travel and rack; floats are solved once, arrays as given.

        Without travel and rack no pickup is needed: the pose is the drawn one.
        """
        if not (isinstance(travel, float) and isinstance(rack, float)):
            return self._array("pose", travel, rack, lambda: self.linkage.pose(travel, rack))
        if travel == 0.0 and rack == 0.0:
            return self.drawn
        return _kept(self._poses, (travel, rack), self._solve)

    def opposite(self, travel, rack):
        """The `Pose` of the wheel on the other side of the car, as a left-hand corner."""
        if isinstance(travel, float) and isinstance(rack, float):
            return self.pose(travel, -rack)
        return self._array("opposite", travel, rack, lambda: self.linkage.pose(travel, -rack))

    def motion(self, travel, rack):
        """The upright's `Motion` per unit of travel at a pose, the rack held."""
        if not (isinstance(travel, float) and isinstance(rack, float)):
            return self._array("motion", travel, rack, lambda: self._move(travel, rack))
        return _kept(self._motions, (travel, rack), self._move)

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


def _kept(store, key, make):
    found = store.get(key)
    if found is None:
        if len(store) >= KEPT:
            store.clear()
        found = store[key] = make(*key)
    return found


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
    return Linkage(spindle=drawn.spindle, radius=drawn.radius, **points)


def _hold_arm(arm, ball, front, rear, same):
    line = front - rear
    hold(
        line.length() > same,
        "%s front pickup and %s rear pickup are one point: "
        "the arm has no axis to turn about" % (arm, arm),
    )
    hold(
        Vec(line.x, line.y, 0.0).length() > same,
        "%s front pickup and %s rear pickup stand one above the other: "
        "the arm's axis must not be upright" % (arm, arm),
    )
    hold(
        _distance(ball, front, line) > same,
        "%s ball joint lies on the line through its two pickups: the arm has no length" % arm,
    )


def _distance(point, on_line, line):
    return line.cross(point - on_line).length() / line.length()
