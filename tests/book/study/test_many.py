"""Many cars at once: each must come out as it does alone, from a workbook of its own."""

import math
import warnings

import numpy as np
import pytest
from cornerbook.book.file.cell_error import CellError
from cornerbook.book.file.package import Package
from cornerbook.book.formula.values import Values
from cornerbook.book.study.many.cells import ManyCells
from cornerbook.book.study.many.functions import ManyFunctions
from cornerbook.book.study.many.numbers import Cars, Many, NotForMany
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.example import EXAMPLE, TABLES

from tests.authorities.closure_by_scipy import Closure
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.support.corners import Corners, random_corners
from tests.support.workbooks import notes_and_block

BLOCK = "Example"


def written(path, rows, cells):
    """A workbook with a block on the sheet Points and cells on the sheet Notes.

    There too is the table of stiffnesses, under its name, which an example of a corner takes.
    """
    table = {
        f"{column}{row}": cell
        for row, line in enumerate(TABLES["SomeStiffness"], 1)
        for column, cell in zip("KL", line, strict=True)
    }
    names = {"SomeStiffness": f"Notes!$K$1:$L${len(TABLES['SomeStiffness'])}"}
    return notes_and_block(path, {**cells, **table}, rows, "Points", BLOCK, names)


def opened(path):
    package = Package.read(path)
    return ManyCells(package, Values(package))


def coordinates(rows):
    """{cell: (row, column)} of the block's coordinates, as `ManyCells` names cells."""
    return {
        ("Points", "%s%d" % ("ABCD"[column], row + 1)): (row, column)
        for row, cells in enumerate(rows)
        for column in (1, 2, 3)
        if isinstance(cells[1], float) and isinstance(cells[2], float)
    }


def moved(rows, amounts, car):
    """The block of one car, its deviations added."""
    rows = [list(row) for row in rows]
    for (_, address), amount in amounts.items():
        row, column = int(address[1:]) - 1, "ABCD".index(address[0])
        rows[row][column] += float(amount[car])
    return tuple(map(tuple, rows))


def deviations(rows, count, size, seed=3):
    draw = np.random.default_rng(seed)
    return {cell: draw.uniform(-size, size, count) for cell in coordinates(rows)}


WITH_A_BLOCK = [
    entry for entry in FORMULAS.values() if any(a.kind == "block" for a in entry.arguments)
]


WITH_A_BLOCK_AT = {entry.name: f"A{row}" for row, entry in enumerate(WITH_A_BLOCK, 1)}
"""The cell of each one's example; none of them reads another."""


@pytest.fixture(scope="module")
def corners_a_little_off(tmp_path_factory):
    """(cells, amounts, the workbooks of each car): the examples of all formulas of a corner."""
    folder, count = tmp_path_factory.mktemp("corners"), 5
    examples = {WITH_A_BLOCK_AT[entry.name]: entry.example for entry in WITH_A_BLOCK}
    amounts = deviations(EXAMPLE, count, 1.5)
    cells = opened(written(folder / "car.xlsx", EXAMPLE, examples))
    ones = [
        opened(written(folder / f"{car}.xlsx", moved(EXAMPLE, amounts, car), examples))
        for car in range(count)
    ]
    return cells, amounts, ones


@pytest.mark.parametrize("entry", WITH_A_BLOCK, ids=lambda entry: entry.name)
def test_every_formula_of_a_corner_as_for_one_car(entry, corners_a_little_off):
    """Each car's value is what a sheet of its own gives, for the example of the formula."""
    cells, amounts, ones = corners_a_little_off
    cells.spread_cells(amounts)
    place = ("Notes", WITH_A_BLOCK_AT[entry.name])
    try:
        (found,) = cells.evaluate([place], amounts, len(ones))
    except NotForMany:
        assert entry.shape != "number" or entry.name in ONE_AT_A_TIME
        return
    for car, one in enumerate(ones):
        alone = one.values.at(*place)
        if isinstance(alone, tuple):
            alone = alone[0][0]
        if isinstance(alone, float):
            assert found[car] == pytest.approx(alone, rel=1e-9, abs=1e-9)
        else:
            assert math.isnan(found[car])


ONE_AT_A_TIME = {"SENSITIVITY", "DISTANCE_LEEWAY"}
"""Formulas of one number that may need one car at a time."""


