"""The points of a corner solved for its wishes, and which of these are met."""

import numpy as np

from ....geometry.numbers import NAN
from ....geometry.vec import Vec
from . import least, shape
from .measures import LINKS, Posed
from .moving import Moving
from .wishes import MEASURES, UNTIL, missed

WAYS = 11
"""Travels at which the worst is looked for while points move; a sheet has about twice as many."""

PASSES = 2
"""So many times each wish that is not met is tried again."""

MOST_FAILED = 12
"""Of a car that misses more, no wish is tried by itself: one of proportions that no car has."""

INSIDE = 0.04
"""How far inside of a band a result is brought, as a part of it: rounding moves it a little."""

EVALUATIONS = 40
"""Of all wishes, at most."""

_HEIGHT = 0.2
"""Tyre radii by which a ball joint may stand off the height that is aimed at."""

_LESS = (1.0, 0.8, 0.6, 0.4)
_STRAIGHTER = (1.0, 0.6, 0.2, -0.2)
"""Parts of the rack's way, and of how far the steering arm points inward, to begin with."""

_FREE = tuple(label for label in LINKS.values() if label != "Wheel centre")


class Task:
    """What is solved: `start`, {row: `Vec`}, of which those not given may move.

    given: names of rows that stay; lock: the rack's way to full lock, and whether it may move;
    wishes: {name: `Wish`}; settings: the car's `Settings`. left_out: names of measures that are
    not asked for; counts: {measure: what a miss of it counts} where that is another than usual.
    """

    def __init__(self, start, given, lock, lock_moves, wishes, settings, left_out=(), counts=None):
        self.start = start
        self.given = frozenset(given)
        self.lock = lock
        self.wishes = wishes
        self.settings = settings
        self.left_out = frozenset(left_out)
        self.counts = counts or {}
        self.moving = Moving(
            start, [(label, axis) for label in _FREE if label not in given for axis in "xyz"]
        )
        self.lock_moves = lock_moves
        self.first = np.append(self.moving.first, [lock] * lock_moves)

    def changed(self, **fields):
        """The same task with other arguments."""
        own = {name: getattr(self, name) for name in (
            "start", "given", "lock", "lock_moves", "wishes", "settings", "left_out", "counts",
        )}  # fmt: skip
        return Task(**{**own, **fields})

    def posed(self, variables, ways=WAYS):
        """The `Posed` of corners, one a row of variables."""
        lock = variables[:, [-1]] if self.lock_moves else np.full((len(variables), 1), self.lock)
        return Posed(self.moving.places(variables), lock, self.settings, ways)

    def misses(self, variables):
        """(cars, misses) to be made small."""
        posed = self.posed(variables)
        found = []
        for name, values in posed.all().items():
            wish = self.wishes.get(MEASURES[name].wish)
            if wish is None or name in self.left_out:
                continue
            count = self.counts.get(name, least.BAND if MEASURES[name].first else 0.0)
            room = INSIDE * wish.width if np.isfinite(wish.width) else 0.0
            found.append(
                count * shape.misses(values, wish.low + room, wish.high - room, wish.width)
            )
            if name == "toe_change":
                found.append(least.PULL * (values - 0.5 * (wish.low + wish.high)) / wish.width)
            aim = _aim(name, wish)
            if aim is not None:
                count = least.AIM_GIVEN if wish.aimed else least.AIM
                found.append(count * (values - aim) / wish.width)
        for name in UNTIL:
            arm = name.partition("_")[0].capitalize()
            away = posed.points[f"{arm} ball joint"].z - self.wishes[name].aim
            away = away / self.settings.radius
            found.append(least.AIM * away)
            found.append(least.BAND * shape.misses(away, -_HEIGHT, _HEIGHT, 1.0))
        for values, low, high, _ in shape.shape(posed):
            width = min(high - low, 1.0 if high < shape.LARGEST else 15.0)
            found.append(least.URGENT * shape.misses(values, low, high, width))
        found += least.kept_near(variables, self.first, self.settings.radius)
        return least.side_by_side(found, len(variables))

    def solved(self, evaluations=EVALUATIONS):
        """The variables solved."""
        scale = np.full(len(self.first), 0.1 * self.settings.radius)
        with np.errstate(all="ignore"):
            return least.moved(self.misses, self._reaching(), scale, evaluations)

    def _reaching(self):
        """The start, its lock less and its steering arm straighter until it reaches its poses."""
        tries = np.array([self.first] * (len(_LESS) * len(_STRAIGHTER)))
        places = {key: i for i, key in enumerate(self.moving.coordinates)}
        outer = places.get(("Tie rod outer", "y"))
        lower, upper = self.start["Lower ball joint"], self.start["Upper ball joint"]
        end = self.start["Tie rod outer"]
        on_axis = lower.y + (upper.y - lower.y) * (end.z - lower.z) / (upper.z - lower.z)
        for i, (straighter, less) in enumerate((s, n) for s in _STRAIGHTER for n in _LESS):
            if self.lock_moves:
                tries[i, -1] *= less
            if outer is not None:
                tries[i, outer] = on_axis + (end.y - on_axis) * straighter
        reached = self.posed(tries).reached()
        return tries[int(np.argmax(reached))] if reached.any() else self.first

    def points(self, variables):
        """({row: `Vec` of floats}, lock) of variables."""
        lock = float(variables[-1]) if self.lock_moves else self.lock
        return self.moving.points(variables), lock


