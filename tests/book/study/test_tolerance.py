"""Many builds of one workbook: the spread against calculus, the counts against NumPy's."""

import io
import os

import numpy as np
import openpyxl
import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.study.tolerance import built
from cornerbook.book.study.tolerance import draws as module
from cornerbook.book.study.tolerance.figures import PERCENTS
from cornerbook.book.study.tolerance.run import tolerance
from cornerbook.book.study.tolerance.sheets.histograms import histogram_of
from cornerbook.book.study.tolerance.study import Study
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from openpyxl.workbook.defined_name import DefinedName

from tests.authorities.closure_by_scipy import Closure
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.support.command import run
from tests.support.corners import Corners
from tests.support.looking import looked_into

HEADINGS = ("", "now", "unit", "wanted from", "to", "verdict")

RESULTS = (
    ("Caster", "=CORNER.CASTER(Front)", "deg", 6.2, 6.8),
    ("Trail", "=CORNER.TRAIL(Front)", "mm", 22.5, 24.5),
    ("CamberUp", "=CORNER.CAMBER(Front,25,10)", "deg", None, None),
    ("BumpSteer", "=CORNER.BUMP_STEER(Front)", "deg/mm", -0.002, 0.002),
    ("RollCentre", "=CORNER.ROLL_CENTRE(Front)", "mm", None, None),
    ("MotionRatio", "=CORNER.MOTION_RATIO(Front)", "", None, None),
    ("Ackermann", "=CORNER.ACKERMANN(Front,1600,-30)", "%", None, None),
    ("Centre", "=Points!C1*1", "mm", None, None),
    ("Contact", '=CORNER.POINT(Front,"contact centre",0,0,"x")', "mm", None, None),
)


def written(path, results=RESULTS, rows=EXAMPLE, unit="mm"):
    """A workbook with a block named Front and results with names and bands."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Notes"
    points = book.create_sheet("Points")
    for row in rows:
        points.append([*(None if cell == "" else cell for cell in row), unit])
    book.defined_names["Front"] = DefinedName("Front", attr_text="Points!$A$1:$D$%d" % len(rows))
    sheet.append(HEADINGS)
    for number, (name, formula, unit_of, low, high) in enumerate(results, 2):
        sheet.append(("The " + name, formula, unit_of, low, high))
        book.defined_names[name] = DefinedName(name, attr_text="Notes!$B$%d" % number)
    book.save(path)
    return path


@pytest.fixture
def book(tmp_path):
    return written(tmp_path / "car.xlsx")


def result_of(outcome, name):
    return [result.name for result in outcome.results].index(name)


def shifted(row, axis, amount):
    """The example with one coordinate moved."""
    rows = [list(cells) for cells in EXAMPLE]
    rows[row][1 + axis] += amount
    return tuple(map(tuple, rows))


COORDINATES = [
    (row, axis) for row, cells in enumerate(EXAMPLE) if cells[2] != "" for axis in range(3)
]

DERIVED = {
    "Caster": lambda rows: call("CASTER", rows),
    "Trail": lambda rows: call("TRAIL", rows),
    "BumpSteer": lambda rows: call("BUMP_STEER", rows),
    "RollCentre": lambda rows: call("ROLL_CENTRE", rows),
    "MotionRatio": lambda rows: call("MOTION_RATIO", rows),
    "Ackermann": lambda rows: call("ACKERMANN", rows, 1600.0, -30.0),
}


def gradient(value):
    """Central differences of a value by every coordinate of the example."""
    step = 1e-3
    return np.array(
        [(value(shifted(r, a, step)) - value(shifted(r, a, -step))) / (2 * step)
         for r, a in COORDINATES]
    )  # fmt: skip


def by_scipy(rows):
    """Camber at travel 25 and rack 10, by SciPy's closing of the links."""
    one = Corners.of_rows(rows).one(0)
    return Measured(one, *Closure(one).solve(25.0, 10.0)).camber


