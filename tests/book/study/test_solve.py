"""Inputs moved so that results come to targets: held to closed forms and to other solvers.

With the lower ball joint held, a wanted caster and kingpin inclination put the upper one on a
line (ISO 8855: leans of the steering axis in side and front view); the least movement to a
line is the perpendicular, and within limits of height it ends at the limit.
"""

import hashlib
import re

import numpy as np
import openpyxl
import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.study.recalculate import Recalculation
from cornerbook.book.study.solve.least_movement import Problem, least_distance
from cornerbook.book.study.solve.least_movement import solve as least_movement
from cornerbook.book.study.solve.report import report
from cornerbook.book.study.solve.run import solve
from cornerbook.catalogue import call
from cornerbook.cli import main
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from scipy.optimize import linprog, minimize

from tests.support.corners import random_corners
from tests.support.looking import looked_into
from tests.support.workbooks import notes_and_block


@pytest.fixture(scope="module")
def starter(once):
    """The demonstration car's workbook, of the sheets that are looked at here."""
    return once.workbook(chapters=("measures", "steer-angles", "movement"))


@pytest.fixture(scope="module")
def measures(once):
    """That of a corner's measures alone, for what is asked of no other sheet."""
    return once.workbook(chapters=("measures",))


INFEASIBLE = 2
"""What SciPy's linear programs say of conditions that no point meets."""

UPPER = ["Block!B5", "Block!C5", "Block!D5"]


def problem(function, start, targets, low=None, high=None, scale=None):
    n = len(start)
    return Problem(
        function, start,
        np.full(n, -np.inf) if low is None else low, np.full(n, np.inf) if high is None else high,
        np.ones(n) if scale is None else scale, targets,
    )  # fmt: skip


# The mathematics, without a workbook


def test_straight_results_by_the_pseudo_inverse():
    random = np.random.default_rng(1)
    for _ in range(100):
        n = random.integers(2, 7)
        m = random.integers(1, n + 1)
        slopes, start = random.normal(size=(m, n)), random.normal(size=n) * 10
        scale, targets = random.uniform(0.1, 30, n), random.normal(size=m) * 10
        found = least_movement(problem(lambda x, a=slopes: a @ x, start, targets, scale=scale))
        want = start + scale * (np.linalg.pinv(slopes * scale) @ (targets - slopes @ start))
        assert found.met
        np.testing.assert_allclose(found.x, want, rtol=1e-7, atol=1e-7)


def test_the_shortest_way_within_limits_by_another_solver():
    random = np.random.default_rng(2)
    infeasible = 0
    for _ in range(200):
        n = random.integers(2, 6)
        m = random.integers(1, n)
        rows, low, high = random.normal(size=(m, n)), -random.uniform(0, 2, n), np.ones(n)
        values = rows @ random.uniform(-2.5, 1.5, n)
        limits = list(zip(low, high, strict=True))
        found = least_distance(rows, values, low, high)
        if found is None:
            infeasible += 1
            # A linear program tells it for sure, where steps would only find no way.
            other = linprog(np.zeros(n), A_eq=rows, b_eq=values, bounds=limits)
            assert other.status == INFEASIBLE
            continue
        other = minimize(
            lambda y: 0.5 * y @ y, np.zeros(n), jac=lambda y: y, method="SLSQP", bounds=limits,
            constraints=[{"type": "eq", "fun": lambda y: rows @ y - values,  # noqa: B023
                          "jac": lambda y: rows}],  # noqa: B023
            options={"ftol": 1e-14, "maxiter": 500},
        )  # fmt: skip
        assert other.success
        np.testing.assert_allclose(found, other.x, atol=2e-6)
    assert 20 < infeasible < 150


@pytest.mark.parametrize(("out", "want"), [(3.0, 2.0), (0.25, 2.0)])
def test_nearest_place_of_a_circle(out, want):
    """From outside, and from inside near its middle, where the way curves most."""
    found = least_movement(problem(lambda x: np.array([np.hypot(*x)]), [out, 0.1 * out], [2.0]))
    way = np.array([1.0, 0.1]) / np.hypot(1.0, 0.1)
    np.testing.assert_allclose(found.x, want * way, rtol=1e-6)


