"""Whether a corner closes at a travel and rack, found by scanning the lower arm's angle.

For each angle of a fine grid the upper arm's angle and the upright's turn about the
steering axis follow from a cos + b sin = c, on the side on which they are drawn. Where the
wheel centre's height passes the wanted one between two neighbours that both exist, the
linkage closes. Rotations by Rodrigues' formula; no solver, and nothing of the package.
"""

import numpy as np

FEW = 40
"""Corners at a time: arrays that the processor keeps beside it take half the time."""


def _turned(vector, axis, angle):
    """Rodrigues: vectors (..., 3) turned about unit axes (..., 3) by angles (...)."""
    return _at_angle(_parts(vector, axis), np.cos(angle)[..., None], np.sin(angle)[..., None])


def _parts(vector, axis):
    """(along the axis, square to it, a quarter turn on from there) of vectors (..., 3)."""
    along = _dot(vector, axis)[..., None] * axis
    return along, vector - along, np.cross(axis, vector)


def _at_angle(parts, cosine, sine):
    """A vector of such parts, or one component of them, turned about the axis."""
    along, flat, square = parts
    return along + flat * cosine + square * sine


def _dot(one, other):
    return np.einsum("...i,...i", one, other)


def _unit(vector):
    return vector / np.linalg.norm(vector, axis=-1, keepdims=True)


def _foot(point, on_line, axis):
    return on_line + _dot(point - on_line, axis)[..., None] * axis


def _angle_to_reach(radius, axis, target, distance, drawn_side):
    """Turn of a radius vector about a unit axis that puts its end at a distance from a target.

    All seen from a point on the axis. NaN where it does not reach. Of the two answers the
    one whose turn from the target's direction has the drawn sign.
    """
    return _angle_of_parts(_parts(radius, axis), target, distance, drawn_side)


def _angle_of_parts(parts, target, distance, drawn_side):
    """The same of a radius vector's `_parts`."""
    along, flat, square = parts
    a = _dot(flat, target)
    b = _dot(square, target)
    size = _dot(along, along) + _dot(flat, flat) + _dot(target, target)
    c = 0.5 * (size - distance**2) - _dot(along, target)
    amplitude = np.hypot(a, b)
    with np.errstate(invalid="ignore"):
        return np.arctan2(b, a) + drawn_side * np.arccos(c / amplitude)


def _drawn_side(radius, axis, target):
    """Sign of the answer above that is the drawn one, whose turn is zero."""
    flat = radius - _dot(radius, axis)[..., None] * axis
    a = _dot(flat, target)
    b = _dot(np.cross(axis, flat), target)
    return np.where(np.arctan2(b, a) > 0, -1.0, 1.0)


class Scan:
    """The arms and the upright at a grid of angles of the lower arm, whatever the rack.

    corners: points (n, 3) and values (n,) by name. angles: of the lower arm from where it is
    drawn, in radians: (k,).
    """

    def __init__(self, corners, angles):
        at = {name: array[:, None, :] for name, array in corners.points.items()}
        lower0, upper0 = at["lower ball joint"], at["upper ball joint"]

        axis = _unit(at["lower front pickup"] - at["lower rear pickup"])
        foot = _foot(lower0, at["lower rear pickup"], axis)
        angles = np.broadcast_to(angles, (lower0.shape[0], len(angles)))
        self.lower = lower = foot + _turned(lower0 - foot, axis, angles)

        axis = _unit(at["upper front pickup"] - at["upper rear pickup"])
        foot = _foot(upper0, at["upper rear pickup"], axis)
        reach = np.linalg.norm(upper0 - lower0, axis=-1)
        side = _drawn_side(upper0 - foot, axis, lower0 - foot)
        angle = _angle_to_reach(upper0 - foot, axis, lower - foot, reach, side)
        upper = foot + _turned(upper0 - foot, axis, angle)

        # The upright follows the axis by the shortest turn, then turns about the axis.
        old, axis = _unit(upper0 - lower0), _unit(upper - lower)
        normal = np.cross(old, axis)
        cosine = _dot(old, axis)[..., None]

        def follow(vector):
            turned = vector * cosine + np.cross(normal, vector)
            return turned + normal * (_dot(normal, vector)[..., None] / (1 + cosine))

        self.inner0 = at["tie rod inner"]
        lever0 = at["tie rod outer"] - lower0
        self.length = np.linalg.norm(at["tie rod outer"] - self.inner0, axis=-1)
        self.side = _drawn_side(lever0, old, self.inner0 - lower0)
        # What does not depend on the rack is worked out once for all racks.
        self.lever = _parts(follow(lever0), axis)
        self.centre = _parts(follow(at["wheel centre"] - lower0), axis)
        camber, toe = (np.radians(corners.values["static " + name]) for name in ("camber", "toe"))
        spindle0 = np.column_stack(
            [np.cos(camber) * np.sin(toe), np.cos(camber) * np.cos(toe), -np.sin(camber)]
        )
        self.spindle = _parts(follow(spindle0[:, None, :]), axis)

    def wheels(self, rack):
        """Height and steer of the wheel at a rack (n,); NaN where the linkage does not exist.

        Returns two arrays (n, k): the height of the wheel centre, and the steer angle in
        degrees, positive to the left.
        """
        inner = self.inner0 + np.array([0.0, 1.0, 0.0]) * np.asarray(rack)[:, None, None]
        turn = _angle_of_parts(self.lever, inner - self.lower, self.length, self.side)
        cosine, sine = np.cos(turn), np.sin(turn)

        def component(parts, which):
            return _at_angle([part[..., which] for part in parts], cosine, sine)

        height = self.lower[..., 2] + component(self.centre, 2)
        ahead, outboard = component(self.spindle, 0), component(self.spindle, 1)
        return height, -np.degrees(np.arctan2(ahead, outboard))


def closes(corners, travel, rack, steer=90.0, angles=None):
    """Whether the linkage closes at each travel and rack, both of shape (n, m).

    steer: only places with the wheel turned by no more than this, in degrees, count.
    A place that closes only between two angles of the grid and touches its end there is
    not found, so True is sure and False is not.
    """
    if angles is None:
        angles = np.radians(np.linspace(-80.0, 80.0, 321))
    found = np.empty(np.shape(travel), dtype=bool)
    for first in range(0, corners.count, FEW):
        some = slice(first, first + FEW)
        part = corners.part(some)
        scan = Scan(part, angles)
        for i in range(found.shape[1]):
            heights, steers = scan.wheels(rack[some, i])
            wanted = part.points["wheel centre"][:, 2] + travel[some, i]
            miss = heights - wanted[:, None]
            small = np.abs(steers) <= steer
            passes = (miss[:, :-1] * miss[:, 1:] <= 0) & small[:, :-1] & small[:, 1:]
            found[some, i] = passes.any(1)
    return found
