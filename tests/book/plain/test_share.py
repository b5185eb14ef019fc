"""The copy for people without the extension: workbooks of all kinds, and what is refused."""

import hashlib
import re

import openpyxl
import pytest
from cornerbook.book.file.cell_error import CellError
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.formula.values import Values
from cornerbook.book.plain.as_shared import held_rows
from cornerbook.book.plain.edits import edits_of
from cornerbook.book.plain.recorded.said import number_said
from cornerbook.book.plain.recorded.steps import Recorder
from cornerbook.book.plain.recorded.work import evaluated
from cornerbook.book.plain.share import share
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from lxml import etree
from openpyxl.worksheet.formula import ArrayFormula

from tests.support.looking import looked_into
from tests.support.workbooks import notes_and_block


@pytest.fixture
def grown(tmp_path):
    """A workbook that somebody made: a block named Front on one sheet, calls on another."""

    def build(cells, block_sheet="My points", name="Front"):
        return notes_and_block(tmp_path / "grown.xlsx", cells, sheet=block_sheet, name=name)

    return build


def shared(path):
    """The copy as a `Package`, and `Values` that works out its plain formulas."""
    content, _ = share(path)
    copy = path.with_name("copy.xlsx")
    copy.write_bytes(content)
    return Package.read(copy)


def formula_of(package, address, sheet="Notes"):
    return package.cells(sheet)[address].formula


def value_of(package, address, sheet="Notes"):
    return package.cells(sheet)[address].value


def test_a_call_within_other_formulas(grown):
    path = grown({"A1": 20.0, "B1": "=ROUND(CORNER.CAMBER(Front,A1)*2,3)&\" deg\"",
                  "B2": '=IF(CORNER.TRAIL(Front)>10,"enough","more")'})  # fmt: skip
    package = shared(path)
    camber = call("CAMBER", EXAMPLE, 20.0)
    assert formula_of(package, "B1").startswith("=ROUND('Workings Front'!$")
    assert formula_of(package, "B1").endswith('*2,3)&" deg"')
    assert value_of(package, "B1") == "%.3f deg" % (camber * 2)
    assert value_of(package, "B2") == ("enough" if call("TRAIL", EXAMPLE) > 10 else "more")


def test_a_call_within_a_call(grown):
    height = 'CORNER.POINT(Front,"wheel centre",A1,0,"z")'
    path = grown({"A1": 20.0, "B1": "=CORNER.CAMBER(Front,%s-250)" % height})
    package = shared(path)
    height = call("POINT", EXAMPLE, "wheel centre", 20.0, 0.0, "z")
    assert value_of(package, "B1") == pytest.approx(call("CAMBER", EXAMPLE, height - 250))


def test_filled_down_with_relative_and_mixed_references(grown):
    cells = {"B1": "camber", "C1": "toe", "D1": 5.0}
    for row in range(2, 8):
        cells["A%d" % row] = 10.0 * (row - 4)
        cells["B%d" % row] = "=CORNER.AT(Front,B$1,$A%d,$D$1)" % row
        cells["C%d" % row] = "=CORNER.AT(Front,C$1,$A%d,$D$1)" % row
    package = shared(grown(cells))
    for row in range(2, 8):
        for column, name in (("B", "camber"), ("C", "toe")):
            want = call("AT", EXAMPLE, name, 10.0 * (row - 4), 5.0)
            assert value_of(package, "%s%d" % (column, row)) == pytest.approx(want, rel=1e-12)


def test_one_pose_stands_once(grown):
    cells = {"A1": 12.0}
    for number, name in enumerate(("CAMBER", "TOE", "TRAIL", "SCRUB", "CASTER"), 1):
        cells["B%d" % number] = "=CORNER.%s(Front,$A$1)" % name
    package = shared(grown(cells))
    cells = package.cells("Workings Front")
    first = {int(a[1:]): c.value for a, c in cells.items() if a[0] == "A" and a[1:].isdigit()}
    (poses,) = [row for row, value in first.items() if str(value).startswith("Poses")]
    # The note, the headings, and then one row.
    assert [row for row in first if row > poses + 2] == [poses + 3]