def test_camber_and_toe_by_scipy(tmp_path):
    """Cars whose links SciPy closes, travel and rack given: a solution written apart."""
    corners = random_corners(11, 4)
    for i in range(corners.count):
        rows = corners.rows(i)
        path = written(tmp_path / "car.xlsx", rows, {
            "A1": "=CORNER.CAMBER(Example,20,8)", "A2": "=CORNER.TOE(Example,20,8)",
        })  # fmt: skip
        cells = opened(path)
        amounts = deviations(rows, 3, 2.0, seed=i)
        cells.spread_cells(amounts)
        found = cells.evaluate([("Notes", "A1"), ("Notes", "A2")], amounts, 3)
        for car in range(3):
            one = Corners.of_rows(moved(rows, amounts, car)).one(0)
            measured = Measured(one, *Closure(one).solve(20.0, 8.0))
            assert found[0][car] == pytest.approx(measured.camber, abs=1e-8)
            assert found[1][car] == pytest.approx(measured.toe, abs=1e-8)


ORDINARY = [
    "=B1+2*B2-3", "=B1/B2", "=-B1^2", "=B1%", "=(B1-B2)/(B1-3)", "=B2^0.5", "=SQRT(B3)",
    "=ABS(B1-3)", "=MAX(B1,B2,3)", "=MIN(B1:B3)", "=SUM(B1:B4)", "=AVERAGE(B1:B3)",
    "=IF(B1>3,B1,B2)", "=IF(AND(B1>2.9,B2<2.1),1,2)", "=IF(OR(B1>3,B2>2),B1,-B1)",
    "=IF(NOT(B1>=3),10,20)", "=IF(ISNUMBER(B1),B1*2,0)", "=IF(ISNUMBER(1/B4),5,B1)",
    "=INDEX(B1:B3,2)*2", "=ROUND(B1*B2,2)", "=INT(B1*10)", "=MOD(B1*10,3)", "=SIGN(B1-3)",
    "=TAN(RADIANS(B1*10))", "=IF(B1=B1,1,0)", "=IF(B1<>B2,1,0)", "=IF(B1<\"text\",B1,0)",
    "=IF(B1>3,B1,\"none\")", "=COUNT(B1:B5)+B1", "=IF(B1>3,1/B4,B2)", "=SUMPRODUCT(B1:B3)",
    "=IF(0.5<SQRT(B1-3),1,2)", "=IF(SQRT(B1-3)<0.5,1,2)", "=COUNTIF(B1:B3,\">2\")",
    "=IFERROR(SQRT(B1-3),9)", "=COSH(B1)", '=IF(IF(B1>3,"a","b")="a",1,2)', "=SMALL(B1:B3,2)",
    "=MATCH(B1,{2,2.5,3,3.5})", "=LEN(B1&B5)", "=CHOOSE(B1,1,2,4,8)", "=IFERROR(1/B4,B1)",
    "=SUMPRODUCT((B1:B3>1)*B1:B3)", "=IFNA(INDEX(B1:B3,B2),7)",
    '=VLOOKUP("p",C1:E2,2,FALSE)', '=VLOOKUP("q",C1:E2,2,FALSE)', '=VLOOKUP("p",C1:E2,3,FALSE)',
    "=VLOOKUP(2.1,B2:C3,1)", '=VLOOKUP("p",C1:E2,IF(B1>3,2,3),FALSE)',
    '=HLOOKUP("q",C4:D5,2,FALSE)', "=HLOOKUP(B2,C5:D5,1)", '=IFERROR(VLOOKUP("p",C1:E2,3,FALSE),9)',
]  # fmt: skip

TABLE = {
    "C1": "p", "D1": "=B1", "E1": "=IF(B1>3,1/B4,B2)", "C2": "q", "D2": "=B1>3",
    "C4": "p", "D4": "q", "C5": 0.0, "D5": "=B2*2-2",
}  # fmt: skip
"""What is looked up; a number, a truth and an error among it."""


@pytest.fixture(scope="module")
def cars_with_numbers(tmp_path_factory):
    """(cells, amounts, the workbooks of each car): B1, B2 and B3 are spread about 3, 2 and 0.5;
    B4 is 0 and B5 a text. Column A has the ordinary formulas, in the workbook of all cars."""
    folder, count = tmp_path_factory.mktemp("numbers"), 12
    ends = {"B1": 3.0, "B2": 2.0, "B3": 0.5, "B4": 0.0, "B5": "word", **TABLE}
    formulas = {f"A{row}": formula for row, formula in enumerate(ORDINARY, 1)}
    draw = np.random.default_rng(2)
    amounts = {("Notes", a): draw.uniform(-0.6, 0.6, count) for a in ("B1", "B2", "B3")}
    cells = opened(written(folder / "car.xlsx", EXAMPLE, {**ends, **formulas}))
    ones = []
    for car in range(count):
        own = {**ends, **{a: ends[a] + float(v[car]) for (_, a), v in amounts.items()}}
        ones.append(opened(written(folder / f"{car}.xlsx", EXAMPLE, own)))
    return cells, amounts, ones


