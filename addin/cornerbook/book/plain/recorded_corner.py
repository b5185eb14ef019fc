"""What a recorded formula sees in place of a corner: steps of one table or another."""

from ...cells.corner import Corner, DrawnPose
from ...geometry import motion


class DrawnCorner(Corner):
    """A corner as drawn: steps of the points' table. Made afresh for each measure, so that
    what is asked for is said in the measure's own order."""

    def __init__(self, workings):
        self.workings = workings
        self.block = workings.block
        self.drawn = DrawnPose(workings.block)

    @property
    def linkage(self):
        made, said = self.workings.linkage()
        self.workings.points.recorder.said.append(said)
        return made

    def pose(self, travel, rack):
        return self.drawn

    def opposite(self, travel, rack):
        return self.drawn

    def motion(self, travel, rack):
        return motion.by_travel(self.linkage, self.drawn)

    def actuated(self, travel, rack):
        made, said = self.workings.actuation()
        self.workings.points.recorder.said.append(said)
        return made.at(self.linkage, self.drawn, self.motion(travel, rack))


class PoseCorner(Corner):
    """A corner at a row's pose: steps of the poses' table."""

    def __init__(self, workings):
        self.workings = workings
        self.block = ImportedBlock(workings, workings.poses)
        self.drawn = DrawnPose(self.block)

    @property
    def linkage(self):
        return self.workings.pose()[1]

    def pose(self, travel, rack):
        if travel is not self.workings.travel or rack is not self.workings.rack:
            raise NotImplementedError("a measure at one pose asks for another one")
        return self.workings.pose()[0]

    def motion(self, travel, rack):
        return self.workings.motion()


def imported_actuation(workings, table):
    """The actuation as another table reads it; what is wrong with it is said there."""
    made, said = workings.actuation()
    table.recorder.said.append(table.import_step(workings.points, said))
    return workings.imported(table, made)


class ImportedBlock:
    """The block's numbers as another table reads them; what is wrong is said elsewhere."""

    def __init__(self, workings, table):
        self.workings = workings
        self.table = table
        self.has = workings.block.has
        self.word = workings.block.word

    def point(self, label):
        return self._import(self.workings.block.point(label))

    def value(self, label):
        return self._import(self.workings.block.value(label))

    def _import(self, thing):
        return self.workings.imported(self.table, thing)
