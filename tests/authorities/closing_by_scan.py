"""Whether a corner closes at a travel and rack, found by scanning the lower arm's angle.

For each angle of a fine grid the upper arm's angle and the upright's turn about the
steering axis follow from a cos + b sin = c, on the side on which they are drawn. Where the
wheel centre's height passes the wanted one between two neighbours that both exist, the
linkage closes. Rotations by Rodrigues' formula; no solver, and nothing of the package.
"""

import numpy as np


def _turned(vector, axis, angle):
    """Rodrigues: vectors (..., 3) turned about unit axes (..., 3) by angles (...)."""
    cosine, sine = np.cos(angle)[..., None], np.sin(angle)[..., None]
    along = (vector * axis).sum(-1, keepdims=True) * axis
    return along + (vector - along) * cosine + np.cross(axis, vector) * sine


def _unit(vector):
    return vector / np.linalg.norm(vector, axis=-1, keepdims=True)


def _foot(point, on_line, axis):
    return on_line + ((point - on_line) * axis).sum(-1, keepdims=True) * axis


def _angle_to_reach(radius, axis, target, distance, drawn_side):
    """Turn of a radius vector about a unit axis that puts its end at a distance from a target.

    All seen from a point on the axis. NaN where it does not reach. Of the two answers the
    one whose turn from the target's direction has the drawn sign.
    """
    along = (radius * axis).sum(-1)
    flat = radius - along[..., None] * axis
    a = (flat * target).sum(-1)
    b = (np.cross(axis, flat) * target).sum(-1)
    size = (radius**2).sum(-1) + (target**2).sum(-1)
    c = 0.5 * (size - distance**2) - along * (target * axis).sum(-1)
    amplitude = np.hypot(a, b)
    with np.errstate(invalid="ignore"):
        return np.arctan2(b, a) + drawn_side * np.arccos(c / amplitude)


def _drawn_side(radius, axis, target):
    """Sign of the answer above that is the drawn one, whose turn is zero."""
    flat = radius - (radius * axis).sum(-1, keepdims=True) * axis
    a = (flat * target).sum(-1)
    b = (np.cross(axis, flat) * target).sum(-1)
    return np.where(np.arctan2(b, a) > 0, -1.0, 1.0)


def wheels(corners, rack, angles):
    """Height and steer of the wheel; NaN where the linkage does not exist.

    corners: points (n, 3) and values (n,) by name. rack: (n, m). angles of the lower arm
    from where it is drawn, in radians: (k,). Returns two arrays (n, m, k): the height of
    the wheel centre, and the steer angle in degrees, positive to the left.
    """
    at = {name: array[:, None, None, :] for name, array in corners.points.items()}
    lower0, upper0 = at["lower ball joint"], at["upper ball joint"]

    axis = _unit(at["lower front pickup"] - at["lower rear pickup"])
    foot = _foot(lower0, at["lower rear pickup"], axis)
    angles = np.broadcast_to(angles, (lower0.shape[0], 1, len(angles)))
    lower = foot + _turned(lower0 - foot, axis, angles)

    axis = _unit(at["upper front pickup"] - at["upper rear pickup"])
    foot = _foot(upper0, at["upper rear pickup"], axis)
    reach = np.linalg.norm(upper0 - lower0, axis=-1)
    side = _drawn_side(upper0 - foot, axis, lower0 - foot)
    angle = _angle_to_reach(upper0 - foot, axis, lower - foot, reach, side)
    upper = foot + _turned(upper0 - foot, axis, angle)

    # The upright follows the axis by the shortest turn, then turns about the axis.
    old, new = _unit(upper0 - lower0), _unit(upper - lower)
    normal = np.cross(old, new)
    cosine = (old * new).sum(-1, keepdims=True)

    def follow(vector):
        turned = vector * cosine + np.cross(normal, vector)
        return turned + normal * (normal * vector).sum(-1, keepdims=True) / (1 + cosine)

    inner0 = at["tie rod inner"]
    inner = inner0 + np.array([0.0, 1.0, 0.0]) * np.asarray(rack)[:, :, None, None]
    lever0 = at["tie rod outer"] - lower0
    length = np.linalg.norm(at["tie rod outer"] - inner0, axis=-1)
    side = _drawn_side(lever0, old, inner0 - lower0)
    turn = _angle_to_reach(follow(lever0), new, inner - lower, length, side)
    centre = lower + _turned(follow(at["wheel centre"] - lower0), new, turn)

    camber, toe = (np.radians(corners.values["static " + name]) for name in ("camber", "toe"))
    spindle0 = np.column_stack(
        [np.cos(camber) * np.sin(toe), np.cos(camber) * np.cos(toe), -np.sin(camber)]
    )[:, None, None, :]
    spindle = _turned(follow(spindle0), new, turn)
    return centre[..., 2], -np.degrees(np.arctan2(spindle[..., 0], spindle[..., 1]))


def closes(corners, travel, rack, steer=90.0, angles=None):
    """Whether the linkage closes at each travel and rack, both of shape (n, m).

    steer: only places with the wheel turned by no more than this, in degrees, count.
    A place that closes only between two angles of the grid and touches its end there is
    not found, so True is sure and False is not.
    """
    if angles is None:
        angles = np.radians(np.linspace(-80.0, 80.0, 321))
    found = np.empty(np.shape(travel), dtype=bool)
    for i in range(found.shape[1]):  # a column at a time keeps memory small
        heights, steers = (each[:, 0] for each in wheels(corners, rack[:, i : i + 1], angles))
        wanted = corners.points["wheel centre"][:, 2] + travel[:, i]
        miss = heights - wanted[:, None]
        small = np.abs(steers) <= steer
        passes = (miss[:, :-1] * miss[:, 1:] <= 0) & small[:, :-1] & small[:, 1:]
        found[:, i] = passes.any(1)
    return found
