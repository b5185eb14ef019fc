"""The linkage followed to a place asked for: straight there, or round a corner.

The straight way, or that by way of the place with the height gone for and no rack moved, or by
that with the rack moved and the height as drawn; each along the path of `way.py`.
"""

from ..numbers import again, first_found, where
from .heights import Shifted
from .lying import angles_of
from .way import FEW, Goal, Way


def followed(linkage, first, missed, rack):
    """The `Pose` to which one assembly leads from the drawn one; NaN throughout where none does.

    first: a height of the lower ball joint that is near. missed: see `Links`. The way goes
    straight there; where that leads nowhere, round a corner: from the place with the height
    gone for and no rack moved, or from that with the rack moved and the height as drawn.
    """
    none = 0.0 * rack
    goal = Goal(linkage, missed)
    as_drawn = goal.drawn.misses.z * linkage.upright_length
    risen, unsure = linkage.tried(first, missed, none)
    steered, not_sure = linkage.tried(linkage.lower_ball.z, Shifted(missed, as_drawn), rack)
    # Each is (rack at the start, heights, lengths, angles, whether the start is there).
    cases = (
        (none, 1.0, 0.0, 1.0, none, none, none, 1.0),
        (none, 0.0, 0.0, 0.0, *angles_of(linkage, risen), where(unsure > 0.0, 0.0, 1.0)),
        (rack, 1.0, 0.0, 0.0, *angles_of(linkage, steered), where(not_sure > 0.0, 0.0, 1.0)),
    )

    def follow(start, high, low, lengths, lower, upper, turn, there):
        way = Way(goal, (start, rack), (high, low), lengths)
        return way.pose_at(way.end_of(way.begin((lower, upper, turn), there)))

    pose = first_found(follow, cases, lambda pose: pose.wheel_centre.z)
    # Where the corner itself must be followed for: racks and heights of both ways.
    for doubt, legs in (
        (unsure, (((none, none), (1.0, 0.0)), ((none, rack), (0.0, 0.0)))),
        (not_sure, (((none, rack), (1.0, 1.0)), ((rack, rack), (1.0, 0.0)))),
    ):
        lost = where(doubt > 0.0, pose.wheel_centre.z, 0.0)
        pose = again(lost != lost, _round_a_corner, (goal, legs, pose), pose, FEW)
    return pose


def _round_a_corner(goal, legs, lost):
    """The `Pose` at the end of two ways, one after the other, or the one that is lost."""
    first, last = (Way(goal, *leg) for leg in legs)
    none = 0.0 * first.whole
    corner = first.end_of(first.begin((none, none, none)))
    return again(corner.gone == first.whole, _from_corner, (last, corner), lost, FEW)


def _from_corner(way, corner):
    return way.pose_at(way.end_of(way.begin(corner.angles)))