@pytest.mark.parametrize(("spread", "size"), [("normal", 1 / 3), ("uniform", 1 / np.sqrt(3))])
def test_small_spread_is_first_order(book, spread, size):
    """sigma^2 = sum (dy/dx)^2 sigma_x^2 for independent x (JCGM 100:2008, 5.1; from memory)."""
    study = Study(book)
    cars = 20000
    outcome = study.run(study.amounts(0.02), spread, cars, 5)
    sigma = 0.02 * size
    values = {**DERIVED, "CamberUp": by_scipy}
    for name, value in values.items():
        i = result_of(outcome, name)
        slopes = gradient(value)
        expected = sigma * np.sqrt((slopes**2).sum())
        # The deviation of a sample's deviation is a part 1 / sqrt(2 n): five of these.
        assert outcome.deviation[i] == pytest.approx(expected, rel=5 / np.sqrt(2 * cars)), name
        assert outcome.mean[i] == pytest.approx(
            outcome.results[i].drawn, abs=5 * expected / np.sqrt(cars) + 1e-3 * expected
        )
        largest = np.argmax(slopes**2)
        row, axis = COORDINATES[largest]
        named = "Front: %s, %s" % (EXAMPLE[row][0], "xyz"[axis])
        share = slopes[largest] ** 2 / (slopes**2).sum()
        place = [amount.name for amount in outcome.amounts].index(named)
        assert outcome.shares[i, place] == pytest.approx(share, rel=0.03)
        assert outcome.shares[i].sum() == pytest.approx(1.0, abs=0.03)


def test_the_laws_of_one_coordinate(book):
    study = Study(book)
    amounts = study.amounts(1.2)
    for spread, deviation in (("normal", 0.4), ("uniform", 1.2 / np.sqrt(3))):
        outcome = study.run(amounts, spread, 20000, 1)
        found = outcome.values[result_of(outcome, "Centre")] - EXAMPLE[0][2]
        assert found.std() == pytest.approx(deviation, rel=0.03)
        assert abs(found.mean()) < 5 * deviation / np.sqrt(20000)
        beyond = (np.abs(found) > 1.2).mean()
        # Of a normal law 0.27 percent lie beyond three deviations.
        assert beyond == 0.0 if spread == "uniform" else 0.0010 < beyond < 0.0045
        inner = (np.abs(found) < 0.4).mean()
        assert inner == pytest.approx(0.6827 if spread == "normal" else 1 / 3, abs=0.02)


def test_coordinates_are_independent(book):
    """Caster of two ball joints, sampled apart with NumPy: the same percentiles."""
    study = Study(book)
    outcome = study.run(study.amounts(3.0), "normal", 50000, 1)
    draw = np.random.default_rng(99)
    lower, upper = np.array(EXAMPLE[4][1:4]), np.array(EXAMPLE[7][1:4])
    axis = upper - lower + draw.normal(0, 1, (50000, 3)) - draw.normal(0, 1, (50000, 3))
    caster = np.degrees(np.arctan2(-axis[:, 0], axis[:, 2]))
    i = result_of(outcome, "Caster")
    expected = np.percentile(caster, PERCENTS)
    assert outcome.percentiles[i] == pytest.approx(expected, abs=0.02)


def test_counts_and_percentiles(book):
    study = Study(book)
    outcome = study.run(study.amounts(1.0), "normal", 9000, 2)
    every = np.ones(9000, dtype=bool)
    for name, low, high in (("Caster", 6.2, 6.8), ("Trail", 22.5, 24.5),
                            ("BumpSteer", -0.002, 0.002)):  # fmt: skip
        i = result_of(outcome, name)
        inside = (outcome.values[i] >= low) & (outcome.values[i] <= high)
        every &= inside
        assert outcome.inside[i] == inside.mean()
        assert 0.0 < outcome.inside[i] < 1.0
        assert outcome.mean[i] == pytest.approx(np.mean(outcome.values[i]))
        assert outcome.percentiles[i][2] == pytest.approx(np.median(outcome.values[i]))
    assert outcome.passing == every.mean()
    assert np.isnan(outcome.inside[result_of(outcome, "RollCentre")])


def test_a_jig_moves_its_points_together(book, tmp_path):
    """All points in one jig: the corner moves as a whole, and measures as before."""
    file = tmp_path / "jig.toml"
    names = ", ".join('"%s"' % cells[0] for cells in EXAMPLE if cells[2] != "")
    file.write_text('[[jig]]\nname = "all"\npoints = [%s]\nwithin = 3.0\n' % names, "utf-8")
    study = Study(book)
    amounts = study.amounts(file=file)
    assert [amount.name for amount in amounts] == ["Front: all (jig), %s" % a for a in "xyz"]
    outcome = study.run(amounts, "normal", 4000, 1)
    for name in ("Caster", "CamberUp", "BumpSteer", "MotionRatio"):
        assert outcome.deviation[result_of(outcome, name)] < 1e-9, name
    assert outcome.deviation[result_of(outcome, "Contact")] == pytest.approx(1.0, rel=0.06)
    assert outcome.parts == ["Front: all (jig)"]


