"""A frame that twists, in the formulas of a car in a turn, against a network of springs."""

import numpy as np
import pytest
from cornerbook.catalogue import call

from tests.authorities.torsion_by_energy import rolls
from tests.catalogue.test_bad_input import said

CAR = (2750.0, 295.0, 0.45, 25.0, 0.0)
AXLES = (270000.0, 1425000.0)
TRACKS = (1120.0, 1080.0)


def acting(*frame, car=CAR, axles=AXLES):
    return [
        call("ROLL_STIFFNESS_WITH_FRAME", end, *car, *axles, *frame) for end in ("front", "rear")
    ]


def test_a_rigid_frame_changes_nothing():
    assert acting() == list(AXLES) == acting(0.0)
    assert acting(1e13) == pytest.approx(AXLES, rel=1e-6)


@pytest.mark.parametrize("frame", [60000.0, 400000.0, 1500000.0])
def test_load_transfer_is_that_of_a_network_of_springs(frame):
    weight, height, share, *centres = CAR
    levers = weight * np.array([share, 1 - share]) * (height - np.array(centres))
    lateral = 0.001  # where the body's roll is small
    found = np.array(rolls(levers, np.degrees(AXLES), np.degrees(frame), lateral, sections=4))
    both = acting(frame)
    for end, name, elsewhere in ((0, "front", "left"), (1, "rear", "left")):
        geometric = lateral * weight * (share, 1 - share)[end] * centres[end] / TRACKS[end]
        elastic = np.degrees(AXLES[end]) * found[end] / TRACKS[end]
        load = call("WHEEL_LOAD", name, elsewhere, lateral, *CAR, *both, *TRACKS)
        rest = weight * (share, 1 - share)[end] / 2
        assert rest - load == pytest.approx(geometric + elastic, rel=1e-6)
    # Each end's own roll is the mean's times what its axle acts with over what it is.
    axis = call("ROLL_AXIS_HEIGHT", *centres, share)
    mean = call("ROLL_ANGLE", lateral, weight, height, axis, *both)
    assert mean * np.array(both) / AXLES == pytest.approx(np.degrees(found), rel=1e-6)


def test_no_torsion_leaves_each_end_its_own_part():
    weight, height, share, *centres = CAR
    levers = weight * np.array([share, 1 - share]) * (height - np.array(centres))
    soft = acting(1e-3)
    moments = np.array(soft) * call("ROLL_GRADIENT", weight, height,
                                    call("ROLL_AXIS_HEIGHT", *centres, share), *soft)  # fmt: skip
    own = levers * (1 + levers / (np.degrees(AXLES) - levers))
    assert moments == pytest.approx(own, rel=1e-6)


def test_what_is_wrong_is_said():
    said(call("ANTI_ROLL_END_RATE", 80000.0, 16.0, 9.0, 130.0, 520.0), "wall", "half")
    said(acting(-1.0)[0], "frame_stiffness", "0 or more")
    said(acting(100.0, axles=(270000.0, 0.0))[0], "frame_stiffness", "stiffer")
    said(acting(10.0, car=(2750.0, 295.0, 0.45, 400.0, 0.0))[0], "frame_stiffness", "opposite")