def poses_of(package, column="A"):
    """The rows of the table of poses in which a column of it has a cell."""
    cells = package.cells("Workings Front")
    first = {int(a[1:]): c.value for a, c in cells.items() if a[0] == "A" and a[1:].isdigit()}
    (poses,) = [row for row, value in first.items() if str(value).startswith("Poses")]
    below = [row for row, value in first.items() if row > poses and isinstance(value, str)]
    end = min((row for row in below if row > poses + 2), default=10**6)
    rows = [int(a[len(column) :]) for a in cells if a.rstrip("0123456789") == column]
    return [row for row in rows if poses + 2 < row < end]


def test_a_choice_between_plain_numbers_is_no_other_pose(grown):
    """What chooses is worked out of numbers alone, in cells that nobody types over."""
    cells = {"A1": 12.0, "A2": "=1+(4-1)*1/3", "B1": "=CORNER.CAMBER(Front,-$A$1)",
             "B2": "=CORNER.TOE(Front,IF(A2<2,A1,-A1))"}  # fmt: skip
    package = shared(grown(cells))
    assert len(poses_of(package)) == 1
    assert value_of(package, "B2") == pytest.approx(call("TOE", EXAMPLE, -12.0), rel=1e-12)
    # What chooses by a cell that may be typed into stays a pose of its own.
    package = shared(grown({**cells, "A2": 2.0}))
    assert len(poses_of(package)) == 2


@pytest.mark.parametrize("other", [30.0, "a word"])
def test_a_rack_of_nothing_times_a_cell_is_solved_with_none(grown, other):
    """The pose stands once; what is wrong with the cell is shown where it is asked alone."""
    rack = "$A$2*0"
    package = shared(grown({
        "A1": 12.0, "A2": other, "B1": f"=CORNER.CAMBER(Front,$A$1,{rack})",
        "B2": "=CORNER.CAMBER(Front,$A$1,0)",
    }))  # fmt: skip
    # Of the steps that solve a pose, which fill the middle of the table.
    assert len(poses_of(package, "B")) == 2
    assert len(poses_of(package, "AA")) == 1
    want = call("CAMBER", EXAMPLE, 12.0)
    assert value_of(package, "B2") == pytest.approx(want, rel=1e-12)
    if other == 30.0:
        assert value_of(package, "B1") == pytest.approx(want, rel=1e-12)
    else:
        assert isinstance(value_of(package, "B1"), CellError)


@pytest.mark.parametrize(("radius", "said"), [("50", False), ("-50", True)])
def test_numbers_typed_in_a_call_stand_as_they_are(grown, radius, said):
    formula = f"CORNER.LIMB_CLEARANCE(-560,370,-160,190,{radius},-100,240,20)"
    package = shared(grown({"B1": "=" + formula}))
    cells = package.cells("Workings").values()
    assert sum(cell.formula is None and isinstance(cell.value, float) for cell in cells) == 8
    # Nothing is to be asked of numbers that are well; a wrong one is named.
    asking = [cell for cell in cells if "was expected" in (cell.formula or "")]
    assert bool(asking) == said
    shown = value_of(package, "B1")
    want = call("LIMB_CLEARANCE", -560, 370, -160, 190, float(radius), -100, 240, 20)
    assert shown == (want if said else pytest.approx(want, rel=1e-12))


