"""Inputs moved as little as possible so that results come to their targets.

Minimises the sum of squares of (x - start) / scale, subject to f(x) = targets and
low <= x <= high. Each step solves the problem with f replaced by its tangent exactly (a
bounded least-distance problem, by non-negative least squares: Lawson & Hanson, *Solving
Least Squares Problems*, chapter 23), and is shortened until the sum of movement and misses
falls (an exact penalty: Nocedal & Wright, *Numerical Optimization*, chapter 18; both from
memory). Where that does not reach the targets, SciPy's bounded `least_squares` looks for a
place that does, from the start and from places around it, and the steps begin there again.
What is found is least among the places near it; that there is none far away is not shown.
"""

import numpy as np

TOLERANCE = 1e-6
"""How near a result must come to its target; for large targets 1e-10 of it, if that is more."""

STEP = 6e-6
"""For central differences, in scales of an input: about the cube root of rounding."""

STEPS = 80
"""Of tangents, at most."""

STARTS = 12
"""Other places that a solution is looked for from."""

FEWER_STARTS = 3
"""The same when only asking which targets fight."""

SAME = 3
"""From so many places the same least miss ends the search."""

BACK = 1e-4
"""What movement counts beside misses when targets cannot be met: too little to add to them."""

SEED = 20


class Outcome:
    """Where the inputs ended. x: the inputs; result: f(x); met: whether every target is."""

    def __init__(self, x, result, met):
        self.x = x
        self.result = result
        self.met = met


class Problem:
    """One task: function, from an array of inputs to an array of results, NaN for none.

    start, low, high, scale: arrays, one number an input; low and high may be infinite.
    targets: an array, one a result.
    """

    def __init__(self, function, start, low, high, scale, targets):
        self.function = function
        self.start = np.asarray(start, float)
        self.scale = np.asarray(scale, float)
        self.bounds = (np.asarray(low, float), np.asarray(high, float))
        self.low = (self.bounds[0] - self.start) / self.scale
        self.high = (self.bounds[1] - self.start) / self.scale
        self.targets = np.asarray(targets, float)
        self.allowed = np.maximum(TOLERANCE, 1e-10 * np.abs(self.targets))
        self.first = np.clip(np.zeros_like(self.start), self.low, self.high)
        self.weight = self._weights()

    # In what follows, y is (x - start) / scale, and misses are in weights.

    def x(self, y):
        """The inputs in their own units, within their limits to the last digit."""
        return np.clip(self.start + self.scale * y, *self.bounds)

    def misses(self, y):
        """f - target of each result."""
        return np.asarray(self.function(self.x(y)), float) - self.targets

    def slopes(self, y, here):
        """The derivative of the misses; `here` is what they are at y."""
        found = np.zeros((len(here), len(y)))
        for i in range(len(y)):
            sides = []
            for step in (STEP, -STEP):
                place = y.copy()
                place[i] += step
                if self.low[i] <= place[i] <= self.high[i]:
                    there = self.misses(place)
                    if np.all(np.isfinite(there)):
                        sides.append((step, there))
            if len(sides) == 2:
                found[:, i] = (sides[0][1] - sides[1][1]) / (2 * STEP)
            elif sides:
                found[:, i] = (sides[0][1] - here) / sides[0][0]
        return found

    def _weights(self):
        """How far a result moves when the inputs move by their scales: what a miss counts in."""
        here = self.misses(self.first)
        if not np.all(np.isfinite(here)):
            return np.maximum(np.abs(self.targets), 1.0)
        moves = np.linalg.norm(self.slopes(self.first, here), axis=1)
        return np.maximum.reduce([moves, np.abs(here) * 1e-3, self.allowed])

    def without(self, which):
        """The same task with one target left out."""
        keep = np.arange(len(self.targets)) != which
        return self.only(keep)

    def only(self, keep):
        """The same task with some of the targets; keep: an array of logicals."""
        full = self.function
        return Problem(
            lambda x: np.asarray(full(x), float)[keep], self.start, *self.bounds, self.scale,
            self.targets[keep],
        )  # fmt: skip

    def is_met(self, misses):
        """Whether all targets are reached."""
        return bool(np.all(np.isfinite(misses)) and np.all(np.abs(misses) <= self.allowed))

    def outcome(self, y):
        """The `Outcome` at y."""
        misses = self.misses(y)
        return Outcome(self.x(y), misses + self.targets, self.is_met(misses))


def solve(problem, starts=STARTS):
    """The `Outcome` with the least movement, or the nearest one if targets cannot be met."""
    y = _stepped(problem, problem.first)
    if problem.is_met(problem.misses(y)):
        return problem.outcome(_polished(problem, y))
    places = _nearest(problem, starts)
    for miss, y in places:
        # A thousandth of what the inputs can move: near enough for tangents to do the rest.
        if miss < 1e-3:
            y = _polished(problem, y)
            if problem.is_met(problem.misses(y)):
                moved = _stepped(problem, y)
                if problem.is_met(problem.misses(moved)):
                    y = moved
                return problem.outcome(_polished(problem, y))
    return problem.outcome(_held_back(problem, places[0][1]))


def can_be_met(problem):
    """Whether the targets can be met, as far as a shorter search finds."""
    return solve(problem, FEWER_STARTS).met