def test_a_point_of_a_jig_may_be_off_besides(book, tmp_path):
    file = tmp_path / "jig.toml"
    file.write_text(
        'within = 0.0\n[front]\n"WHEEL-centre" = [0.0, 0.5, 0.0]\n'
        '"Tie rod inner" = 0.2\n'
        '[[jig]]\nblock = "Front"\npoints = ["wheel centre", "tie rod outer"]\n'
        "within = [0.1, 0.3, 0.0]\n",
        "utf-8",
    )
    amounts = Study(book).amounts(file=file)
    found = {amount.name: (amount.within, len(amount.cells)) for amount in amounts}
    assert found == {
        "Front: Wheel centre, y": (0.5, 1),
        "Front: Tie rod inner, x": (0.2, 1),
        "Front: Tie rod inner, y": (0.2, 1),
        "Front: Tie rod inner, z": (0.2, 1),
        "Front: jig 1 (jig), x": (0.1, 2),
        "Front: jig 1 (jig), y": (0.3, 2),
    }


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("within = -1", "0 or more"),
        ("within = " + "9" * 400, "far too large given, a length of 0 or more"),
        ("within = 1e12", "1e\\+12 given, .* at most"),
        ('within = "1 mm"', "a text given"),
        ("within = [1, 2]", "2 lengths given"),
        ("[Fornt]\nwithin = 1", 'did you mean "Front"'),
        ("Front = 3", "a line \\[Front\\]"),
        ('[Front]\n"uper ball joint" = 1', 'did you mean "Upper ball joint"'),
        ('[[jig]]\nname = "a"', "needs points"),
        ('[[jig]]\npoints = ["lower arm"]', "no point of Front"),
        ('[[jig]]\npoints = ["rod outer"]\nwide = 1', 'no "wide"'),
        ("[jig]\nwithin = 1", "begins with a line"),
        ("within = 0", "every tolerance is 0"),
        ("within = ", "wrong.toml, line 1: "),
    ],
)
def test_mistakes_of_a_tolerance_file(book, tmp_path, text, words):
    file = tmp_path / "wrong.toml"
    file.write_text(text, "utf-8")
    with pytest.raises(Trouble, match=words):
        Study(book).amounts(file=file)


def test_default_tolerance_by_the_unit_beside_the_points(tmp_path):
    study = Study(written(tmp_path / "car.xlsx", unit="in"))
    assert {amount.within for amount in study.amounts()} == {0.04}
    study = Study(written(tmp_path / "other.xlsx", unit=None))
    with pytest.raises(Trouble, match="--within 1"):
        study.amounts()


def test_a_seed_repeats(book):
    one, _ = tolerance(book, 1.0, cars=3000, seed=7, bar=False)
    same, _ = tolerance(book, 1.0, cars=3000, seed=7, bar=False)
    other, _ = tolerance(book, 1.0, cars=3000, seed=8, bar=False)
    assert one == same != other


EPS = np.finfo(float).eps


def rounding_of_values(outcome):
    """How far rounding may part one car's results, by result.

    Each of at most a thousand steps on the way to a result rounds as if a coordinate were off
    by eps of its size; the slopes say what that does to the result. Two ways to the same
    number differ so little, yet do: which of a processor's instructions take an element of an
    array may depend on where it stands in it.
    """
    size = max(abs(cell) for row in EXAMPLE for cell in row[1:] if isinstance(cell, float))
    return 1000 * EPS * size * np.abs(outcome.slopes).sum(axis=1)


