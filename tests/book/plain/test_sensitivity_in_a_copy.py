"""Sensitivities in a copy: every quantity by every coordinate, against the formula itself."""

import random

import pytest
from cornerbook.book.plain.recorded.slopes import slopes
from cornerbook.book.plain.recorded.steps import Recorder
from cornerbook.book.plain.recorded.work import evaluated
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.inputs import corner_of
from cornerbook.cells.moved import coordinates_of
from cornerbook.cells.quantity import name_of, of_axle, quantities
from cornerbook.geometry import numbers

from tests.book.plain.workings import agree, shown_in_workings


@pytest.mark.parametrize("pose", [(25.0, -18.0), (0.0, 0.0)])
def test_every_quantity_by_every_coordinate(tmp_path, pose):
    cells = {"A1": pose[0], "A2": pose[1], "A3": 1580.0}
    asked = {}
    row = 1
    for entry in quantities().values():
        for coordinate in coordinates_of(corner_of(EXAMPLE).block):
            point, axis = coordinate.label, "xyz"[coordinate.index]
            axis = "value" if coordinate.single else axis
            address = f"B{row}"
            row += 1
            wheelbase = ",A3" if of_axle(entry) else ""
            cells[address] = (
                f'=CORNER.SENSITIVITY(Front,"{name_of(entry)}","{point}","{axis}",A1,A2{wheelbase})'
            )
            asked[address] = (name_of(entry), point, axis, *pose, 1580.0)
    got = shown_in_workings(tmp_path / "all.xlsx", cells)
    numbers_found = 0
    for address, arguments in asked.items():
        want = call("SENSITIVITY", EXAMPLE, *arguments)
        if pose == (0.0, 0.0) and arguments[0].endswith("ball joint angle") and want == 0.0:
            # As drawn this angle is 0 and turns up from there whichever way a point goes: the
            # copy says so of every coordinate, also of those that do not matter.
            if isinstance(got[address], str):
                assert "kink" in got[address]
                continue
        agree(got[address], want)
        numbers_found += isinstance(want, float)
    assert numbers_found > len(asked) / 2


def test_what_is_wrong_is_said(tmp_path):
    cells = {
        "A1": 400.0,
        "A2": -5.0,
        "B1": '=CORNER.SENSITIVITY(Front,"camber","upper ball joint","z",A1)',
        "B2": '=CORNER.SENSITIVITY(Front,"ackermann","upper ball joint","z",0,20,A2)',
        "B3": '=CORNER.SENSITIVITY(Front,"camber","upper ball joint","z",A9)',
    }
    got = shown_in_workings(tmp_path / "wrong.xlsx", cells)
    assert "no solution was found" in got["B1"]
    assert "wheelbase: -5 given" in got["B2"]
    agree(got["B3"], call("SENSITIVITY", EXAMPLE, "camber", "upper ball joint", "z"))


def worked(text, numbers_of):
    """The value of a function of two numbers, in steps, and its derivatives by these."""
    recorder = Recorder()
    x, y = recorder.input("x"), recorder.input("y")
    whole = recorder.step(text(x, y))
    found = slopes(recorder, [(whole, 1.0)], [x, y])
    known = {}
    return [evaluated(step, numbers_of.__getitem__, known) for step in (whole, found[x], found[y])]


@pytest.mark.parametrize(
    "text",
    [
        lambda x, y: x * y - y / x + 3.0,
        lambda x, y: numbers.sqrt(x * x + y) * numbers.sin(x) - numbers.cos(x * y),
        lambda x, y: numbers.atan2(x, y) + numbers.tan(y) / x,
        lambda x, y: numbers.degrees(x) * numbers.radians(y) - -x,
        lambda x, y: numbers.where(x > y, x * x, y * y * y),
        lambda x, y: numbers.larger(x - y, 0.25) * y + numbers.absolute(y - x),
        lambda x, y: (x + y) * (x + y) * x,
    ],
)
def test_slopes_are_those_of_central_differences(text):
    """By Richardson's extrapolation of central differences (from memory), in plain floats."""
    chance = random.Random(3)
    for _ in range(20):
        at = {"x": chance.uniform(0.3, 2.0), "y": chance.uniform(0.3, 1.4)}
        if abs(at["x"] - at["y"]) < 0.01 or abs(at["x"] - at["y"] - 0.25) < 0.01:
            continue  # beside a kink
        value, *found = worked(text, at)
        assert value == pytest.approx(text(**at), rel=1e-14)
        for name, slope in zip("xy", found, strict=True):

            def difference(step, at=at, name=name):
                ahead, behind = dict(at), dict(at)
                ahead[name] += step
                behind[name] -= step
                return (text(**ahead) - text(**behind)) / (2.0 * step)

            want = (4.0 * difference(5e-4) - difference(1e-3)) / 3.0
            assert slope == pytest.approx(want, rel=1e-8, abs=1e-8)