@pytest.mark.parametrize("formula", ORDINARY)
def test_ordinary_formulas_as_for_one_car(formula, cars_with_numbers):
    cells, amounts, ones = cars_with_numbers
    cells.spread_cells(amounts)
    place = ("Notes", f"A{ORDINARY.index(formula) + 1}")
    (found,) = cells.evaluate([place], amounts, len(ones))
    varied = set()
    for car, one in enumerate(ones):
        alone = one.values.of(formula[1:], *place)
        varied.add(str(alone))
        if isinstance(alone, (int, float)):
            assert found[car] == pytest.approx(float(alone), rel=1e-12, abs=1e-15)
        else:
            assert isinstance(alone, (str, CellError))
            assert math.isnan(found[car])
    if formula not in ("=IF(B1=B1,1,0)", "=IF(B1<>B2,1,0)"):
        assert len(varied) > 1, "this formula does not tell the cars apart"


@pytest.mark.parametrize(
    "formula",
    ['=VLOOKUP("p",C1:E2,2,FALSE)', '=HLOOKUP("q",C4:D5,2,FALSE)', '=VLOOKUP("q",C1:D2,2,0)'],
)
def test_what_is_found_alike_is_found_once(formula, tmp_path, monkeypatch):
    """A list has the same labels in every car: cars do not look through it one by one."""
    cells = opened(
        written(tmp_path / "car.xlsx", EXAMPLE, {"A1": formula, "B1": 3.0, "B2": 2.0, **TABLE})
    )
    amounts = {("Notes", cell): np.array([-0.5, 0.5]) for cell in ("B1", "B2")}
    cells.spread_cells(amounts)
    monkeypatch.delattr(ManyFunctions, "_one_by_one")
    (found,) = cells.evaluate([("Notes", "A1")], amounts, 2)
    assert found[0] != found[1]


@pytest.mark.parametrize(
    ("formula", "words"),
    [
        ('=IF(B1>3,"yes","no")', "text"),
        ('=B1&" mm"', "text"),
        ("=PMT(B1,12,1)", "PMT"),
        ("=RAND()*B1", "RAND"),
        ("=OFFSET(B1,0,0)", "OFFSET"),
        ('=IF(B1>3,"1/2",B1)+1', "1/2"),
        ("=CORNER.NOTHING(B1)", "NOTHING"),
        ('=CORNER.CAMBER(Example,IF(B1>3,"a","b"))', "text"),
    ],
)
def test_what_cannot_be_had_says_so(formula, words, tmp_path):
    cells = opened(written(tmp_path / "car.xlsx", EXAMPLE, {"A1": formula, "B1": 3.0, "B2": 1.0}))
    amounts = {("Notes", "B1"): np.array([-1.0, 1.0])}
    cells.spread_cells(amounts)
    with pytest.raises(NotForMany, match=words):
        cells.evaluate([("Notes", "A1")], amounts, 2)


def test_only_the_failing_cars_fail(tmp_path):
    """One car's axis is upside down, one has an arm without length; the third is well."""
    formulas = {
        "A1": "=CORNER.CASTER(Example)",
        "A2": "=CORNER.CAMBER(Example,20)",
        "A3": "=CORNER.TOE(Example,20)",
        "A4": "=CORNER.MOTION_RATIO(Example)",
        "A5": "=A2*2",
        "A6": "=IF(ISNUMBER(A2),1,0)",
        "A7": "=CORNER.CAMBER(Example,A8)",
        "A8": "=Points!C1-550+500",
    }
    rows = {row[0]: number for number, row in enumerate(EXAMPLE, 1)}
    amounts = {cell: np.zeros(3) for cell in coordinates(EXAMPLE)}
    upper, ball = rows["Upper ball joint"], rows["Lower ball joint"]
    amounts["Points", "D%d" % upper][0] = -300.0
    for column, place in zip("BCD", range(1, 4), strict=True):
        # The lower ball joint on the front pickup, a little beside no point.
        amounts["Points", "%s%d" % (column, ball)][1] = (
            EXAMPLE[rows["Lower front pickup"] - 1][place] - EXAMPLE[ball - 1][place]
        )
    cells = opened(written(tmp_path / "car.xlsx", EXAMPLE, formulas))
    cells.spread_cells(amounts)
    wanted = [("Notes", "A%d" % n) for n in range(1, 9)]
    found = cells.evaluate(wanted, amounts, 3)
    known = [tuple(np.isfinite(values)) for values in found]
    assert known[0] == (False, True, True)  # the caster needs no arm
    assert known[1:5] == [(False, False, True)] * 4
    assert tuple(found[5]) == (0.0, 0.0, 1.0)
    assert known[6] == (False,) * 3  # 500 of travel is out of reach
    assert known[7] == (True,) * 3
    for place, name, arguments in ((0, "CASTER", ()), (1, "CAMBER", (20.0,)), (2, "TOE", (20.0,))):
        assert found[place][2] == pytest.approx(call(name, EXAMPLE, *arguments), rel=1e-12)


