"""The forces of a load case in a picture: pull and push in two colours, thicker for more."""

import math
from typing import NamedTuple

from ...catalogue.forces.loads import NO_FORCE, carried
from ...cells.corner import has_rocker
from ...cells.mend import Mend
from ...geometry.vec import Vec
from ..file.trouble import Trouble
from .looks import INK, PULL, PUSH
from .scene import number_text

LEAST, MOST = 1.2, 7.0
"""How thick a member is drawn that carries nothing, and that which carries most, in points."""


class Member(NamedTuple):
    """A member of the picture. part: its name there; ends: its two points; force: pull positive."""

    part: str
    ends: tuple
    force: float

    @property
    def said(self):
        """Whether it pulls or pushes, in a word."""
        return "pull" if self.force > 0.0 else "push"

    @property
    def colour(self):
        """The colour of that."""
        return PULL if self.force > 0.0 else PUSH


class Forces:
    """The members of a corner under a load case. corner: a `Corner`; case: a `Case`.

    Raises `Trouble` with the case where its load or its pose gives no forces.
    """

    def __init__(self, corner, case):
        self.case = case
        try:
            found = carried(corner, *case.load)
            self.members = list(_members(found, has_rocker(corner.block)))
            self.axis = found.places.pivot
        except Mend as mend:
            raise Trouble(f"{case.name}: {mend}") from None
        except (ZeroDivisionError, OverflowError):
            raise Trouble(f"{case.name}: {NO_FORCE}") from None
        if any(member.force != member.force for member in self.members):
            raise Trouble(f"{case.name}: {NO_FORCE}")
        self.most = max(abs(member.force) for member in self.members)

    def points(self):
        """All points that a view must hold."""
        return [point for member in self.members for point in member.ends]

    def thickness(self, member):
        """How thick a member is drawn, in points."""
        return LEAST + (MOST - LEAST) * abs(member.force) / (self.most or 1.0)

    def text(self, member):
        """A member's force in words."""
        decimals = max(0, 2 - math.floor(math.log10(self.most))) if self.most else 0
        size = number_text(abs(member.force), decimals)
        return size if float(size) == 0.0 else f"{size} {member.said}"


def _members(found, rocker):
    pose, places = found.pose, found.places
    for which, arm in (("lower", found.lower), ("upper", found.upper)):
        for end, pickup in (("front", arm.front), ("rear", arm.rear)):
            force = found.leg(which == "upper", end == "rear")
            yield Member(f"force-{which}-{end}", (pickup, arm.ball), force)
    yield Member("force-tie-rod", (pose.tie_inner, pose.tie_outer), found.tie)
    if rocker:
        yield Member("force-rod", (places.outer, places.inner), found.rod)
    yield Member("force-spring", (places.end, places.frame), found.spring)


def draw_forces(pen, wheel, forces):
    """Every member of a wheel in the colour of its force, with the force beside it."""
    for member in forces.members:
        pen.line(wheel, member.part, member.ends, color=member.colour,
                 linewidth=forces.thickness(member), solid_capstyle="butt", zorder=6)  # fmt: skip
        one, other = member.ends
        middle = Vec(0.5 * (one.x + other.x), 0.5 * (one.y + other.y), 0.5 * (one.z + other.z))
        pen.label(forces.text(member), pen.view.at(wheel, middle), color=member.colour, far=0)
    if forces.axis is not None:
        named = {member.part: member for member in forces.members}
        inner, end = named["force-rod"].ends[1], named["force-spring"].ends[0]
        pen.line(wheel, "rocker", (inner, forces.axis, end, inner), color=INK, linewidth=1.0,
                 zorder=5)  # fmt: skip