def test_each_question_is_asked_once():
    """What is said first of several is one choice after another, none of which stands twice."""
    recorder = Recorder()
    given = [recorder.input(name) for name in ("travel", "rack")]
    each = [number_said(recorder, step, step.what) for step in given]
    said = recorder.first_said([*each, each[0]])
    asked, waiting = [], [said]
    while waiting:
        step = waiting.pop()
        waiting += step.parts
        if step.kind == "ISNUMBER":
            asked.append(step.parts[0].what)
    assert sorted(asked) == ["rack", "travel"]

    def comes_to(travel, rack):
        return evaluated(said, {"travel": travel, "rack": rack}.get, {})

    assert comes_to(1.0, 2.0) == ""
    assert comes_to(1.0, "x") == '# rack: "x" given, a number was expected'
    assert comes_to("# so", "x") == "# so"


def test_the_base_of_a_power_has_no_sign(grown):
    """Programs differ in what binds more strongly, and one drops the brackets."""
    package = shared(grown({"A1": 12.0, "A2": 3.0, "B1": "=CORNER.BUMP_STEER(Front,A1,A2)",
                            "B2": "=CORNER.CAMBER(Front,A1,A2)"}))  # fmt: skip
    texts = [cell.formula for cell in package.cells("Workings Front").values() if cell.formula]
    assert any("^2" in text for text in texts)
    assert not any(re.search(r"\(-[^()]*\)\^|[(,=]-[^()+*/,-]*\^", text) for text in texts)
    recorder = Recorder()
    number = recorder.input("number")
    assert -number * -number is number * number


def test_a_block_by_its_cells_and_another_spelling(grown):
    path = grown({
        "B1": "=CORNER.TRAIL('My points'!A1:D12)",
        "B2": "=_xldudf_CORNER_TRAIL('My points'!$A$1:$D$12)",
        "B3": "=CORNER_TRAIL(Front)",
        "B4": "=corner.trail(Front)",
    })  # fmt: skip
    package = shared(path)
    for row in range(1, 5):
        assert value_of(package, "B%d" % row) == pytest.approx(call("TRAIL", EXAMPLE), rel=1e-12)
        assert "CORNER" not in formula_of(package, "B%d" % row).upper()


def test_in_roll_out_of_reach_is_not_available(grown):
    formula = '=CORNER.IN_ROLL(Front,"camber","left",%s)'
    package = shared(grown({"A1": 40.0, "B1": formula % "A1", "B2": formula % "2"}))
    assert call("IN_ROLL", EXAMPLE, "camber", "left", 40.0) is None
    assert isinstance(value_of(package, "B1"), CellError)
    at_result = formula_of(package, "B1").split("!")[1].replace("$", "")
    assert isinstance(value_of(package, at_result, "Workings Front"), CellError)
    want = call("IN_ROLL", EXAMPLE, "camber", "left", 2.0)
    assert value_of(package, "B2") == pytest.approx(want, rel=1e-12)


def test_omitted_arguments(grown):
    path = grown({"B1": "=CORNER.CAMBER(Front,,15)", "B2": "=CORNER.CAMBER(Front)",
                  "B3": "=CORNER.CAMBER(,1)"})  # fmt: skip
    package = shared(path)
    assert value_of(package, "B1") == pytest.approx(call("CAMBER", EXAMPLE, None, 15.0))
    assert value_of(package, "B2") == pytest.approx(-1.0)
    assert value_of(package, "B3") == call("CAMBER", None, 1.0)


def test_a_sweep_in_an_array_formula(grown):
    sweep = '=CORNER.SWEEP(Front,A1:B1,"rack",-400,A2,5)'
    path = grown({"A1": "toe", "B1": "trail", "A2": 40.0, "D1": ArrayFormula("D1:F5", sweep)})
    package = shared(path)
    want = call("SWEEP", EXAMPLE, "toe,trail", "rack", -400.0, 40.0, 5.0)
    for r, row in enumerate(want, 1):
        for column, value in zip("DEF", row, strict=True):
            got = value_of(package, "%s%d" % (column, r))
            if value is None:
                assert isinstance(got, CellError)
            else:
                assert got == pytest.approx(value, rel=1e-12)
    assert package.cells("Notes")["D1"].array == "D1:F5"


