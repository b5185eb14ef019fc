"""Adjusters against corners closed by SciPy with the changed links, and by statics of signs."""

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from scipy.spatial.transform import Rotation

from tests.authorities.adjusted_by_scipy import Adjusted
from tests.catalogue.test_bad_input import block, said
from tests.support.corners import Corners, random_corners

FRAME = ("lower front pickup", "lower rear pickup", "upper front pickup", "upper rear pickup",
         "tie rod inner")  # fmt: skip
ADJUSTERS = (*FRAME, "lower arm", "upper arm", "tie rod outer", "tie rod")
MEASURES = {"camber": "camber", "toe": "toe", "caster": "caster", "kpi": "inclination",
            "trail": "trail", "scrub": "scrub"}  # fmt: skip
CORNERS = random_corners(95, 4)
POSES = [(0.0, 0.0), (20.0, -8.0)]


@pytest.mark.parametrize("adjuster", ADJUSTERS)
@pytest.mark.parametrize("i", range(CORNERS.count))
@pytest.mark.parametrize("travel, rack", POSES)
def test_a_corner_closed_by_scipy_changes_as_much(adjuster, i, travel, rack):
    way = [1.5, 0.0, 0.0] if adjuster == "tie rod" else [0.8, -1.2, 1.1]
    turns = -2.0
    before = Adjusted(CORNERS.one(i)).measured(travel, rack)
    after = Adjusted(CORNERS.one(i), (adjuster, np.multiply(way, turns))).measured(travel, rack)
    sizes = []
    for quantity, name in MEASURES.items():
        wanted = float(getattr(after, name) - getattr(before, name))
        found = call(
            "ADJUSTER_EFFECT", CORNERS.rows(i), quantity, adjuster, *way, turns, travel, rack
        )
        assert found == pytest.approx(wanted, rel=1e-7, abs=1e-7), quantity
        sizes.append(abs(wanted))
    assert max(sizes) > 1e-2


@pytest.mark.parametrize("adjuster", ADJUSTERS)
@pytest.mark.parametrize("quantity", ["camber", "roll centre", "ackermann", "motion ratio",
                                      "lower ball joint angle"])  # fmt: skip
def test_no_turns_change_nothing(adjuster, quantity):
    for travel, rack in ((0.0, 20.0), (20.0, -15.0)):
        found = call("ADJUSTER_EFFECT", EXAMPLE, quantity, adjuster, 1.0,
                     *((0.0, 0.0) if adjuster == "tie rod" else (2.0, 3.0)),
                     0.0, travel, rack, 1600.0)  # fmt: skip
        assert found == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("adjuster", ADJUSTERS)
def test_small_turns_are_the_derivative_both_ways(adjuster):
    """Forth and back by a little: effects as large, of opposite sign."""
    way = (0.01, 0.0, 0.0) if adjuster == "tie rod" else (0.01, 0.02, -0.01)
    for quantity in ("bump steer", "motion ratio", "camber", "upper ball joint angle"):
        forth, back = (
            call("ADJUSTER_EFFECT", EXAMPLE, quantity, adjuster, *way, n, 15.0, 5.0)
            for n in (1.0, -1.0)
        )
        assert forth == pytest.approx(-back, rel=2e-2, abs=1e-8)
    assert abs(forth) > 0.0


def test_signs():
    def effect(quantity, adjuster, *way):
        return call("ADJUSTER_EFFECT", EXAMPLE, quantity, adjuster, *way, 1.0)

    # The top of the upright pushed outward leans the wheel outward; the bottom, inward.
    assert effect("camber", "upper arm", 0.0, 1.0, 0.0) > 0.0
    assert effect("camber", "lower arm", 0.0, 1.0, 0.0) < 0.0
    # ... and the top pulled back is caster.
    assert effect("caster", "upper arm", -1.0, 0.0, 0.0) > 0.0
    # Pickups moved outward carry the arm along.
    assert effect("camber", "upper front pickup", 0.0, 1.0, 0.0) > 0.0
    assert effect("camber", "upper rear pickup", 0.0, 1.0, 0.0) > 0.0
    # A longer rod behind the axis pushes the trailing edge out: the leading edge points in.
    assert effect("toe", "tie rod", 1.0, 0.0, 0.0) > 0.0
    ahead = block(Tie_rod_outer=(85.0, 480.0, 180.0), Tie_rod_inner=(80.0, 215.0, 185.0))
    assert call("ADJUSTER_EFFECT", ahead, "toe", "tie rod", 1.0, 0.0, 0.0, 1.0) < 0.0