def test_a_start_where_nothing_moves_is_left():
    """At the bottom of a bowl no tangent leads anywhere."""
    found = least_movement(problem(lambda x: np.array([x @ x]), [0.0, 0.0], [0.04]))
    assert found.met
    assert np.hypot(*found.x) == pytest.approx(0.2, rel=1e-6)


def test_places_without_a_result_are_stepped_around():
    def function(x):
        return np.array([np.log(x[0])]) if x[0] > 0 else np.array([np.nan])

    found = least_movement(problem(function, [5.0], [-3.0]))
    assert found.met and found.x[0] == pytest.approx(np.exp(-3.0), rel=1e-6)


def test_out_of_reach_gives_the_nearest():
    found = least_movement(problem(np.sin, [0.3], [1.2], low=[-1.0], high=[3.0]))
    assert not found.met
    assert found.x[0] == pytest.approx(np.pi / 2, abs=1e-5)
    found = least_movement(problem(lambda x: 3 * x, [0.3], [12.0], low=[-1.0], high=[2.0]))
    assert not found.met and found.x[0] == pytest.approx(2.0) and found.result[0] <= 6.0


def test_the_nearest_moves_no_further_than_it_helps():
    """Two targets fight over x0; x1 and x2 need only meet, and do so half way."""
    found = least_movement(
        problem(lambda x: np.array([x[0], x[0], x[1] - x[2]]), [0.0, 3.0, 1.0], [1.0, 2.0, 0.0])
    )
    assert not found.met
    np.testing.assert_allclose(found.x, [1.5, 2.0, 2.0], atol=1e-5)


# Corners in workbooks


def corner_book(path, rows, cells):
    return notes_and_block(path, cells, rows, sheet="Block")


def test_corners_by_closed_form(tmp_path):
    corners = random_corners(11, 25)
    cells = {"A1": "=CORNER.CASTER(Front)", "A2": "=CORNER.KPI(Front)"}
    random = np.random.default_rng(3)
    seen = set()
    for i in range(corners.count):
        rows = corners.rows(i)
        assert rows[4][0] == "Upper ball joint"
        path = corner_book(tmp_path / "car.xlsx", rows, cells)
        lower, upper = corners.points["lower ball joint"][i], corners.points["upper ball joint"][i]
        caster, inclination = random.uniform(2, 9), random.uniform(4, 14)
        way = np.array([-np.tan(np.radians(caster)), -np.tan(np.radians(inclination)), 1.0])
        foot = lower + way * ((upper - lower) @ way) / (way @ way)
        make = ["Notes!A1=%r" % caster, "Notes!A2=%r" % inclination]
        found = solve(path, UPPER, make)
        assert found.met
        np.testing.assert_allclose(found.moved, foot, atol=2e-5)
        # With a limit to the height between the two: the least movement ends there.
        edge = float(0.5 * (upper[2] + foot[2]))
        limit = "%r.." % edge if edge > foot[2] else "..%r" % edge
        found = solve(path, UPPER, make, ["Block!D5=" + limit])
        seen.add(limit.endswith(".."))
        assert found.met
        want = lower + way * (edge - lower[2])
        np.testing.assert_allclose(found.moved, want, atol=2e-5)
        assert all(abs(a - t) <= 1e-6 for a, t in zip(found.after, (caster, inclination),
                                                     strict=True))  # fmt: skip
    assert seen == {True, False}