def test_a_sweep_of_both_wheels_over_the_rack(grown):
    """Such a quantity asks for the pose of the opposite rack in each row."""
    sweep = '=CORNER.SWEEP(Example,"ackermann,steer left","rack",-20,A1,5,5,1600)'
    path = grown({"A1": 40.0, "D1": ArrayFormula("D1:F5", sweep)}, name="Example")
    package = shared(path)
    want = call("SWEEP", EXAMPLE, "ackermann,steer left", "rack", -20.0, 40.0, 5.0, 5.0, 1600.0)
    assert formula_of(package, "D1").startswith("='Workings tables'!")
    for r, row in enumerate(want, 1):
        for column, value in zip("DEF", row, strict=True):
            got = value_of(package, "%s%d" % (column, r))
            if isinstance(value, float):
                assert got == pytest.approx(value, rel=1e-12)
            else:
                assert got == value or isinstance(got, CellError)
    # The cells that these refer to, worked out from the recorded steps.
    results = package.cells("Workings tables").values()
    numbers = [c.value for c in results if c.formula and isinstance(c.value, float)]
    wanted = [value for row in want for value in row if isinstance(value, float)]
    assert numbers == pytest.approx(wanted, rel=1e-9)
    assert len(wanted) >= 13


def test_numbers_kept_in_an_array_are_those_that_it_shows(grown):
    """One value of an array formula stands in all its cells; a table ends where it ends."""
    table = '=CORNER.TWO_WAY(Front,"%s","travel",-9,9,2,"rack",-5,5,2)'
    path = grown({"A1": ArrayFormula("A1:B3", table % "nothing"),
                  "D1": ArrayFormula("D1:G3", table % "trail")})  # fmt: skip
    package = shared(path)
    asked = ("travel", -9, 9, 2, "rack", -5, 5, 2)
    said = call("TWO_WAY", EXAMPLE, "nothing", *asked)
    assert said.startswith("# ")
    for address in ("A1", "B1", "A2", "B2", "A3", "B3"):
        assert value_of(package, address) == said
    want = call("TWO_WAY", EXAMPLE, "trail", *asked)
    for row in range(3):
        assert [value_of(package, f"{c}{row + 1}") for c in "DEF"] == list(want[row])
        assert isinstance(value_of(package, f"G{row + 1}"), CellError)
    formulas = [cell.formula for cell in package.cells("Notes").values() if cell.formula]
    assert len(formulas) == 18 and not any("CORNER." in formula for formula in formulas)


def test_a_measure_as_drawn_is_written_once(grown):
    path = grown({"A1": 5.0, "B1": "=CORNER.CAMBER_GAIN(Front,A1)",
                  "B2": "=CORNER.CAMBER_GAIN(Front)"})  # fmt: skip
    package = shared(path)
    cells = package.cells("Workings Front")
    titles = [c.value for c in cells.values() if str(c.value).startswith("CAMBER_GAIN")]
    # One in the points' table, as drawn, and one at a pose.
    assert titles == ["CAMBER_GAIN", "CAMBER_GAIN"]
    assert value_of(package, "B2") == pytest.approx(call("CAMBER_GAIN", EXAMPLE), rel=1e-12)


def test_shared_formulas_of_a_file_are_each_replaced(grown, tmp_path):
    """As programs store a column that was filled down: one text, and marks below it."""
    import zipfile

    path = grown({"A1": 1.0, "A2": 2.0, "A3": 3.0, "B1": "=CORNER.CAMBER(Front,A1)",
                  "B2": "=0", "B3": "=0"})  # fmt: skip
    old = zipfile.ZipFile(path)
    parts = {name: old.read(name) for name in old.namelist()}
    text = parts["xl/worksheets/sheet1.xml"].decode()
    text = text.replace("<f>CORNER.CAMBER(Front,A1)</f>",
                        '<f t="shared" ref="B1:B3" si="0">CORNER.CAMBER(Front,A1)</f>')  # fmt: skip
    assert text.count("<f>0</f>") == 2
    text = text.replace("<f>0</f>", '<f t="shared" si="0"/>')
    parts["xl/worksheets/sheet1.xml"] = text.encode()
    other = tmp_path / "filled.xlsx"
    with zipfile.ZipFile(other, "w") as file:
        for name, content in parts.items():
            file.writestr(name, content)
    package = shared(other)
    for row in (1, 2, 3):
        want = call("CAMBER", EXAMPLE, float(row))
        assert value_of(package, "B%d" % row) == pytest.approx(want, rel=1e-12)
        assert formula_of(package, "B%d" % row).startswith("='Workings Front'!")


