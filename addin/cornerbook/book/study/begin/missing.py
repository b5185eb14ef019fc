"""What of a whole scenario is not there, and belongs there."""

from ....cells.block import COLUMN_POINTS, ROCKER_POINTS
from ...make.texts.tree import at, leaves
from ...make.texts.wish import keys_of_wish
from .keys import known_keys

_ROCKER = {label.capitalize() for label in ROCKER_POINTS}
_ENDS = ("Rod outer", "Spring frame")
OF_THAT_CAR = ("masses.parts", "arrangements.places", "arrangements.cars", "rules.rows",
               "rules.intents", "body.leg_bars", "body.leg_parts")  # fmt: skip
"""Tables of the demonstration's own: another car has none of them before they are typed."""

_OF_A_WHOLE = ("spring", "tyre_rate")
"""What the scenario of a workbook has, and hardly one of few numbers."""

_WHEEL, _UPPER, _LOWER, _PINION = (label.capitalize() for label in COLUMN_POINTS)


def missing(content, whole):
    """The paths of the leaves of a whole scenario's content that another content has not.

    What is one thing with what is there is not missed: adjusters where there are some, a rocker
    where rod and spring are given without one, a second joint of a column that has one. What may
    be left blank means something where it is: of a car that is whole it is not missed.
    """

    def has(*path):
        return at(content, path)[0]

    bare = is_bare(lambda label: has("corner", "front", label))
    one_joint = all(has("column", label) for label in (_WHEEL, _UPPER, _PINION))
    for path in leaves(whole):
        if has(*path):
            continue
        needless = (
            # A wish that is given is one as it stands: what it leaves out is no limit.
            (path[0] == "wanted" and any(has(*key.split(".")) for key in keys_of_wish(path[1])))
            or (path[0] == "adjusters" and has("adjusters"))
            or ".".join(path) in OF_THAT_CAR
            or (bare and path[:2] == ("corner", "front") and path[-1] in _ROCKER)
            or (one_joint and path == ("column", _LOWER))
            or (has(*_OF_A_WHOLE) and _may_be_blank(path))
        )
        if not needless:
            yield path


def _may_be_blank(path):
    known = known_keys().get(".".join(path))
    return known is not None and known.blank


def is_bare(has):
    """Whether a spring stands on its arm itself. has: whether a row of a corner is given."""
    return all(map(has, _ENDS)) and not any(map(has, _ROCKER))
