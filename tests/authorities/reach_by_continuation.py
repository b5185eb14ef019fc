"""How far a corner goes from where it is drawn, found by following its constraints step by step.

Unknowns are the nine coordinates of the two ball joints and the tie rod's outer end, and how
far along a straight way of travel and rack the corner has come. Nine equations hold them: the
four arm lengths, the three lengths of the upright, the rod's length and the height of the
wheel centre, all of them polynomials. They leave a curve, which is followed from the drawn
place by its arc length: a step along the tangent, then Newton's method square to it (pseudo
arc length continuation: H. B. Keller 1977; E. L. Allgower and K. Georg, *Numerical Continuation
Methods*, 1990, chapter 2; both from memory). An arm or the rod that comes into line with what it
carries is no end of that curve. Its end is where the travel and rack turn back along it: there
and nowhere before it, two assemblies meet. Two more ends are chosen by the project, not
derived: the wheel turned a quarter turn, and the tie rod pointing the other way across the car.

Lengths in mm. Nothing of the package's geometry is used.
"""

import numpy as np

ARMS = (
    (0, "lower ball joint", "lower front pickup"),
    (0, "lower ball joint", "lower rear pickup"),
    (1, "upper ball joint", "upper front pickup"),
    (1, "upper ball joint", "upper rear pickup"),
)
BODY = ("lower ball joint", "upper ball joint", "tie rod outer")
PAIRS = ((0, 1), (1, 2), (2, 0))
LINKS = np.zeros((8, 3))
"""Of which joint each link's way counts forward or backward: the arms, the upright's, the rod's."""
LINKS[range(4), [joint for joint, _, _ in ARMS]] = 1.0
for _row, (_a, _b) in enumerate(PAIRS, 4):
    LINKS[_row, [_a, _b]] = 1.0, -1.0
LINKS[7, 2] = 1.0

STEP = 4.0
"""Longest step along the curve, in mm of all coordinates together."""

# A step is taken again at half its length where the curve bends by more than this cosine, or
# where Newton's method had to move by more than this part of the step.
_STRAIGHT = 0.995
_CORRECTED = 0.1

# A step this short, in mm, has come to the end.
_SHORTEST = 1e-8

SAME_PLACE = 1e-7
"""In mm: how well a place is found, but for the last bit before the end."""


class Followed:
    """What was found on n ways, each with a corner of its own.

    reached: truths (n,), whether the way was gone to its end. share: how much of the way was
    gone (n,), to the true limit where it was not reached. points: lower ball joint, upper ball
    joint, tie rod's outer end there, (n, 3, 3). centre, spindle: of the wheel there (n, 3).
    """

    def __init__(self, ways, unknown, reached):
        self.reached = reached
        self.share = ways.start_share + unknown[:, 9] / ways.length
        self.points = unknown[:, :9].reshape(-1, 3, 3)
        self.centre = ways.wheel(self.points, ways.centre)
        self.spindle = ways.wheel(self.points, ways.spindle, free=True)
        self.unknown = unknown

    def angles_to(self, other, corners):
        """Largest angle in degrees (n,) by which an arm or the upright differs from another's."""
        most = np.zeros(len(self.share))
        for place, name, front, rear in (
            (0, "lower ball joint", "lower front pickup", "lower rear pickup"),
            (1, "upper ball joint", "upper front pickup", "upper rear pickup"),
        ):
            line = corners.points[front] - corners.points[rear]
            line = line / np.linalg.norm(line, axis=1, keepdims=True)
            way = corners.points[name] - corners.points[rear]
            way = way - line * (way * line).sum(1, keepdims=True)
            chord = np.linalg.norm(self.points[:, place] - other.points[:, place], axis=1)
            radius = np.linalg.norm(way, axis=1)
            most = np.maximum(most, 2 * np.arcsin(np.clip(chord / (2 * radius), 0, 1)))
        chord = np.linalg.norm(self.spindle - other.spindle, axis=1)
        return np.degrees(np.maximum(most, 2 * np.arcsin(np.clip(chord / 2, 0, 1))))


