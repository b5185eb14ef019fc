"""Poses and limits held to the arc-length continuation of the constraints, corner by corner.

CORNERBOOK_MANY=5000 tries so many corners of a kind, by hand.
"""

import os
import re

import numpy as np
import pytest
from cornerbook.cells.corner import Corner
from cornerbook.cells.reach import closes, why_not

from tests.authorities.reach_by_continuation import Ways, follow
from tests.support.corners import random_corners

COUNT = int(os.environ.get("CORNERBOOK_MANY", 16))

FAR = 1000.0
"""In mm: a travel and a rack that no such corner reaches."""

NEAR = 2e-3
"""Of the share of the way to a limit, on either side of it."""

SENTENCE = re.compile(r"(?:the arms end at|the linkage closes only to) (\S+?)(?: at travel .*)?$")


KINDS = [
    pytest.param(random_corners(11 + wild, COUNT, wild), id="wild" if wild else "usual")
    for wild in (False, True)
]


def followed(corners, way):
    """How far each corner goes that way, in travel or rack: (travel, rack) of the true limit."""
    n = len(corners.values["tyre radius"])
    ends = [np.full(n, end) for end in way]
    found = follow(Ways(corners, *ends))
    assert not found.reached.any()
    return found.share * (way[0] or way[1])


@pytest.mark.parametrize("way", [(FAR, 0.0), (-FAR, 0.0), (0.0, FAR), (0.0, -FAR)])
@pytest.mark.parametrize("corners", KINDS)
def test_what_is_within_the_limit_is_reached_and_the_sentence_gives_it(corners, way):
    limits = followed(corners, way)
    for number, limit in enumerate(limits.tolist()):
        corner = Corner(corners.rows(number))
        travels = way[0] != 0.0

        def pose(share, limit=limit, travels=travels):
            return (limit * share, 0.0) if travels else (0.0, limit * share)

        assert closes(corner, *pose(1.0 - NEAR)), number
        assert not closes(corner, *pose(1.0 + NEAR)), number
        said = why_not(corner, *way)
        told = float(SENTENCE.search(said).group(1))
        assert told == pytest.approx(limit, rel=NEAR), (number, said)
        assert ("travel" if travels else "rack") in said.split()[0]


# Of the wild ones some come farther by another way than the rack first and then the travel.
@pytest.mark.parametrize("corners", KINDS[:1])
def test_the_limit_is_that_for_the_rack_that_was_asked(corners):
    """At a third of the way to lock: the travel's limit there, and not the one at rack nought."""
    racks = followed(corners, (0.0, FAR)) / 3.0
    n = len(racks)
    first = follow(Ways(corners, np.zeros(n), racks))
    assert first.reached.all()
    start = (np.zeros(n), racks)
    ways = Ways(corners, np.full(n, FAR), racks, start=start)
    begun = first.unknown.copy()
    begun[:, 9] = 0.0
    limits = follow(ways, begun).share * FAR
    straight = followed(corners, (FAR, 0.0))
    assert np.max(np.abs(limits - straight)) > 1.0  # else it would not tell the two apart
    for number, (rack, limit) in enumerate(zip(racks.tolist(), limits.tolist(), strict=True)):
        said = why_not(Corner(corners.rows(number)), FAR, rack)
        assert f"at rack {rack:.6g}: the arms end at " in said, said
        assert float(SENTENCE.search(said).group(1)) == pytest.approx(limit, rel=NEAR), said
