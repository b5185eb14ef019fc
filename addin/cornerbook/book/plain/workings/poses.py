"""A corner's poses in plain formulas: by travel and rack, and on the road under a rolled body.

Both kinds have a table with a row for each pose asked for. `names` are what a row asks for;
`keeps_motion` says whether tables that fetch a pose fetch its motion as well, or work it out
from the pose.
"""

from ....cells.corner import DrawnPose
from ....geometry.corner import motion
from ....geometry.front_axle.road import OnRoad
from ..recorded.block import ImportedBlock
from ..recorded.corners import PoseCorner
from ..recorded.naming import named_steps
from .measures import Measures
from .poses_table import PosesTable


class Poses:
    """The pose for each travel and rack asked for, and what is measured there.

    name: what the block is called. points: its `Points`.
    """

    names = ("travel", "rack")
    keeps_motion = False

    def __init__(self, name, points):
        self.table = PosesTable(f"Poses of {name}", "a row for each travel and rack asked for")
        self.points = points
        self.asked = _asked(self.table, self.names)
        self.measures = Measures(self.table, points, self.asked, lambda: PoseCorner(self))
        self._solved = None
        self._motion = None

    def pose(self):
        """The pose as steps of a row."""
        return self._solve()[0]

    def linkage(self):
        """The linkage as steps that the table reads."""
        return self._solve()[1]

    def _solve(self):
        if self._solved is None:
            linkage = self.points.imported(self.table, self.points.linkage()[0])
            with named_steps():
                pose = linkage.pose(*map(self.table.bare, self.names))
            self._solved = (pose, linkage)
        return self._solved

    def motion(self):
        """The motion per travel as steps of a row."""
        if self._motion is None:
            pose, linkage = self._solve()
            with named_steps():
                self._motion = motion.by_travel(linkage, pose)
        return self._motion


class RoadPoses:
    """The wheel on the road, in the road's axes, for each roll, heave and rack asked for.

    name: what the block is called. points: its `Points`.
    """

    names = ("roll", "heave", "rack")
    keeps_motion = True

    def __init__(self, name, points):
        note = "a row for each roll, heave and rack asked for"
        self.table = PosesTable(f"{name} on the road", note)
        self.points = points
        self.asked = _asked(self.table, self.names)
        self._solved = None
        self._motion = None

    def pose(self):
        """The pose as steps of a row."""
        return self._solve().pose

    def _solve(self):
        if self._solved is None:
            linkage = self.points.imported(self.table, self.points.linkage()[0])
            drawn = DrawnPose(ImportedBlock(self.points, self.table))
            with named_steps():
                self._solved = OnRoad(linkage, drawn, *map(self.table.bare, self.names))
        return self._solved

    def motion(self):
        """The motion per travel as steps of a row."""
        if self._motion is None:
            solved = self._solve()
            with named_steps():
                self._motion = solved.motion()
        return self._motion


def _asked(table, names):
    """The given columns of what a row asks for, as steps."""
    return tuple(table.input(name, "Asked for", name) for name in names)
