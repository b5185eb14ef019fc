"""The steering column: from the rack to the steering wheel, its bends within what is wanted."""

import numpy as np

from ....cells.block import COLUMN_POINTS
from ....geometry.vec import Vec
from . import least, shape
from .measures import bends
from .moving import Moving

LABELS = tuple(label.capitalize() for label in COLUMN_POINTS)
WHEEL, UPPER, LOWER, PINION = LABELS

EVALUATIONS = 40


def start(given, theirs, ratio, moved, rack, their_rack):
    """{row: `Vec`} of the column.

    The pinion stands by the rack as in the demonstration, the steering wheel where the driver
    has it, and the joints at the same parts of the way. given, theirs: rows by their names. moved:
    how far forward of the demonstration's the driver sits. rack, their_rack: the inner ends of both
    cars' tie rods.
    """
    found = dict(given)
    by = theirs[PINION] - their_rack
    found.setdefault(
        PINION,
        Vec(rack.x + by.x * ratio.tyre, theirs[PINION].y * ratio.track, rack.z + by.z * ratio.tyre),
    )
    wheel = theirs[WHEEL]
    found.setdefault(WHEEL, Vec(wheel.x + moved, wheel.y * ratio.track, wheel.z))
    for label in (UPPER, LOWER):
        if label not in found:
            found[label] = Vec(*(
                _between(getattr(theirs[label], axis), getattr(theirs[PINION], axis),
                         getattr(wheel, axis), getattr(found[PINION], axis),
                         getattr(found[WHEEL], axis))
                for axis in "xyz"
            ))  # fmt: skip
    return {label: found[label] for label in LABELS}


def _between(at, first, last, our_first, our_last):
    return our_first + (at - first) / (last - first) * (our_last - our_first)


def judged(points):
    """{measure: (value, value)} of a column's points."""
    columns = [Vec(*(np.array([[part]]) for part in points[label])) for label in LABELS]
    with np.errstate(all="ignore"):
        return {name: (float(v[0, 0]), float(v[0, 0])) for name, v in bends(columns).items()}


def solved(points, given, wishes, radius):
    """{row: `Vec`} with the joints moved as little as will do for bends and ripple."""
    moving = Moving(
        points, [(label, axis) for label in (UPPER, LOWER) if label not in given for axis in "xyz"]
    )
    limits = {
        "upper_bend": wishes["universal_joint"], "lower_bend": wishes["universal_joint"],
        "ripple": wishes["ripple"],
    }  # fmt: skip

    def misses(variables):
        places = moving.places(variables)
        found = [
            least.BAND * shape.misses(
                values, limits[name].low + 0.05 * limits[name].width,
                limits[name].high - 0.05 * limits[name].width, limits[name].width,
            )
            for name, values in bends([places[label] for label in LABELS]).items()
        ]  # fmt: skip
        found += least.kept_near(variables, moving.first, radius)
        return np.concatenate(found, axis=1)

    with np.errstate(all="ignore"):
        scale = np.full(len(moving.first), 0.1 * radius)
        return moving.points(least.moved(misses, moving.first, scale, EVALUATIONS))
