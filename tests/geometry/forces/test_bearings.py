"""The bearings of a rear axle, against a free body by numpy, MuJoCo, and a case by hand."""

import mujoco
import numpy as np
import pytest
from cornerbook.geometry.forces.bearings import Axle, Pull

from tests.authorities.axle_by_free_body import FreeAxle

CASES = 300


def cases():
    draw = np.random.default_rng(771)
    for _ in range(CASES):
        up = draw.uniform(0.0, 1500.0, 2)
        forward, sideways = draw.uniform(-1500.0, 1500.0, 2)
        track, radius = draw.uniform(800.0, 1400.0), draw.uniform(200.0, 320.0)
        bearings = draw.uniform(100.0, 500.0), -draw.uniform(100.0, 500.0)
        pull = draw.uniform(-480.0, 480.0), draw.uniform(60.0, 180.0), draw.uniform(0.0, 360.0)
        yield (up, forward, sideways, track, radius, bearings,
               str(draw.choice(["left", "right"])), pull)  # fmt: skip


def ours(up, forward, sideways, track, radius, bearings, holds, pull):
    axle = Axle(*up, forward, sideways, track, radius, Pull(*pull))
    forces = {
        side: np.array([*axle.on_bearing(*places, float(side == holds))])
        for side, places in (("left", bearings), ("right", bearings[::-1]))
    }
    return axle, forces


@pytest.mark.parametrize("case", list(cases()))
def test_every_force_against_a_free_body(case):
    axle, forces = ours(*case)
    theirs = FreeAxle(*case)
    size = max(np.abs(force).max() for force in theirs.on_frame.values()) + 1.0
    for side, force in forces.items():
        assert force == pytest.approx(theirs.on_frame[side], abs=1e-9 * size)
        place = case[5][side == "right"]
        assert axle.bending(place, side == "left") == pytest.approx(
            theirs.bending(side), abs=1e-9 * size * 1000.0
        )


_MODEL = """
<mujoco>
  <compiler angle="radian" inertiafromgeom="false"/>
  <option gravity="0 0 0" jacobian="dense" tolerance="0" iterations="200" solver="Newton"/>
  <worldbody>
    <site name="left bearing" pos="0 {left} 0"/>
    <site name="right bearing" pos="0 {right} 0"/>
    <body name="axle">
      <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
      <joint name="thrust" type="slide" axis="0 1 0"/>
      <joint name="along" type="slide" axis="1 0 0"/>
      <joint name="up" type="slide" axis="0 0 1"/>
      <joint name="tilt" type="ball"/>
    </body>
  </worldbody>
</mujoco>
"""


def test_mujoco_needs_the_same_forces_to_hold_the_axle_still():
    """The engine's inverse dynamics: what forces along its joints keep the axle at rest.

    Its joints are a slide along each axis and a ball at the middle. What it asks there is what
    both bearings must give together; it sums all forces at all points by its own Jacobians, so
    the bound is the rounding of such sums.
    """
    for case in cases():
        up, forward, sideways, track, radius, bearings, _, pull = case
        _, forces = ours(*case)
        model = mujoco.MjModel.from_xml_string(_MODEL.format(left=bearings[0], right=bearings[1]))
        data = mujoco.MjData(model)
        mujoco.mj_forward(model, data)
        body = model.body("axle").id
        given = [(np.array([0.0, y, 0.0]), -forces[side])
                 for side, y in zip(("left", "right"), bearings, strict=True)]  # fmt: skip
        for sense, load in zip((1.0, -1.0), up, strict=True):
            share = load / sum(up)
            point = np.array([0.0, sense * track / 2.0, -radius])
            given.append((point, np.array([forward * share, sideways * share, load])))
        # The sprocket's or pads' force at the middle, and its moment: all that is about the axle.
        way = np.array([np.cos(np.radians(pull[2])), 0.0, np.sin(np.radians(pull[2]))])
        size = abs(forward) * radius / pull[1]
        given.append((np.array([0.0, pull[0], 0.0]), way * size))
        torque = np.array([0.0, forward * radius, 0.0])
        total = np.zeros(model.nv)
        for point, force in given:
            mujoco.mj_applyFT(model, data, force, np.zeros(3), point, body, total)
        mujoco.mj_applyFT(model, data, np.zeros(3), torque, np.zeros(3), body, total)
        largest = max(np.abs(force).max() for _, force in given) * 1500.0
        assert np.abs(total).max() < 1e-12 * largest


def test_sums_of_forces_and_moments_vanish():
    """Against what the road and the pull give, to a part in 1e9 of the largest of them."""
    for case in cases():
        up, forward, sideways, track, radius, bearings, _, pull = case
        axle, forces = ours(*case)
        total = sum(forces.values())
        assert total == pytest.approx(
            [forward + axle.pull.x, sideways, sum(up) + axle.pull.z], abs=1e-9 * (1e4)
        )
        turned = sum(y * forces[side][2] for side, y in
                     zip(("left", "right"), bearings, strict=True))  # fmt: skip
        given = track / 2.0 * (up[0] - up[1]) + radius * sideways + pull[0] * axle.pull.z
        assert turned == pytest.approx(given, abs=1e-9 * 1e7)


def test_by_hand():
    """1000 N on each wheel 500 out, bearings 400 out, 600 N forward, wheels of 250; a sprocket of
    100 in the middle pulled straight forward: 600 x 250 / 100 = 1500 N.

    Each bearing holds half of 2000 up and half of 600 + 1500 forward. The axle bends there by
    100 x (1000 up and 300 forward): 100 x 1044.03. In a turn 800 N to the left at the ground lifts
    the left bearing by 800 x 250 / 800 = 250 and the right one down by it.
    """
    straight = Axle(1000.0, 1000.0, 600.0, 0.0, 1000.0, 250.0, Pull(0.0, 100.0, 0.0))
    for left, at in ((True, 400.0), (False, -400.0)):
        assert [*straight.on_bearing(at, -at, 0.0)] == pytest.approx([1050.0, 0.0, 1000.0])
        assert straight.bending(at, left) == pytest.approx(100.0 * np.hypot(1000.0, 300.0))
    turn = Axle(1000.0, 1000.0, 0.0, 800.0, 1000.0, 250.0, Pull(0.0, 100.0, 0.0))
    assert [*turn.on_bearing(400.0, -400.0, 1.0)] == pytest.approx([0.0, 800.0, 1250.0])
    assert [*turn.on_bearing(-400.0, 400.0, 0.0)] == pytest.approx([0.0, 0.0, 750.0])
    # The left wheel's own 400 N to the left lift its end further; the right one's let go.
    assert turn.bending(400.0, True) == pytest.approx(100.0 * 1000.0 + 250.0 * 400.0)
    assert turn.bending(-400.0, False) == pytest.approx(abs(100.0 * 1000.0 - 250.0 * 400.0))