def test_four_inputs_by_another_solver(tmp_path):
    """Trust-region steps of SciPy on the catalogue itself, with no workbook between."""
    corners = random_corners(12, 4)
    cells = {"A1": "=CORNER.TRAIL(Front)", "A2": "=CORNER.BUMP_STEER(Front)",
             "A3": "=CORNER.CAMBER_GAIN(Front)*10"}  # fmt: skip
    for i in range(corners.count):
        rows = [list(row) for row in corners.rows(i)]
        path = corner_book(tmp_path / "car.xlsx", rows, cells)
        names = [row[0] for row in rows]
        places = [(4, 1), (names.index("Tie rod inner"), 3), (names.index("Upper front pickup"), 3),
                  (names.index("Upper rear pickup"), 3)]  # fmt: skip
        start = np.array([rows[r][c] for r, c in places])

        def results(x, rows=rows, places=places):
            moved = [list(row) for row in rows]
            for (r, c), value in zip(places, x, strict=True):
                moved[r][c] = float(value)
            block = tuple(map(tuple, moved))
            return np.array([call("TRAIL", block), call("BUMP_STEER", block),
                             call("CAMBER_GAIN", block) * 10])  # fmt: skip

        now = results(start)
        targets = now + np.array([4.0, -now[1], -0.05])
        inputs = ["Block!%s%d" % ("ABCD"[c], r + 1) for r, c in places]
        found = solve(
            path, inputs, ["Notes!A%d=%r" % (n, float(t)) for n, t in enumerate(targets, 1)]
        )
        assert found.met
        np.testing.assert_allclose(results(found.moved), targets, atol=1e-6)
        # None has a unit beside it, so each row is a kind of its own, by its size.
        scale = np.abs(start)
        weights = np.array([1.0, 100.0, 10.0])
        other = minimize(
            lambda x, start=start, scale=scale: 0.5 * np.sum(((x - start) / scale) ** 2) * 1e4,
            start, method="SLSQP", options={"ftol": 1e-15, "maxiter": 300},
            constraints=[{"type": "eq", "fun": lambda x, f=results, w=weights, t=targets:
                          w * (f(x) - t)}],
        )  # fmt: skip
        ours = np.sum(((np.array(found.moved) - start) / scale) ** 2)
        theirs = np.sum(((other.x - start) / scale) ** 2)
        assert np.max(np.abs(results(other.x) - targets)) < 1e-5
        assert ours <= theirs * (1 + 1e-4)