def rounding_of_slopes(deviations, changes, apart):
    """How far two orders of summing may part the slopes of straight lines, by result.

    The slopes x solve S x = b, where S = A A' and b = A y are sums over n cars of A, a one and
    p - 1 deviations each, and of y, the changes. In any order, a sum of n products is off by no
    more than n eps times the sum of their sizes, so two orders part S by 2 n eps |A| |A|' and b
    by 2 n eps |A| |y|, and by |A| apart where the changes themselves are apart. The solver
    works by orthogonal transformations, so each of two runs is exact for an S that is off by a
    small multiple of p eps |S|: p squared is ample. To first order x moves by
    S^-1 (db - dS x), which is at most |S^-1| (|db| + |dS| |x|) (Higham, Accuracy and Stability
    of Numerical Algorithms, chapters 3, 7 and 20; from memory).
    """
    terms = np.vstack([np.ones(deviations.shape[1]), deviations])
    unknowns, cars = terms.shape
    squares, sizes = terms @ terms.T, np.abs(terms)
    inverse = np.linalg.norm(np.linalg.inv(squares), 2)
    off = 2 * cars * EPS * np.linalg.norm(sizes @ sizes.T, 2)
    off += 2 * unknowns**2 * EPS * np.linalg.norm(squares, 2)
    bounds = []
    for change, part in zip(changes, apart, strict=True):
        line = np.linalg.solve(squares, terms @ change)
        moved = np.linalg.norm(sizes @ (2 * cars * EPS * np.abs(change) + part))
        bounds.append(inverse * (moved + off * np.linalg.norm(line)))
    return np.array(bounds)


def test_cars_at_once_or_some_at_a_time(book, monkeypatch):
    """The cars are the same; sums over them differ by rounding alone."""
    study = Study(book)
    amounts = study.amounts(1.0)
    whole = study.run(amounts, "normal", 3000, 7)
    fewer = study.run(amounts, "normal", 2300, 7)
    ((_, deviations),) = module.Draws(len(amounts), "normal", 3000, 7).chunks()
    monkeypatch.setattr(module, "CHUNK", 700)
    pieces = study.run(amounts, "normal", 3000, 7)
    apart = np.abs(whole.values - pieces.values)
    rounding = rounding_of_values(whole)
    assert (apart <= rounding[:, None]).all()
    drawn = np.array([result.drawn for result in whole.results])
    bounds = rounding_of_slopes(deviations, whole.values - drawn[:, None], apart)
    assert (np.abs(whole.slopes - pieces.slopes).max(axis=1) <= bounds).all()
    # A chunk lost would be seen in every result that is no straight line.
    bent = [result_of(whole, name) for name in DERIVED]
    assert (np.abs(whole.slopes - fewer.slopes).max(axis=1) > 100 * bounds)[bent].all()
    for i in whole.banded:
        result = whole.results[i]
        # So near an end stands no car that rounding could move it in or out.
        assert np.abs(whole.values[i][:, None] - [result.low, result.high]).min() > rounding[i]
    assert whole.passing == pieces.passing
    assert np.array_equal(whole.inside, pieces.inside, equal_nan=True)


def test_values_in_a_file_are_those_in_memory(book, monkeypatch):
    """More than fits into memory is held in a file; every figure is the same."""
    study = Study(book)
    amounts = study.amounts(1.0)
    held = study.run(amounts, "normal", 500, 7)
    monkeypatch.setattr(built, "IN_MEMORY", 1000)
    filed = study.run(amounts, "normal", 500, 7)
    assert isinstance(filed.values, np.memmap) and not isinstance(held.values, np.memmap)
    for name in ("values", "mean", "deviation", "percentiles", "missing", "inside", "slopes"):
        assert np.array_equal(getattr(held, name), getattr(filed, name), equal_nan=True), name
    assert held.passing == filed.passing
    assert held.without == filed.without


def test_cars_that_do_not_assemble_are_outside(tmp_path):
    """Near the end of its reach, some cars have no camber: counted, and outside the band."""
    results = (("Far", "=CORNER.CAMBER(Front,0,120)", "deg", -90.0, 90.0),)
    far = 60.0
    while isinstance(call("CAMBER", EXAMPLE, 0.0, far + 0.01), float):
        far += 0.01
    results = (("Far", "=CORNER.CAMBER(Front,0,%.2f)" % far, "deg", -90.0, 90.0),)
    study = Study(written(tmp_path / "car.xlsx", results))
    outcome = study.run(study.amounts(0.5), "normal", 2000, 1)
    missing = int(outcome.missing[0])
    assert 200 < missing < 1800
    assert outcome.without == missing
    assert outcome.inside[0] == outcome.passing == pytest.approx(1 - missing / 2000)
    assert np.isfinite(outcome.mean[0])