def solve(task):
    """(the `Task` as solved, its variables): all wishes that come first, then one by one those that
    are not met yet, where that costs none that is.
    """
    variables = task.solved()
    failed = _failed(task, variables)
    if len(failed) > MOST_FAILED:
        return task, variables
    for _ in range(PASSES):
        before = task
        for name in [n for n in failed if n in MEASURES]:
            more = task.changed(counts={**task.counts, name: least.URGENT})
            trial = more.solved()
            there = _failed(more, trial)
            if name not in there and set(there) < set(failed):
                task, variables, failed = more, trial, there
        # The others may have made room for one that comes first. Where none was met, all would be
        # tried again from the same.
        if task is before or not any(n in MEASURES and MEASURES[n].first for n in failed):
            break
    return task, variables


_ODD, _BESIDE = "odd", "beside "
"""Stand among the measures that are not met for a corner that CHECK would want a look at, and
before the name of one that is beside an aim that was given."""

BESIDE = 0.02
"""What part of a band's width an aim may be missed by."""


def _failed(task, variables):
    with np.errstate(all="ignore"):
        usual = shape.is_usual(task.posed(variables[None, :], 3))
    first = task.moving.first
    near = least.is_near(variables[: len(first)], first, task.settings.radius)
    odd = [] if usual and near else [_ODD]
    found = judged(*task.points(variables), task.wishes, task.settings)
    # An aim that was given is not left for another wish either.
    beside = [f"{_BESIDE}{name}" for name, ends in found.items()
              if misses_aim(name, ends, task.wishes[MEASURES[name].wish])]  # fmt: skip
    return missed(found, task.wishes) + beside + odd


def misses_aim(name, ends, wish):
    """Whether a measure as drawn is beside the aim that was given for it."""
    if not wish.aimed or name != MEASURES[name].wish:
        return False
    return not max(abs(end - wish.aim) for end in ends) <= BESIDE * wish.width


def _aim(name, wish):
    """What a measure as drawn is aimed at; None where its band is all that counts."""
    if name == "bump_steer" and wish.aim is None:
        return 0.5 * (wish.low + wish.high)
    return wish.aim if name == MEASURES[name].wish else None


def posed_of(points, lock, settings, ways):
    """The `Posed` of one corner, its points and lock given as floats."""
    columns = {
        label: Vec(*(np.array([[part]]) for part in points[label])) for label in LINKS.values()
    }
    return Posed(columns, np.array([[lock]]), settings, ways)


def judged(points, lock, wishes, settings, ways=21):
    """{measure: (least, most)} of a corner as it is, NaN for both where it does not reach."""
    with np.errstate(all="ignore"):
        posed = posed_of(points, lock, settings, ways)
        return {
            name: _ends(values[0])
            for name, values in posed.all().items()
            if MEASURES[name].wish in wishes
        }


def _ends(values):
    if not np.all(np.isfinite(values)):
        return NAN, NAN
    return float(values.min()), float(values.max())