def test_the_wheel_centre_keeps_its_height_and_the_upright_its_shape():
    """Of the adjusted corner: what the outer points are apart stays, to the last digits."""
    from cornerbook.cells.adjusted import AdjustedCorner
    from cornerbook.cells.inputs import corner_of
    from cornerbook.geometry.vec import Vec

    drawn = corner_of(EXAMPLE).drawn
    for adjuster in ADJUSTERS[:-2]:
        pose = AdjustedCorner(corner_of(EXAMPLE), {adjuster: Vec(2.0, 3.0, -2.0)}).pose(10.0, 4.0)
        assert pose.wheel_centre.z == pytest.approx(drawn.wheel_centre.z + 10.0, abs=1e-8)
        names = ("lower", "upper", "tie_outer", "wheel_centre")
        for one in names:
            for other in names:
                apart = (getattr(pose, one) - getattr(pose, other)).length()
                assert apart == pytest.approx(
                    (getattr(drawn, one) - getattr(drawn, other)).length(), abs=1e-8
                )


DIRECT = tuple(
    row for row in EXAMPLE
    if row[0] not in ("Rod inner", "Rocker pivot", "Rocker axis", "Spring rocker")
)  # fmt: skip
ROD, SPRING = np.array([2.0, 470.0, 172.0]), np.array([-20.0, 14.0, 470.0])


@pytest.mark.parametrize("adjuster", ["lower arm", "upper arm", "tie rod inner"])
@pytest.mark.parametrize("mount", ["lower arm", "upper arm", "upright"])
def test_a_spring_stands_on_the_arm_as_it_is_now(adjuster, mount):
    """The spring's foot carried by its arm or upright, the turn found from SciPy's closure."""
    rows = tuple((r[0], mount, "", "") if r[0] == "Rod mount" else r for r in DIRECT)
    way, travel, rack = [1.0, 2.0, -1.5], 12.0, 6.0
    lengths = []
    for change in ((), ((adjuster, way),)):
        corner = Corners.of_rows(rows).one(0)
        wheel = Adjusted(corner, *change).measured(travel, rack)
        if mount == "upright":
            place = wheel.centre + wheel.turned.apply(ROD - corner["wheel centre"])
        else:
            arm = mount.split()[0]
            ball = corner[f"{arm} ball joint"] + (
                way if change and mount == adjuster else np.zeros(3)
            )
            front, rear = corner[f"{arm} front pickup"], corner[f"{arm} rear pickup"]
            axis = (front - rear) / np.linalg.norm(front - rear)
            now = wheel.lower if arm == "lower" else wheel.upper
            flat = [p - front - axis * axis.dot(p - front) for p in (ball, now)]
            angle = np.arctan2(axis.dot(np.cross(*flat)), flat[0].dot(flat[1]))
            place = front + Rotation.from_rotvec(axis * angle).apply(ROD - front)
        lengths.append(np.linalg.norm(place - SPRING))
    found = call("ADJUSTER_EFFECT", rows, "spring length", adjuster, *way, 1.0, travel, rack)
    assert found == pytest.approx(lengths[1] - lengths[0], abs=1e-7)


@pytest.mark.parametrize(
    "arguments, words",
    [
        (("colour", "upper arm", 0.0, 1.0, 0.0, 1.0), ("quantity", "colour")),
        (("camber", "upper ball joint", 0.0, 1.0, 0.0, 1.0), ("adjuster", "upper arm")),
        (("camber", "tie rod", 1.0, 1.0, 0.0, 1.0), ("dy", "length", "dx")),
        (("camber", "tie rod", 1.0, 0.0, 1.0, 1.0), ("dz", "length", "dx")),
        (("camber", "tie rod", -1.0, 0.0, 0.0, 400.0), ("tie rod", "longer")),
        (("camber", "upper arm", 0.0, 1.0, 0.0, 500.0), ("upper arm", "fewer turns")),
        (("camber", "upper arm", 0.0, 1.0, 0.0, 1.0, 300.0), ("travel 300",)),
        (("ackermann", "upper arm", 0.0, 1.0, 0.0, 1.0, 0.0, 20.0), ("wheelbase",)),
    ],
)
def test_what_cannot_be_asked(arguments, words):
    said(call("ADJUSTER_EFFECT", EXAMPLE, *arguments), *words)


# Turns


