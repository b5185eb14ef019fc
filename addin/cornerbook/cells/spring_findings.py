"""What the rows of the spring are judged by: rod, rocker and spring, where a block has them.

Each finding is as `judge.py` says. The corner's points may be any kind of number.
"""

from ..geometry.numbers import absolute, atan2, degrees, sqrt, where
from ..geometry.springing.actuation import MOUNTS
from . import usual
from .block import ROCKER_POINTS, ROD_MOUNT
from .judge import LOOK, WRONG, Length, heights, not_far, not_past_middle, usual_length, within
from .mend import Words, rounded


def findings(corner):
    """Every finding of a block whose rows of the spring make an actuation."""
    block, drawn = corner.block, corner.drawn
    labels = block.spring_points()
    for label in labels:
        yield not_far(corner, label, usual.FARTHEST_OF_SPRING[label])
        if label in usual.HIGHEST_OF_SPRING:  # the rocker's axis may point anywhere
            yield from heights(corner, label, usual.HIGHEST_OF_SPRING[label])
        half_track, share = drawn.wheel_centre.y, usual.PAST_MIDDLE_OF_SPRING
        yield not_past_middle(label, block.point(label), half_track, share)
    yield from _mount(corner)
    has_rocker = ROCKER_POINTS[0] in labels
    if has_rocker:
        yield from _rocker(corner)
    yield from _spring(corner, has_rocker)


def _mount(corner):
    """Whether the rod's outer end stands on what the word says."""
    block, drawn = corner.block, corner.drawn
    outer = block.point("rod outer")
    mount = block.word(ROD_MOUNT, MOUNTS)
    off = {arm: _off_plane(block, drawn, arm, outer) for arm in ("lower", "upper")}
    if mount == "upright":
        asked = where(off["lower"] < off["upper"], Words("the lower arm"), Words("the upper arm"))
        away = _off_axis(drawn, outer)
        most = usual.OFF_UPRIGHT
    else:
        arm = mount.split()[0]
        other = "upper" if arm == "lower" else "lower"
        asked = where(
            off[other] < off[arm], Words(f"the {other} arm or the upright"), Words("the upright")
        )
        away = off[arm]
        most = usual.OFF_ARM
        yield from _along(block, drawn, arm, outer)
    yield (
        LOOK,
        away / drawn.radius <= most,
        f"rod outer: it stands %s off the {mount}, which {ROD_MOUNT} names: is that %s, or is a "
        "number of the row wrong?",
        (Length(away), asked),
    )


def _off_plane(block, drawn, arm, point):
    """Distance of a point from the plane of an arm."""
    ball, front, rear = (
        block.point(arm + end) for end in (" ball joint", " front pickup", " rear pickup")
    )
    square = (front - rear).cross(ball - front)
    return absolute((point - ball).dot(square)) / square.length()


def _off_axis(drawn, point):
    """Distance of a point from the line between the ball joints, its ends counted."""
    way = drawn.upper - drawn.lower
    share = (point - drawn.lower).dot(way) / way.dot(way)
    share = where(share < 0.0, 0.0, where(share > 1.0, 1.0, share))
    return (point - drawn.lower - way * share).length()


def _along(block, drawn, arm, outer):
    ball, front, rear = (
        block.point(arm + end) for end in (" ball joint", " front pickup", " rear pickup")
    )
    nearest = where(front.y < rear.y, front.y, rear.y)
    play = usual.OUTBOARD * drawn.radius
    yield (
        LOOK,
        within(outer.y, nearest - play, ball.y + play),
        f"rod outer: y is %s, not between the {arm} arm's pickups at %s and its ball joint at %s: "
        "is a digit or a unit wrong?",
        (Length(outer.y), Length(nearest), Length(ball.y)),
    )


def _rocker(corner):
    block, radius = corner.block, corner.drawn.radius
    inner, pivot, axis_point, end = map(block.point, ROCKER_POINTS)
    way = axis_point - pivot
    axis = way.unit()
    rod = block.point("rod outer") - inner
    asked = "is a number of its rows wrong?"
    sentence = "rocker axis is %s from rocker pivot"
    yield usual_length(sentence, way.length(), radius, usual.ROCKER_AXIS, asked)
    yield usual_length("push or pull rod is %s long", rod.length(), radius, usual.PUSH_ROD, asked)
    for label, point in (("rod inner", inner), ("spring rocker", end)):
        arm = axis.cross(point - pivot).length()
        sentence = label + " is %s from the rocker's axis"
        yield usual_length(sentence, arm, radius, usual.ROCKER_ARM, asked)
    along = absolute(rod.dot(axis))
    lean = degrees(atan2(along, sqrt(rod.dot(rod) - along * along)))
    yield (
        LOOK,
        lean <= usual.OUT_OF_PLANE,
        "the rod leans %s degrees out of the plane in which the rocker turns: is the rocker axis "
        "wrong?",
        (rounded(lean, 0),),
    )


def _spring(corner, has_rocker):
    radius = corner.drawn.radius
    made = corner.actuated(0.0, 0.0)
    length = made.spring_length
    yield (
        WRONG,
        length <= usual.LONGEST_SPRING * radius,
        "the spring is %s long, longer than any car's: is a number of its ends in another unit?",
        (Length(length),),
    )
    asked = "is a number of its ends wrong?"
    yield usual_length("the spring is %s long", length, radius, usual.SPRING, asked)
    ratio = made.motion_ratio
    yield (
        LOOK,
        ratio > 0.0,
        "the spring grows longer as the wheel rises, motion ratio %s: is a point of the rod or "
        "the spring on the wrong side?",
        (rounded(ratio, 2),),
    )
    yield (
        LOOK,
        where(ratio <= 0.0, True, within(ratio, *usual.MOTION_RATIO)),
        "motion ratio is %s, unusually %s: is a point of the rod, the rocker or the spring wrong?",
        (rounded(ratio, 2), where(ratio < usual.MOTION_RATIO[0], Words("little"), Words("much"))),
    )
    if has_rocker:
        for what, margin in (("rod", made.rod_margin), ("spring", made.spring_margin)):
            yield (
                LOOK,
                margin >= usual.MARGIN,
                f"{what} and rocker are %s degrees off over centre, very little: is one of the "
                "rocker's points wrong?",
                (rounded(margin, 0),),
            )
