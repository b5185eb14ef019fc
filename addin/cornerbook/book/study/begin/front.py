"""The front corner of a car of few numbers: linkage, spring and column, placed and solved."""

from ....geometry.vec import Vec
from . import column, corner, fights, placing, rocker
from .measures import LINKS
from .numbers import rounded
from .story import PROPORTION, SOLVED, aimed_words, measured_words
from .wishes import MEASURES

_SOLVED = {
    "Wheel centre": "placed for front track, tyre radius and static camber",
    "Lower ball joint": "solved for caster, kingpin inclination, trail and scrub",
    "Upper ball joint": "solved for caster, kingpin inclination, trail and scrub",
    "Tie rod outer": "solved for Ackermann and turn, clear of rim and toggle",
    "Tie rod inner": "solved for little toe change in bump",
}
_PICKUP = "solved for camber gain, roll centre, anti-dive and room for joints and rim"
_ROCKER = "placed in proportion, then solved for the motion ratio"
_PINION = "by the rack, in proportion to the tyre radius"
_WHEEL = "as far from the driver's hip joint as in the demonstration"
_JOINT = "at the same part of the way, then moved for bends and ripple"


class Front:
    """The front corner. frame: the `Frame`; lock: the rack's way to full lock, None if not given;
    wishes: {name: `Wish`}.

    points: {row: `Vec`} of the linkage and the spring, mm; found: {measure: (least, most)}.
    """

    def __init__(self, frame, lock, wishes):
        self.frame = frame
        self.settings = frame.settings
        self.wishes = wishes
        self.lock_moves = lock is None
        self.lock = lock
        self.given = frozenset(frame.given)
        self.points = {}
        self.sources = {}
        self.spring_sources = {}
        self.column_sources = {}
        self.found = {}
        self._task = None

    # ---------------------------------------------------------------- the linkage

    def solve(self, coarse, fine, to_unit, to_mm):
        """Place and solve the linkage, rounded to one of two steps of the scenario's unit."""
        lock = (
            self.lock if self.lock is not None else self.frame.example.lock * self.frame.ratio.tyre
        )
        start = placing.start(self.frame)
        if "Wheel centre" not in self.given:
            start["Wheel centre"] = _rounded(start["Wheel centre"], fine, to_unit, to_mm)
        task = corner.Task(start, self.given, lock, self.lock_moves, self.wishes, self.settings)
        self._task, variables = corner.solve(task)
        best = None
        for step in (coarse, fine):
            points, lock = task.points(variables)
            points = {
                label: vec if label in self.given or label == "Wheel centre"
                else _rounded(vec, step, to_unit, to_mm)
                for label, vec in points.items()
            }  # fmt: skip
            if self.lock_moves:
                lock = to_mm(rounded(to_unit(lock), step))
            found = corner.judged(points, lock, self.wishes, self.settings)
            failed = fights.unmet(found, self.wishes)
            if best is None or len(failed) < len(best[3]):
                best = points, lock, found, failed
        self.points, self.lock, found, _ = best
        self.solved = bool(task.moving.coordinates or self.lock_moves)
        if self.solved:
            self.found.update(found)
        for label in LINKS.values():
            self.sources[label] = (SOLVED, _SOLVED.get(label, _PICKUP))

    def drawn(self):
        """The `Pose` as drawn."""
        return placing.drawn_pose(self.frame, self.points)

    # ---------------------------------------------------------------- spring and column

    def spring(self, mount, to_unit, to_mm, step):
        """Place and solve rod, rocker and spring on the linkage."""
        places = rocker.start(self.frame, self.points, mount)
        posed = corner.posed_of(self.points, self.lock, self.settings, rocker.WAYS)
        task = rocker.Task(places, self.given, mount, posed, self.wishes)
        if task.moving.coordinates:
            places = {
                label: vec if label in self.given else _rounded(vec, step, to_unit, to_mm)
                for label, vec in task.solved().items()
            }  # fmt: skip
        found, self.spring_length, self.motion_ratio = rocker.judged(
            places, mount, posed, self.wishes
        )
        if task.moving.coordinates:
            self.found.update(found)
        self.points.update(places)
        self.spring_sources = dict.fromkeys(places, (SOLVED, _ROCKER))
        theirs, settings = self.frame.theirs, self.frame.example.settings
        their_posed = corner.posed_of(theirs, self.frame.example.lock, settings, rocker.WAYS)
        their_places = {label: theirs[label] for label in rocker.LABELS}
        self.their_spring_length = rocker.judged(
            their_places, self.frame.example.mount, their_posed, self.wishes
        )[1]

    def steer(self, given, theirs, ratio, moved, to_unit, to_mm, step):
        """Place the column between the rack and the driver, who has moved along the car."""
        their_rack = self.frame.theirs["Tie rod inner"]
        self.column = column.start(
            given, theirs, ratio, moved, self.points["Tie rod inner"], their_rack
        )
        found = column.judged(self.column)
        missed = fights.unmet(found, self.wishes)
        if missed and not set(self.column) <= set(given):
            self.column = column.solved(self.column, given, self.wishes, self.settings.radius)
        self.column = {
            label: vec if label in given else _rounded(vec, step, to_unit, to_mm)
            for label, vec in self.column.items()
        }
        if not set(self.column) <= set(given):
            self.found.update(column.judged(self.column))
        joint = (SOLVED, _JOINT)
        self.column_sources = {
            column.WHEEL: (PROPORTION, _WHEEL), column.PINION: (PROPORTION, _PINION),
            column.UPPER: joint, column.LOWER: joint,
        }  # fmt: skip

    # ---------------------------------------------------------------- what is not met

    def unmet(self, unit):
        """Lines on the wishes that are not met, each with what stands against it."""
        names = fights.unmet(self.found, self.wishes)
        beside = self._beside_aims(unit, names)
        if not names:
            return beside
        why = fights.Why(self._task, self.found, self.given & set(LINKS.values()))
        lines = []
        for name in names:
            wish = self.wishes[MEASURES[name].wish]
            said = measured_words(name, self.found[name], wish, unit)
            against = why.of(name) if name in why.found else "Not reached by its points alone."
            line = f"- {said}. {against}"
            if line not in lines:
                lines.append(line)
        return lines + beside

    def _beside_aims(self, unit, names):
        """Lines on aims that were given and are not quite reached, though their band is met."""
        lines = []
        for name, ends in self.found.items():
            wish = self.wishes[MEASURES[name].wish]
            if name not in names and corner.misses_aim(name, ends, wish) and ends[0] == ends[1]:
                lines.append(f"- {aimed_words(name, ends[0], wish, unit)}.")
        return lines


def _rounded(vec, step, to_unit, to_mm):
    return Vec(*(to_mm(rounded(to_unit(part), step)) for part in vec))