@pytest.fixture
def small(tmp_path):
    """Three inputs and what they give; sums, a product and a text."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Sums"
    for address, content in {
        "A1": 3.0, "A2": 4.0, "A3": "text", "A4": 5.0, "A5": 6.0,
        "B1": "=A1+A2", "B2": "=2*(A1+A2)", "B3": "=A1-A2", "B4": '=IF(A1>0,"# no","yes")',
        "B5": "=1/(A5-6)", "B6": "=MIN(A1,10)", "B7": "=PMT(A1,A2,1)", "B8": "=A1*A4",
        "C1": "=CORNER.TRAIL_FROM_CASTER(A1,A9)",
    }.items():  # fmt: skip
        sheet[address] = content
    entry = DataValidation(type="decimal", operator="between", formula1="0", formula2="20")
    entry.add("A1:A2")
    sheet.add_data_validation(entry)
    whole = DataValidation(type="whole", operator="between", formula1="0", formula2="20")
    whole.add("A5")
    sheet.add_data_validation(whole)
    book.defined_names["Total"] = DefinedName("Total", attr_text="Sums!$B$1")
    book.defined_names["Both"] = DefinedName("Both", attr_text="Sums!$B$1:$B$2")
    path = tmp_path / "small.xlsx"
    book.save(path)
    return path


def test_two_by_two(small):
    found = solve(small, ["A1", "A2"], ["Total=10", "B3=2"])
    assert found.moved == pytest.approx([6.0, 4.0], abs=1e-9)
    assert found.before == [7.0, -1.0]


def test_the_cells_own_limits_hold_unless_others_are_given(small):
    found = solve(small, ["A1"], ["Total=50"])
    assert not found.met
    assert found.moved == pytest.approx([20.0])
    assert found.after == pytest.approx([24.0])
    assert any("out of reach" in s or "not seen to reach" in s for s in found.fights)
    assert any("upper limit" in s for s in found.fights)
    assert solve(small, ["A1"], ["Total=50"], ["A1=..60"]).moved == pytest.approx([46.0])


def test_a_start_outside_the_limits_is_brought_in(small):
    found = solve(small, ["A1", "A2"], ["Total=12"], ["A1=5..9", "A2=-10..9"])
    assert found.met and 5.0 <= found.moved[0] <= 9.0 and sum(found.moved) == pytest.approx(12.0)
    # Movement counts in ranges, 4 and 19: least with dx1/16 = dx2/361.
    assert found.moved == pytest.approx([5.0, 7.0])


def test_targets_that_fight_are_named(small):
    found = solve(small, ["A1", "A2"], ["Total=10", "B2=10"])
    text = report(found)
    assert not found.met and found.content is None
    assert "Total (Sums!B1) fights the rest: without it, Sums!B2 can be met." in text
    assert "Sums!B2 fights the rest: without it, Total (Sums!B1) can be met." in text
    # Least squares of the misses, each in what its target moves by: midway in A1 + A2.
    assert sum(found.moved) == pytest.approx(7.5, abs=1e-6)
    found = solve(small, ["A1", "A2"], ["Total=10", "B2=10", "B3=2"])
    text = report(found)
    assert "Total (Sums!B1) fights" in text and "Sums!B2 fights" in text
    assert "Sums!B3 fights" not in text


def test_one_that_cannot_even_alone(small):
    text = report(solve(small, ["A1", "A2"], ["B6=11", "B3=2"]))
    assert "Sums!B6 cannot come to 11 even alone." in text
    assert "fights" not in text


@pytest.mark.parametrize(
    ("change", "make", "within", "words"),
    [
        (["Nowhere"], ["Total=1"], [], ["no name Nowhere"]),
        (["Lost!A1"], ["Total=1"], [], ["no sheet Lost"]),
        (["B1"], ["B2=1"], [], ["is a formula", "=A1+A2"]),
        (["A3"], ["Total=1"], [], ["holds text", "number was expected"]),
        (["A8"], ["Total=1"], [], ["is empty"]),
        (["A5"], ["B5=1"], [], ["whole numbers only"]),
        (["Both"], ["Total=1"], [], ["more than one cell"]),
        (["A1", "A1"], ["Total=1"], [], ["twice"]),
        (["A1"], ["Total=1", "B1=2"], [], ["two targets"]),
        (["A1"], ["Total=some"], [], ["some is no number"]),
        (["A1"], ["Total=nan"], [], ["nan is no number"]),
        (["A1"], ["Total"], [], ["a cell and a number"]),
        (["A1"], ["A2=5"], [], ["holds no formula"]),
        (["A1"], ["B4=5"], [], ["B4 is no number now", '"# no"']),
        (["A1"], ["C1=5"], [], ["C1 is no number now", "# radius"]),
        (["A1"], ["B5=5"], [], ["B5 is no number now", "#DIV/0!"]),
        (["A1"], ["B7=5"], [], ["B7 cannot be worked out here", "PMT"]),
        (["A1", "A4"], ["Total=5"], [], ["A4 moves none of the results"]),
        (["A4"], ["B8=20", "Total=5"], [], ["Total (Sums!B1) is moved by none"]),
        (["A1"], ["Total=5"], ["A2=1..3"], ["A2", "not among the inputs"]),
        (["A1"], ["Total=5"], ["A1=3..1"], ["less than the upper"]),
        (["A1"], ["Total=5"], ["A1=3"], ["LOW..HIGH"]),
        (["A1"], ["Total=5"], ["A1=.."], ["LOW..HIGH"]),
        (["A1"], ["Total=5"], ["A1=x..3"], ["x is no number"]),
        (["A1"], ["Total=5"], ["A1=1..3", "A1=2..3"], ["limits twice"]),
    ],
)  # fmt: skip
def test_what_cannot_be_asked_is_said(small, change, make, within, words):
    with pytest.raises(Trouble) as problem:
        solve(small, change, make, within)
    for word in words:
        assert word in str(problem.value)


# The command


def cell_of(path, row, axis):
    for address, content in Package.read(path).cells("Front corner").items():
        if content.value == row:
            return "Front corner!%s%s" % ("BCD"["xyz".index(axis)], address[1:])
    raise AssertionError(row)


def four(path):
    return [cell_of(path, "Upper ball joint", "x"), cell_of(path, "Upper ball joint", "y"),
            cell_of(path, "Tie rod inner", "z"), cell_of(path, "Tie rod outer", "z")]  # fmt: skip


def test_the_command_makes_a_workbook_beside_it(starter, tmp_path, capsys):
    path = tmp_path / "car.xlsx"
    path.write_bytes(starter.read_bytes())
    before = hashlib.sha256(path.read_bytes()).hexdigest()
    targets = ["Caster=7", "Inclination=10", "BumpSteer=0"]
    arguments = ["solve", str(path), "--change", *four(path), "--make", *targets]
    assert main(arguments) == 0
    said = capsys.readouterr().out
    assert "Upper ball joint x (Front corner!" in said and "car-solved.xlsx is made" in said
    assert hashlib.sha256(path.read_bytes()).hexdigest() == before
    made = tmp_path / "car-solved.xlsx"
    values = looked_into(made, data_only=True)
    for target in targets:
        name, value = target.split("=")
        sheet, cell = next(values.defined_names[name].destinations)
        assert values[sheet][cell.replace("$", "")].value == pytest.approx(float(value), abs=1e-6)
    # It is left alone unless it may be replaced; the workbook itself may never be.
    assert main(arguments) == 1
    assert "--force" in capsys.readouterr().err
    assert main([*arguments, "--force"]) == 0
    assert main([*arguments, "--out", str(path), "--force"]) == 1
    assert main([*arguments, "--out", str(tmp_path / "car.ods")]) == 1
    assert hashlib.sha256(path.read_bytes()).hexdigest() == before


def test_nothing_is_made_when_targets_cannot_be_met(measures, tmp_path, capsys):
    out = tmp_path / "other.xlsx"
    arguments = ["solve", str(measures), "--change", *four(measures)[:2], "--make", "Caster=7",
                 "Inclination=10", "Trail=30", "--out", str(out)]  # fmt: skip
    assert main(arguments) == 1
    said = capsys.readouterr()
    assert "Caster (Measures!" in said.out and "fights the rest" in said.out
    assert "nearest" in said.out and "cannot all be met" in said.err
    assert not out.exists()


def test_known_reachable_targets_are_reached(starter):
    """Results at places that are known: reached again, with no more movement than that."""
    random = np.random.default_rng(5)
    names = ["Caster", "Inclination", "Scrub", "BumpSteer", "CamberGain", "RollCentre", "Ackermann"]
    rows = ["Upper ball joint", "Lower ball joint", "Tie rod inner", "Tie rod outer",
            "Upper front pickup", "Upper rear pickup"]  # fmt: skip
    # The upper arm's hinge runs along the car: its pickups' x moves nothing.
    cells = [cell_of(starter, row, axis) for row in rows for axis in "xyz"
             if (row[:5], row[-6:], axis) != ("Upper", "pickup", "x")]  # fmt: skip
    book = Recalculation.read(starter)
    for _ in range(8):
        inputs = list(random.choice(cells, random.integers(2, 7), replace=False))
        places = [book.find(cell) for cell in inputs]
        count = random.integers(1, len(inputs) + 1)
        wanted = list(random.choice(names, count, replace=False))
        function = book.function(places, [book.find(name) for name in wanted])
        now = np.array([book.content(place).value for place in places])
        moved = now + random.uniform(-12, 12, len(now))
        targets = function(list(moved))
        found = solve(
            starter, inputs, ["%s=%r" % pair for pair in zip(wanted, targets, strict=True)]
        )
        assert found.met, (inputs, wanted, targets)
        np.testing.assert_allclose(found.after, targets, rtol=0, atol=1e-6)
        assert np.linalg.norm(found.moved - now) <= np.linalg.norm(moved - now) * (1 + 1e-6)


def test_a_camber_gain_and_a_trail(measures):
    """Two results that do not share an input's effect evenly; each by its own formula after."""
    found = solve(measures, [four(measures)[0], cell_of(measures, "Upper front pickup", "z")],
                  ["CamberGain=-0.03", "Trail=25"])  # fmt: skip
    assert found.met