@pytest.mark.parametrize("shape", [(1, 1), (3, 3), (5, 2), (2, 5), (6, 4), (1, 4), (4, 1)])
def test_turns_are_those_of_numpys_least_squares(shape):
    draw = np.random.default_rng(sum(shape))
    for _ in range(5):
        # Results in different units, adjusters of different coarseness.
        effects = draw.normal(size=shape) * 10.0 ** draw.uniform(-3, 3, shape[1])
        effects *= 10.0 ** draw.uniform(-1, 1, (shape[0], 1))
        wanted = draw.normal(size=(shape[0], 1))
        found = call("ADJUSTER_TURNS", effects.tolist(), wanted.tolist())
        exact = np.linalg.lstsq(effects, wanted[:, 0], rcond=None)[0]
        assert [turns for (turns,) in found] == pytest.approx(exact, rel=1e-8, abs=1e-10)


def test_turns_come_back_from_their_own_effects():
    effects, turns = [[0.4, -0.1], [0.05, 0.6], [0.2, 0.1]], [1.5, -2.25]
    wanted = [[row[0] * turns[0] + row[1] * turns[1]] for row in effects]
    found = call("ADJUSTER_TURNS", effects, wanted)
    assert [turn for (turn,) in found] == pytest.approx(turns, rel=1e-12)
    # Given in one row, the wanted changes are the same.
    assert call("ADJUSTER_TURNS", effects, [[row[0] for row in wanted]]) == found


def test_camber_and_toe_as_wanted_on_the_corner_that_scipy_closes():
    """The turns, both given to a corner closed by SciPy, make nearly the wanted changes."""
    ways = {"upper arm": (0.0, 1.0, 0.0), "tie rod": (1.0, 0.0, 0.0)}
    effects = [
        [call("ADJUSTER_EFFECT", EXAMPLE, q, name, *way, 1.0) for name, way in ways.items()]
        for q in ("camber", "toe")
    ]
    wanted = {"camber": -0.3, "toe": 0.2}
    turns = call("ADJUSTER_TURNS", effects, [[change] for change in wanted.values()])
    given = [
        (name, np.array(way) * turn[0])
        for (name, way), turn in zip(ways.items(), turns, strict=True)
    ]
    corner = Corners.of_rows(EXAMPLE).one(0)
    before = Adjusted(corner).measured(0.0, 0.0)
    after = Adjusted(corner, *given).measured(0.0, 0.0)
    for name, change in wanted.items():
        assert getattr(after, name) - getattr(before, name) == pytest.approx(change, abs=0.01)


def test_more_adjusters_than_results_turn_as_little_as_they_can():
    found = call("ADJUSTER_TURNS", [[3.0, 4.0]], 5.0)
    assert [turn for (turn,) in found] == pytest.approx([0.6, 0.8])


@pytest.mark.parametrize(
    "effects, wanted, words",
    [
        ([[1.0, 2.0], [2.0, 4.0]], [[1.0], [1.0]], ("adjuster 2", "same as adjuster 1")),
        (
            [[1.0, 0.0, 1.0], [0.0, 1.0, 1.0], [1.0, 1.0, 2.0]], [[1.0], [1.0], [1.0]],
            ("adjuster 3", "same as adjuster 1 and 2"),
        ),
        ([[1.0, 0.0], [2.0, 0.0]], [[1.0], [1.0]], ("adjuster 2", "none of the results")),
        ([[1.0, 2.0, 3.0], [2.0, 4.0, 6.0]], [[1.0], [1.0]], ("result 2", "result 1")),
        ([[1.0, 2.0, 3.0], [0.0, 0.0, 0.0]], [[1.0], [1.0]], ("result 2", "none of the adjusters")),
        ([[1.0, 2.0], [2.0, 5.0]], [[1.0]], ("wanted", "1 results", "2 rows")),
        ([[1.0, 2.0], [2.0, 5.0]], [[1.0, 2.0], [1.0, 2.0]], ("wanted", "one column")),
        ([[1.0, "far"], [2.0, 5.0]], [[1.0], [1.0]], ("effects", "far")),
        ([[1.0, ""], [2.0, 5.0]], [[1.0], [1.0]], ("effects", "row 1, column 2", "empty")),
        ([[1.0, 2.0], [2.0]], [[1.0], [1.0]], ("effects", "different lengths")),
        ([["", ""]], [[1.0]], ("effects", "missing")),
        ([[1.0]], None, ("wanted", "missing")),
        ([["# travel 300 cannot be reached"]], [[1.0]], ("travel 300",)),
        ([[True]], [[1.0]], ("effects", "TRUE")),
    ],
)  # fmt: skip
def test_turns_that_cannot_be_had(effects, wanted, words):
    said(call("ADJUSTER_TURNS", effects, wanted), *words)