@pytest.mark.parametrize(
    ("formula", "words"),
    [
        ("=CORNER.TRIAL(Front)", ["Notes!B1", "CORNER.TRIAL", "CORNER.TRAIL"]),
        ("=CORNER.TRAIL(OFFSET(Front,0,0))", ["Notes!B1", "OFFSET", "plain range"]),
        ("=CORNER.TRAIL(Nowhere)", ["Notes!B1", "Nowhere"]),
        ("=CORNER.CAMBER(Front,PMT(1,A1,1))", ["Notes!B1", "PMT", "cell of its own"]),
    ],
)
def test_what_cannot_be_written_is_refused_by_name(grown, formula, words):
    path = grown({"A1": 1.0, "B1": formula})
    with pytest.raises(Trouble) as problem:
        share(path)
    for word in words:
        assert word in str(problem.value)


def test_a_call_in_a_conditional_format_is_refused(grown):
    from openpyxl.formatting.rule import FormulaRule

    path = grown({"B1": "=CORNER.TRAIL(Front)"})
    book = openpyxl.load_workbook(path)
    rule = FormulaRule(formula=["CORNER.TRAIL(Front)>10"])
    book["Notes"].conditional_formatting.add("B1", rule)
    book.save(path)
    with pytest.raises(Trouble, match="put the call into a cell"):
        share(path)


def test_the_input_is_not_touched(grown):
    path = grown({"B1": "=CORNER.TRAIL(Front)"})
    before = hashlib.sha256(path.read_bytes()).hexdigest()
    share(path)
    share(path, values=True)
    assert hashlib.sha256(path.read_bytes()).hexdigest() == before


def test_a_workbook_without_calls_is_said(grown):
    _, messages = share(grown({"B1": "=1+1"}))
    assert any("no CORNER formula" in message for message in messages)


def test_a_missing_row_is_said_in_the_copy(tmp_path):
    book = openpyxl.Workbook()
    for row in EXAMPLE[:11]:
        book.active.append([None if cell == "" else cell for cell in row])
    book.active["F1"] = "=CORNER.CAMBER(A1:D11,5)"
    book.active["F2"] = "=CORNER.TRAIL(A1:D11)"
    path = tmp_path / "short.xlsx"
    book.save(path)
    package = shared(path)
    said = call("CAMBER", EXAMPLE[:11], 5.0)
    assert "tie rod inner" in said
    assert value_of(package, "F1", "Sheet") == said
    assert value_of(package, "F2", "Sheet") == pytest.approx(call("TRAIL", EXAMPLE))


# Sheets that have between them what there is to share: tables, kept numbers, charts, a form.
FEW = ("sensitivity", "bump", "rules", "picture")


def test_values_alone(once):
    book = looked_into(once.copy(values=True, chapters=FEW)[0])
    stored = looked_into(once.workbook(chapters=FEW), data_only=True)
    numbers = 0
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                assert cell.data_type != "f"
                was = stored[sheet.title][cell.coordinate].value
                if str(was).startswith("the original; not a copy"):
                    assert cell.value.startswith("a copy of values")
                    continue
                if sheet.title == "Overview" and str(was).startswith("all "):
                    assert cell.value == f"as shared: {was}"
                    continue
                assert (cell.value or None) == (was or None), cell.coordinate
                numbers += isinstance(cell.value, float)
    assert numbers > 300