def test_what_is_worth_a_better_jig(book, tmp_path):
    """The part named first, made exact and all cars built anew, gives what was foretold."""
    study = Study(book)
    amounts = study.amounts(1.0)
    outcome = study.run(amounts, "normal", 20000, 1)
    assert len(outcome.ranking) > 3
    gains = []
    for number in outcome.ranking[:3]:
        part = outcome.parts[number]
        better = study.run([a for a in amounts if a.part != part], "normal", 20000, 2)
        foretold = outcome.part_passing[number]
        # Two samples of 20 000, and what the straight line leaves out.
        assert better.passing == pytest.approx(foretold, abs=0.015), part
        gains.append(foretold - outcome.passing)
    assert gains == sorted(gains, reverse=True)
    assert gains[0] > 0.01
    idle = outcome.parts.index("Front: Spring frame, z")
    assert outcome.part_passing[idle] == outcome.passing  # no banded result needs it


def test_the_weight_of_a_part(book):
    """Its variance in each result with a band, over the square of half the band, added up."""
    study = Study(book)
    outcome = study.run(study.amounts(0.02), "uniform", 5000, 1)
    variance = 0.02**2 / 3
    place = COORDINATES.index((7, 0))
    expected = sum(
        gradient(DERIVED[name])[place] ** 2 * variance / half**2
        for name, half in (("Caster", 0.3), ("Trail", 1.0), ("BumpSteer", 0.002))
    )
    part = outcome.parts.index("Front: Upper ball joint, x")
    assert outcome.part_weight[part] == pytest.approx(expected, rel=0.02)


def test_without_bands_by_variance(tmp_path):
    study = Study(written(tmp_path / "car.xlsx", (("Caster", "=CORNER.CASTER(Front)", "deg",
                                                    None, None),)))  # fmt: skip
    outcome = study.run(study.amounts(1.0), "normal", 2000, 1)
    assert np.isnan(outcome.passing)
    best = {outcome.parts[i] for i in outcome.ranking[:2]}
    assert best == {"Front: Lower ball joint, x", "Front: Upper ball joint, x"}


def test_what_cannot_be_had_is_left_out_by_name(tmp_path):
    results = (
        *RESULTS[:1],
        ("Words", '=IF(Caster>6.5,"much","little")', "", None, None),
        ("Unknown", "=CORNER.CASTER(Front)+PMT(0.1,12,B2)", "", None, None),
        ("Wrong", "=CORNER.CAMBER(Front,900)", "", None, None),
        ("Fixed", "=2*3", "", None, None),
    )
    study = Study(written(tmp_path / "car.xlsx", results))
    assert [result.name for result in study.results] == ["Caster"]
    left = dict(study.left_out)
    assert set(left) == {"Words", "Unknown", "Wrong"}
    assert "PMT" in left["Unknown"]
    assert left["Wrong"].startswith("as drawn it is a text: # travel 900")


def test_left_out_where_only_some_cars_show_it(tmp_path):
    """As drawn a condition is the same for all; only among the cars it differs."""
    results = (
        *RESULTS[:1],
        ("Late", "=IF(Caster>6.6,PMT(0.1,12,1),2)", "", None, None),
        ("Worded", '=IF(IF(Caster>6.6,"much","more")="much",1,2)', "", None, None),
        ("Chosen", "=CORNER.CAMBER(Front,IF(Caster>6.6,10,20))", "", None, None),
        ("Refused", "=IF(Caster>6.7,RAND(),3)+CORNER.CASTER(Front)", "", None, None),
    )
    study = Study(written(tmp_path / "car.xlsx", results))
    outcome = study.run(study.amounts(1.0), "normal", 2000, 1)
    assert [result.name for result in outcome.results] == ["Caster", "Worded", "Chosen"]
    assert {name for name, _ in outcome.left_out} == {"Late", "Refused"}
    assert "PMT" in dict(outcome.left_out)["Late"]
    caster, worded = outcome.values[:2]
    assert set(worded) == {1.0, 2.0} and ((caster > 6.6) == (worded == 1.0)).all()
    assert outcome.values.shape[0] == 3