def test_a_linkage_that_is_refused_is_refused_to_every_formula(tmp_path):
    """Pickups a hair apart: all comes out finite, yet means nothing, and is said each time."""
    formulas = {"A1": "=CORNER.CAMBER(Example,20)", "A2": "=CORNER.TOE(Example,20)",
                "A3": "=CORNER.STEER_LEFT(Example,1600,0)", "A4": "=CORNER.BUMP_STEER(Example)",
                "A5": "=CORNER.SPRING_LENGTH(Example)", "A6": "=CORNER.MOTION_RATIO(Example)",
                "A7": "=CORNER.TRACK_IN_ROLL(Example,1)"}  # fmt: skip
    names = [row[0] for row in EXAMPLE]
    front, rear = names.index("Lower front pickup"), names.index("Lower rear pickup")
    amounts = {
        ("Points", "%s%d" % ("BCD"[i], rear + 1)): np.array(
            [0.0, EXAMPLE[front][1 + i] - EXAMPLE[rear][1 + i] - 1e-5]
        )
        for i in range(3)
    }
    cells = opened(written(tmp_path / "car.xlsx", EXAMPLE, formulas))
    cells.spread_cells(amounts)
    found = cells.evaluate([("Notes", a) for a in formulas], amounts, 2)
    for address, values in zip(formulas, found, strict=True):
        assert tuple(np.isfinite(values)) == (True, False), address
    one = moved(EXAMPLE, amounts, 1)
    assert "no axis to turn about" in call("CAMBER", one, 20.0)


def test_a_number_outside_its_limits_fails_for_its_car_alone(tmp_path):
    cells = opened(written(tmp_path / "car.xlsx", EXAMPLE, {
        "A1": "=CORNER.RIDE_RATE(B1,120)", "B1": 1.0,
    }))  # fmt: skip
    amounts = {("Notes", "B1"): np.array([-2.0, 13.0])}
    cells.spread_cells(amounts)
    (found,) = cells.evaluate([("Notes", "A1")], amounts, 2)
    assert math.isnan(found[0])
    assert found[1] == pytest.approx(14 * 120 / 134)


def test_a_formula_in_the_block_gets_its_own_deviation_alone(tmp_path):
    """A coordinate drawn as a formula of another is built on its own."""
    cells = opened(written(tmp_path / "car.xlsx", EXAMPLE, {"A1": "=Points!C2*1", "A2": "=A1+1"}))
    package = cells.package
    package.set_formula("Points", "C2", "=C1-290", 260.0)
    cells = ManyCells(package, Values(package))
    amounts = {("Points", "C1"): np.array([5.0, 5.0]), ("Points", "C2"): np.array([1.0, 2.0])}
    cells.spread_cells(amounts)
    assert tuple(cells.evaluate([("Notes", "A2")], amounts, 2)[0]) == (262.0, 263.0)


def test_nothing_is_warned_of(tmp_path):
    cells = opened(written(tmp_path / "car.xlsx", EXAMPLE, {"A1": "=SQRT(B1)/B2", "B1": 0.0,
                                                           "B2": 0.0}))  # fmt: skip
    amounts = {("Notes", "B1"): np.array([-1.0, 4.0]), ("Notes", "B2"): np.array([0.0, 2.0])}
    cells.spread_cells(amounts)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        (found,) = cells.evaluate([("Notes", "A1")], amounts, 2)
    assert math.isnan(found[0]) and found[1] == 1.0


def test_a_plain_truth_is_refused():
    number = Many(np.array([1.0, 2.0]), Cars(2))
    with pytest.raises(NotForMany):
        bool(number > 1.5)
    with pytest.raises(NotForMany):
        float(number)