def test_same_input_gives_the_same_bytes(once):
    copy, messages = once.copy(chapters=FEW)
    assert share(once.workbook(chapters=FEW)) == (copy.read_bytes(), messages)


def test_charts_and_all_else_stay(once, starter):
    """Every part of the file that holds no formula of ours keeps its exact bytes."""
    import zipfile

    copy, _ = once.copy()
    with zipfile.ZipFile(starter) as old, zipfile.ZipFile(copy) as new:
        kept = [n for n in old.namelist() if n.startswith(("xl/charts", "xl/media", "xl/drawings"))]
        assert len(kept) >= 9
        for name in kept:
            assert old.read(name) == new.read(name), name
        sheets = [n for n in old.namelist() if n.startswith("xl/worksheets/sheet")]
        assert len(sheets) > 30
        for name in sheets:
            assert _beside_cells(new.read(name)) == _beside_cells(old.read(name)), name
    before, after = looked_into(starter), looked_into(copy)
    assert set(before.defined_names) <= set(after.defined_names)
    assert after.sheetnames[: len(before.sheetnames)] == before.sheetnames


def _beside_cells(content):
    """What a sheet's part holds besides its cells: protection, choices, merged cells, bands, and
    what stands on paper."""
    kept = ("sheetProtection", "dataValidation", "mergeCell", "conditionalFormatting", "cfRule",
            "formula", "formula1", "oddFooter")  # fmt: skip
    return [
        (tag, sorted(element.attrib.items()), element.text)
        for element in etree.fromstring(content).iter()
        for tag in [etree.QName(element).localname]
        if tag in kept
    ]


def test_values_are_worked_out_where_the_file_has_none(grown):
    path = grown({"A1": 3.0, "A2": "=A1*2", "B1": "=CORNER.CAMBER(Front,A2)"})
    values = Values(Package.read(path))
    assert values.at("Notes", "A2") == 6.0
    assert values.at("Notes", "B1") == pytest.approx(call("CAMBER", EXAMPLE, 6.0))


def test_a_formula_of_its_own_within_an_array_is_told(grown):
    """No program makes such a file; which of the two is meant nobody knows."""
    cells = {"E1": ArrayFormula("E1:F3", "=A1:A3*{1,2}"), "F1": "=CORNER.CASTER(Front)"}
    with pytest.raises(Trouble, match="the array of Notes!E1 runs over F1, which has a formula"):
        share(grown({"A1": 1, "A2": 2, "A3": 3, **cells}))


def test_an_error_among_what_is_given_is_no_fault(grown):
    """In a program the error goes through; the block's own row is told as any without a number."""
    path = grown({"F1": "=1/0", "A1": "=CORNER.CAMBER(Front,F1)", "A2": "=CORNER.TRAIL(Front)"})
    book = openpyxl.load_workbook(path)
    book["My points"]["D5"] = "=1/0"
    book.save(path)
    copy = shared(path)
    assert all(formula_of(copy, address) is not None for address in ("A1", "A2"))


def test_a_yellow_cell_that_cannot_be_worked_out_here_is_held_by_its_formula(grown):
    """Nobody asks for it, so it is no reason to refuse; a program that knows it has it live."""
    path = grown({"F1": "=BESSELJ(A9,2)", "F2": "=1/0", "A1": "=CORNER.CAMBER(Front)"})
    book = openpyxl.load_workbook(path)
    for address in ("F1", "F2"):
        book["Notes"][address].protection = openpyxl.styles.Protection(locked=False)
    book.save(path)
    copy = shared(path)
    rows = {where: then.formula for where, then in held_rows(copy)}
    assert rows == {"Notes!F1": "=BESSELJ('Notes'!A9,2)", "Notes!F2": "=1/0"}
    assert edits_of(copy) == ([], [])