def test_a_workbook_without_corners(tmp_path):
    path = written(tmp_path / "car.xlsx", (("Six", "=2*3", "", None, None),))
    with pytest.raises(Trouble, match="no result that needs a corner"):
        Study(path)


@pytest.fixture(scope="module")
def study_of_ours(starter):
    return Study(starter)


def test_bands_of_the_example_workbook(study_of_ours):
    """Its results are found with their bands, and rows that have a band but no name."""
    study = study_of_ours
    assert study.left_out == []
    found = {result.name: result for result in study.results}
    assert (found["Caster"].unit, found["Caster"].low, found["Caster"].high) == ("deg", 5, 8)
    assert found["WeightRight"].low is None  # the band of its row is of the left wheel
    assert found["Natural frequency, Springs"].is_banded
    assert {block.name for block in study.blocks} >= {"Front", "Column"}
    assert "Example" not in {block.name for block in study.blocks}
    outcome = study.run(study.amounts(), "normal", 1000, 1)
    assert (outcome.missing == 0).all()
    for i, result in enumerate(outcome.results):
        # A result that nothing moves is summed with roundings of its own size.
        rounding = 1e-9 * max(1.0, abs(outcome.mean[i]))
        assert outcome.percentiles[i][0] <= outcome.mean[i] + rounding
        # The worst of a car may be at the other end of the travel than the next one's.
        if "worst" not in result.name.lower():
            near = pytest.approx(outcome.mean[i], abs=0.3 + 0.05 * abs(result.drawn))
            assert result.drawn == near


def test_a_drawing_that_fails_is_said_first_and_the_rest_is_judged(tmp_path):
    """Trail is about 23.3: its band is missed by the drawing, whatever the jig."""
    path = written(
        tmp_path / "car.xlsx",
        (
            ("Trail", "=CORNER.TRAIL(Front)", "mm", 30, 35),
            ("Caster", "=CORNER.CASTER(Front)", "deg", 6.0, 7.5),
        ),
    )
    content, said = tolerance(path, 1.0, cars=2000, seed=3, bar=False)
    outcome = Study(path).run(Study(path).amounts(1.0), "normal", 2000, 3)
    drawn = call("TRAIL", EXAMPLE)
    assert not 30 <= drawn <= 35 and 6.0 <= call("CASTER", EXAMPLE) <= 7.5
    assert [result.name for result in outcome.failing] == ["Trail"]
    assert said.startswith("the drawing itself is outside what is wanted: The Trail, Notes (")
    # The rest is what is judged: as if there were no band on trail.
    alone = written(
        tmp_path / "alone.xlsx",
        (
            ("Trail", "=CORNER.TRAIL(Front)", "mm", None, None),
            ("Caster", "=CORNER.CASTER(Front)", "deg", 6.0, 7.5),
        ),
    )
    rest = Study(alone).run(Study(alone).amounts(1.0), "normal", 2000, 3)
    assert outcome.passing == rest.passing > 0
    assert outcome.ranking == rest.ranking
    book = looked_into(io.BytesIO(content))
    column = [cell.value for cell in book["Results"]["A"]]
    fails = column.index("The drawing itself is outside what is wanted")
    assert fails < column.index("Cars within all bands of the rest")
    assert "The Trail, Notes" in column[fails : fails + 4]


@pytest.mark.parametrize(("low", "high"), [(20, None), (None, 25)])
def test_a_blank_end_of_a_band_is_no_limit(tmp_path, low, high):
    rows = (("Trail", "=CORNER.TRAIL(Front)", "mm", low, high),)
    study = Study(written(tmp_path / "car.xlsx", rows))
    (result,) = study.results
    assert (result.low, result.high) == (low or -np.inf, high or np.inf)
    outcome = study.run(study.amounts(0.1), "normal", 1000, 3)
    assert outcome.passing == 1.0 and not outcome.failing


def test_only_welded_corners_are_spread_unless_a_file_names_others(tmp_path, study_of_ours):
    study = study_of_ours
    assert {a.name.partition(":")[0] for a in study.amounts(1.0)} == {"Front"}
    file = tmp_path / "jigs.toml"
    file.write_text("within = 1.0\n[Column]\n", encoding="utf-8")
    assert {a.name.partition(":")[0] for a in study.amounts(None, file)} == {"Front", "Column"}