class Ways:
    """n straight ways of travel and rack, each of its own corner.

    corners: points (n, 3) and values (n,) by name. travel, rack: (start, end) of each, shapes
    (n,); by default all start as drawn. `found` of an earlier part of the way may be given to
    `follow`.
    """

    def __init__(self, corners, travel, rack, start=None):
        points = corners.points
        n = len(points["wheel centre"])
        self.n = n
        self.body = np.stack([points[name] for name in BODY], axis=1)
        pickups = np.stack([points[pickup] for _, _, pickup in ARMS], axis=1)
        self.inner = points["tie rod inner"]
        # What of each link stands in the body, or is the way of a pair.
        self.fixed = np.zeros((n, 8, 3))
        self.fixed[:, :4], self.fixed[:, 7] = pickups, self.inner
        self.length2 = ((LINKS @ self.body - self.fixed) ** 2).sum(2)
        self.rod_way = np.sign(points["tie rod outer"][:, 1] - self.inner[:, 1])
        frame = self._frame(self.body)
        self.height = points["wheel centre"][:, 2]
        self.centre = self._shares(frame, points["wheel centre"] - self.body[:, 0])
        camber, toe = (np.radians(corners.values["static " + name]) for name in ("camber", "toe"))
        spindle = np.column_stack(
            [np.cos(camber) * np.sin(toe), np.cos(camber) * np.cos(toe), -np.sin(camber)]
        )
        self.spindle = self._shares(frame, spindle)

        begin_travel, begin_rack = start if start is not None else (np.zeros(n), np.zeros(n))
        self.begin = np.stack([begin_travel, begin_rack], axis=1)
        way = np.stack([np.broadcast_to(travel, n), np.broadcast_to(rack, n)], axis=1) - self.begin
        self.length = np.linalg.norm(way, axis=1)
        self.way = way / self.length[:, None]
        self.start_share = np.zeros(n)

    @staticmethod
    def _frame(body):
        one, two = body[:, 1] - body[:, 0], body[:, 2] - body[:, 0]
        return np.stack([one, two, np.cross(one, two)], axis=2)

    @staticmethod
    def _shares(frame, vector):
        return np.linalg.solve(frame, vector[:, :, None])[:, :, 0]

    def wheel(self, body, shares, free=False):
        """A point of the wheel, or a direction if it is free, (n, 3)."""
        vector = (self._frame(body) @ shares[:, :, None])[:, :, 0]
        return vector if free else body[:, 0] + vector

    def misses(self, unknown):
        """By how much each equation is missed (n, 9), and its slopes (n, 9, 10)."""
        n = len(unknown)
        body = unknown[:, :9].reshape(n, 3, 3)
        place = self.begin + self.way * unknown[:, 9:]
        found = np.empty((n, 9))
        slopes = np.zeros((n, 9, 10))
        links = LINKS @ body - self.fixed
        links[:, 7, 1] -= place[:, 1]
        found[:, :8] = 0.5 * ((links**2).sum(2) - self.length2)
        slopes[:, :8, :9] = (LINKS[:, :, None] * links[:, :, None, :]).reshape(n, 8, 9)
        slopes[:, 7, 9] = -links[:, 7, 1] * self.way[:, 1]
        one, two = body[:, 1] - body[:, 0], body[:, 2] - body[:, 0]
        a, b, c = self.centre.T
        # The centre's height is that of the first joint and of a one + b two + c (one x two),
        # whose last z is one.x two.y - one.y two.x.
        across = one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0]
        height = body[:, 0, 2] + a * one[:, 2] + b * two[:, 2] + c * across
        found[:, 8] = height - self.height - place[:, 0]
        by_one = np.stack([c * two[:, 1], -c * two[:, 0], a], axis=1)
        by_two = np.stack([-c * one[:, 1], c * one[:, 0], b], axis=1)
        slopes[:, 8, :3] = [0.0, 0.0, 1.0] - by_one - by_two
        slopes[:, 8, 3:6] = by_one
        slopes[:, 8, 6:9] = by_two
        slopes[:, 8, 9] = -self.way[:, 0]
        return found, slopes

    def part(self, chosen):
        """The same ways, but only the chosen ones."""
        part = object.__new__(Ways)
        for name, value in vars(self).items():
            setattr(part, name, value[chosen] if isinstance(value, np.ndarray) else value)
        part.n = int(np.count_nonzero(chosen)) if chosen.dtype == bool else len(chosen)
        return part

    def at_start(self):
        """The unknowns as drawn (n, 10)."""
        return np.concatenate([self.body.reshape(self.n, 9), np.zeros((self.n, 1))], axis=1)