def _stepped(problem, y):
    """Tangent by tangent toward the least movement; the last place, met or not."""
    misses = problem.misses(y)
    if not np.all(np.isfinite(misses)):
        return y
    price = 0.0
    for _ in range(STEPS):
        slopes = problem.slopes(y, misses)
        rows = slopes / problem.weight[:, None]
        miss = misses / problem.weight
        wanted = least_distance(rows, rows @ y - miss, problem.low, problem.high)
        if wanted is None:
            wanted = _closest(rows, rows @ y - miss, problem.low, problem.high)
            if wanted is None:
                return y
        step = wanted - y
        total = np.sum(np.abs(miss))
        if np.max(np.abs(step)) < 1e-9 and problem.is_met(misses):
            return y
        left = np.sum(np.abs(miss + rows @ step))
        gain = total - left
        if gain > 1e-14:
            price = max(price, 2.0 * (y @ step + 0.5 * step @ step) / gain, 1e-3)
        drop = y @ step - price * gain
        if drop >= 0.0:
            return y
        merit = 0.5 * y @ y + price * total
        for halving in range(30):
            length = 0.5**halving
            place = np.clip(y + length * step, problem.low, problem.high)
            there = problem.misses(place)
            if not np.all(np.isfinite(there)):
                continue
            worth = 0.5 * place @ place + price * np.sum(np.abs(there / problem.weight))
            if worth <= merit + 1e-4 * length * drop:
                break
        else:
            return y
        y, misses = place, there
    return y


def least_distance(rows, values, low, high):
    """The shortest y with rows @ y = values and low <= y <= high; None if there is none."""
    from scipy.optimize import nnls

    left, sizes, right = np.linalg.svd(rows)
    rank = int(np.sum(sizes > 1e-9 * max(sizes[0], 1e-300))) if sizes.size else 0
    base = right[:rank].T @ ((left[:, :rank].T @ values) / sizes[:rank])
    if np.max(np.abs(rows @ base - values), initial=0.0) > 1e-9 * (1.0 + np.max(np.abs(values))):
        return None
    free = right[rank:].T
    has_low, has_high = np.isfinite(low), np.isfinite(high)
    sides = np.vstack([free[has_low], -free[has_high]])
    least = np.concatenate([low[has_low] - base[has_low], base[has_high] - high[has_high]])
    if not least.size or np.max(least) <= 0.0:
        return base
    if not free.shape[1]:
        return np.clip(base, low, high) if np.max(least) < 1e-12 else None
    system = np.vstack([sides.T, least])
    aim = np.zeros(len(system))
    aim[-1] = 1.0
    weights, _ = nnls(system, aim, maxiter=50 * len(least) + 50)
    rest = system @ weights - aim
    # All of the last row can be taken up only if no point lies within all sides.
    if abs(rest[-1]) < 1e-10:
        return None
    found = base + free @ (-rest[:-1] / rest[-1])
    if np.max(np.concatenate([low - found, found - high])) > 1e-7 * (1.0 + np.max(np.abs(found))):
        return None
    return np.clip(found, low, high)


def _closest(rows, values, low, high):
    """The y within limits for which rows @ y comes closest to values; None if none is found."""
    from scipy.optimize import lsq_linear

    found = lsq_linear(rows, values, bounds=(low, high))
    return np.clip(found.x, low, high) if np.all(np.isfinite(found.x)) else None


def _nearest(problem, starts):
    """(miss in weights, y) of bounded least squares from several places, the least first."""
    random = np.random.default_rng(SEED)
    found = []
    for number in range(starts + 1):
        y = problem.first
        if number:
            # Ever further: a tenth of an input's scale at first, more than all of it at last.
            spread = 0.1 * 1.3**number
            y = np.clip(y + spread * random.uniform(-1, 1, len(y)), problem.low, problem.high)
        if not np.all(np.isfinite(problem.misses(y))):
            continue
        y = _least_squares(problem, y)
        found.append((float(np.linalg.norm(problem.misses(y) / problem.weight)), y))
        found.sort(key=lambda place: place[0])
        # Met, or the same least miss from several places: more would hardly find a lesser.
        same = [miss for miss, _ in found if miss <= found[0][0] * (1.0 + 1e-4)]
        if problem.is_met(problem.misses(y)) or len(same) >= SAME:
            break
    return found or [(np.inf, problem.first)]


def _least_squares(problem, y, back=0.0):
    """The y with the least misses; back: what movement counts beside them."""
    from scipy.optimize import least_squares

    def misses(y):
        return np.concatenate([problem.misses(y) / problem.weight, back * y])

    def slopes(y):
        found = problem.slopes(y, problem.misses(y)) / problem.weight[:, None]
        return np.vstack([found, back * np.eye(len(y))])

    result = least_squares(
        misses, y, jac=slopes, bounds=(problem.low, problem.high),
        xtol=1e-10, ftol=1e-10, gtol=1e-12, max_nfev=40,
    )  # fmt: skip
    return np.clip(result.x, problem.low, problem.high)


def _held_back(problem, y):
    """A place as near to the targets as y, without movement that brings nothing nearer."""
    places = [y]
    for start in (problem.first, y):
        if np.all(np.isfinite(problem.misses(start))):
            places.append(_least_squares(problem, start, BACK))

    def cost(y):
        return np.sum((problem.misses(y) / problem.weight) ** 2) + BACK**2 * (y @ y)

    return min(places, key=cost) if np.all(np.isfinite(problem.misses(y))) else y


def _polished(problem, y):
    """The same place with the misses brought down to rounding, by least further steps."""
    misses = problem.misses(y)
    for _ in range(4):
        slopes = problem.slopes(y, misses) / problem.weight[:, None]
        step = least_distance(
            slopes, -misses / problem.weight, problem.low - y, problem.high - y
        )  # fmt: skip
        if step is None:
            return y
        there = problem.misses(y + step)
        if not np.max(np.abs(there / problem.weight)) < np.max(np.abs(misses / problem.weight)):
            return y
        y, misses = y + step, there
    return y