def test_histogram_counts_every_car():
    values = np.concatenate([np.linspace(0, 1, 5000), [50.0, -50.0]])
    edges, inside, outside = histogram_of(values, 0.25, 0.5)
    assert inside.sum() == ((values >= 0.25) & (values <= 0.5)).sum()
    assert inside.sum() + outside.sum() == 5002
    assert 0.0 < edges[0] < edges[-1] < 1.0


def test_the_workbook(book):
    content, said = tolerance(book, 1.0, cars=2000, seed=3, bar=False)
    study = Study(book)
    outcome = study.run(study.amounts(1.0), "normal", 2000, 3)
    assert said.startswith("2000 cars, %.1f %% within all bands" % (100 * outcome.passing))
    made = openpyxl.load_workbook(io.BytesIO(content))
    assert made.sheetnames == ["Results", "Shares", "Tolerances", "Histograms", "Histogram data"]
    rows = [[cell.value for cell in row] for row in made["Results"].iter_rows()]
    i = result_of(outcome, "Trail")
    row = next(row for row in rows if row[0] == "The Trail, Notes" and row[4] is not None)
    assert row[1:3] == ["!".join(outcome.results[i].cell), "mm"]
    assert row[3:6] == pytest.approx([outcome.results[i].drawn, outcome.mean[i],
                                      outcome.deviation[i]])  # fmt: skip
    assert row[6:11] == pytest.approx(list(outcome.percentiles[i]))
    assert row[11:15] == pytest.approx([22.5, 24.5, outcome.inside[i], 0])
    shown = [row for row in rows if row[0] == outcome.parts[outcome.ranking[0]]]
    assert shown[0][1] == pytest.approx(outcome.part_passing[outcome.ranking[0]])
    assert len(made["Histograms"]._charts) == outcome.varies.sum() == 9
    data = made["Histogram data"].iter_rows(min_row=3, values_only=True)
    # Caster has a band: cars within it and outside it, by bins.
    assert sum((row[2] or 0) + (row[3] or 0) for row in data) == 2000
    named = {row[0] for row in made["Tolerances"].iter_rows(values_only=True)}
    assert named > {amount.name for amount in outcome.amounts}


def test_command(book):
    before = book.read_bytes()
    done = run("tolerance", "car.xlsx", "--within", "0.5", "--cars", "1000", cwd=book.parent)
    assert done.returncode == 0, done.stderr
    assert "car-tolerance.xlsx is made: 1000 cars" in done.stdout
    assert done.stderr == ""
    assert sorted(os.listdir(book.parent)) == ["car-tolerance.xlsx", "car.xlsx"]
    assert book.read_bytes() == before
    first = (book.parent / "car-tolerance.xlsx").read_bytes()
    again = run("tolerance", "car.xlsx", "--within", "0.9", "--cars", "1000", cwd=book.parent)
    assert again.returncode == 1
    assert "exists and was left as it is" in again.stderr
    assert (book.parent / "car-tolerance.xlsx").read_bytes() == first
    forced = run(
        "tolerance", "car.xlsx", "--within", "0.9", "--cars", "1000", "--force", cwd=book.parent
    )
    assert forced.returncode == 0
    assert (book.parent / "car-tolerance.xlsx").read_bytes() != first


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["car.xlsx", "--out", "car.xlsx", "--force"], "is the workbook itself"),
        (["car.xlsx", "--out", "out.ods"], ".xlsx was expected"),
        (["car.xlsx", "--cars", "5"], "from 1000"),
        (["car.xlsx", "--within", "-1"], "0 or more"),
        (["car.xlsx", "--within", "nan"], "0 or more"),
        (["car.xlsx", "--within", "0"], "every tolerance is 0"),
        (["car.xlsx", "--seed", "-1"], "--seed"),
        (["car.xlsx", "--tolerance", "none.toml"], "none.toml"),
        (["none.xlsx"], "none.xlsx"),
    ],
)
def test_mistakes_are_one_sentence(book, arguments, words):
    done = run("tolerance", *arguments, cwd=book.parent)
    assert done.returncode == 1
    assert words in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert os.listdir(book.parent) == ["car.xlsx"]


def test_one_tolerance_or_a_file(book):
    done = run("tolerance", "car.xlsx", "--within", "1", "--tolerance", "a.toml", cwd=book.parent)
    assert done.returncode == 2