def test_every_stored_value_is_what_calc_computes(calc, starter, tmp_path):
    found = solve(starter, four(starter), ["Caster=7", "Inclination=10", "BumpSteer=0.0001"])
    assert not found.lost
    path = tmp_path / "solved.xlsx"
    path.write_bytes(found.content)
    book = Recalculation.read(path)
    old = Recalculation.read(starter)
    changed = 0
    with calc.open(path) as opened:
        opened.recalculate()
        for sheet, cells in book.cells.items():
            for address, content in cells.items():
                if content.formula is None:
                    continue
                value, stored = opened.value(sheet, address), content.value
                changed += stored != old.cells[sheet][address].value
                if isinstance(stored, (int, float)) and not isinstance(stored, bool):
                    assert value == pytest.approx(stored, rel=1e-9, abs=1e-9), (sheet, address)
                elif isinstance(stored, str):
                    assert (value or "") == stored, (sheet, address)
    assert changed > 200


def test_a_point_is_asked_for_by_its_name(measures):
    named = solve(measures, ["Front: upper ball joint x", "front:UpperBallJoint y"],
                  ["Caster=7", "Inclination=9.5"])  # fmt: skip
    cells = solve(measures, [f"{one.cell[0]}!{one.cell[1]}" for one in named.inputs],
                  ["Caster=7", "Inclination=9.5"])  # fmt: skip
    assert named.met and named.moved == cells.moved
    assert [one.words.partition(" (")[0] for one in named.inputs] == [
        "Front: Upper ball joint x", "Front: Upper ball joint y",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ("Front: uper ball joint x", "did you mean Front: Upper ball joint x?"),
        ("Front: upper ball joint", "say which coordinate, as in Front: Upper ball joint x"),
        ("Front: tyre radius y", "Tyre radius is one number; leave out y"),
        ("Front: engine x", "the block Front has no such row"),
        ("", "without a name"),
    ],
)
def test_a_point_that_is_not_there_is_said(measures, asked, words):
    with pytest.raises(Trouble, match=re.escape(words)):
        solve(measures, [asked], ["Caster=7"])


def test_a_silly_car_meets_no_target(measures):
    """Caster 60 by one point: it would have to go 372 mm."""
    solution = solve(measures, ["Front: upper ball joint x"], ["Caster=60"])
    assert not solution.met and solution.content is None
    (one,) = solution.inputs
    radius = 262.0
    assert (one.low, one.high) == (one.value - radius / 2, one.value + radius / 2)
    assert "Limits that nobody gave are in proportion to the corner" in report(solution)
    # Whoever asks for it may have the room, and is told what CHECK says of the car.
    far = solve(measures, ["Front: upper ball joint x"], ["Caster=60"],
                ["Front: upper ball joint x=-500..500"])  # fmt: skip
    assert far.met or any("the check refuses" in said for said in far.fights)


def test_a_car_that_check_refuses_is_no_solution(measures):
    """A tyre of another size is wanted nowhere; the wheel centre would go below the ground."""
    solution = solve(
        measures, ["Front: wheel centre y"], ["TrackNow=-900"], ["Front: wheel centre y=-900..900"]
    )
    assert not solution.met
    assert any(
        "It takes a corner that the check refuses. Front: " in said for said in solution.fights
    )