def _tangent(slopes, before):
    """Unit tangents (n, 10), in the sense of those before."""
    system = np.concatenate([slopes, before[:, None, :]], axis=1)
    right = np.zeros((len(before), 10, 1))
    right[:, 9] = 1.0
    with np.errstate(all="ignore"):
        found = _solved(system, right)[:, :, 0]
    return found / np.linalg.norm(found, axis=1, keepdims=True)


def _solved(system, right):
    try:
        return np.linalg.solve(system, right)
    except np.linalg.LinAlgError:
        # One of them is singular to the last bit: its own step is then taken shorter.
        return np.stack([np.linalg.pinv(one) @ r for one, r in zip(system, right, strict=True)])


def _corrected(ways, guess, square_to, rounds=6):
    """(place on the curve, whether it was found) near a guess, square to a direction."""
    place = guess.copy()
    for _ in range(rounds):
        found, slopes = ways.misses(place)
        off = ((place - guess) * square_to).sum(1)
        system = np.concatenate([slopes, square_to[:, None, :]], axis=1)
        right = np.concatenate([found, off[:, None]], axis=1)[:, :, None]
        move = _solved(system, right)[:, :, 0]
        move = np.where(np.isfinite(move), move, 0.0)
        place = place - move
        size = np.linalg.norm(move, axis=1)
        if (size < 1e-10).all():
            break
    return place, size < 1e-7


def follow(ways, unknown=None, step=STEP, rounds=4000):
    """Follow each way from its start, as drawn, to its end or to the true limit: `Followed`."""
    start = ways.at_start() if unknown is None else unknown
    place = start.copy()
    forward = np.zeros((ways.n, 10))
    forward[:, 9] = 1.0
    tangent = _tangent(ways.misses(place)[1], forward)
    size = np.full(ways.n, min(step, 1.0))
    closing = np.zeros(ways.n, dtype=bool)
    reached = np.zeros(ways.n, dtype=bool)
    going = np.ones(ways.n, dtype=bool)
    some, part = np.arange(ways.n), ways
    for _ in range(rounds):
        if not going[some].all():
            some = np.flatnonzero(going)
            part = ways.part(some)
        if not some.size:
            break
        guess = place[some] + tangent[some] * size[some, None]
        new, found = _corrected(part, guess, tangent[some])
        new_tangent = _tangent(part.misses(new)[1], tangent[some])
        smooth = (
            found
            & ((new_tangent * tangent[some]).sum(1) > _STRAIGHT)
            & (np.linalg.norm(new - guess, axis=1) < _CORRECTED * size[some])
        )
        body = new[:, :9].reshape(-1, 3, 3)
        spindle = part.wheel(body, part.spindle, free=True)
        rod = body[:, 2, 1] - part.inner[:, 1] - part.begin[:, 1] - part.way[:, 1] * new[:, 9]
        good = (new_tangent[:, 9] > 0.0) & (spindle[:, 1] > 0.0) & (rod * part.rod_way > 0.0)
        there = smooth & (new[:, 9] >= part.length)
        if there.any():
            # The way's end lies in this step: it is sought with the way held at its end.
            held = part.part(there)
            last = place[some][there] + (new - place[some])[there] * (
                (held.length - place[some][there, 9]) / (new[there, 9] - place[some][there, 9])
            )[:, None]  # fmt: skip
            last[:, 9] = held.length
            level = np.zeros_like(last)
            level[:, 9] = 1.0
            end, hit = _corrected(held, last, level, rounds=12)
            near = np.linalg.norm(end - last, axis=1) < size[some][there]
            spindle = held.wheel(end[:, :9].reshape(-1, 3, 3), held.spindle, free=True)
            fine = hit & near & good[there] & (spindle[:, 1] > 0.0)
            index = some[there]
            place[index[fine]] = end[fine]
            reached[index[fine]] = True
            going[index[fine]] = False
        onward = smooth & good & ~there
        index = some[onward]
        place[index], tangent[index] = new[onward], new_tangent[onward]
        size[index] = np.where(closing[index], size[index], np.minimum(1.5 * size[index], step))
        stopped = some[~onward & going[some]]
        closing[some[smooth & ~good]] = True
        size[stopped] *= 0.5
        going[size < _SHORTEST] = False
    return Followed(ways, place, reached)
