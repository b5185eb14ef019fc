"""Short runs of what goes wrong with files and arguments; the long ones are by hand, as the head
of each module of this folder says. Every fault that was found is a case further down."""

import io
import os
import re
import subprocess
import sys
import zipfile

import pytest
from cornerbook import cli
from cornerbook.book.formula.ranges import LARGEST

from tests.fuzz import arguments, kills, points, scenarios, workbooks
from tests.fuzz.commands import Case, became, ran, run
from tests.support.patience import HANGING


def faults(first):
    return "\n".join(f"seed {seed}: {what}" for what, seed in first.items())


@pytest.mark.parametrize(
    ("cases", "count", "most_made"),
    [(workbooks.case, 25, 0.9), (points.case, 40, 0.6), (scenarios.case, 10, 0.9),
     (arguments.case, 30, 0.7)],
)  # fmt: skip
def test_what_is_broken_is_said_in_a_line(cases, count, most_made):
    counts, first = run(cases, count, seed=20_001)
    assert not first, faults(first)
    # A run in which nothing is made, or nothing refused, would show nothing.
    assert 0 < counts["made"] < most_made * count
    assert counts["said"] > 0


def test_killed_at_any_moment():
    counts = kills.run(4, seed=20_003, longest=1.0)
    assert sum(counts.values()) == 4
    assert not [what for what in counts if what.startswith("fault")]


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A folder of a test's own with the files that the lines name."""
    monkeypatch.chdir(tmp_path)
    arguments.put_files()
    return tmp_path


@pytest.mark.parametrize("line", [*workbooks.COMMANDS, *arguments.LINES])
def test_unchanged_it_is_done(folder, line):
    given = workbooks.arguments(line)
    wanted = {"--version": "made", "adopt": "said"}.get(given[0], "made")
    assert became(Case(given, ["in.xlsx"], anything=True, given="None nan")) == wanted


def test_a_fault_would_be_seen(folder, monkeypatch):
    def fails(*_):
        raise LookupError("within")

    case = Case(["share", "in.xlsx", "out.xlsx"], ["in.xlsx"], "out.xlsx")
    with monkeypatch.context() as patch:
        patch.setattr("cornerbook.book.plain.share.share", fails)
        assert became(case).startswith("fault: share: failed inside: LookupError")
        patch.setattr(cli, "_not_done", lambda said: print(said, file=sys.stderr) or 3)
        assert became(case) == "fault: share: status 3"
    (folder / "out.xlsx").write_bytes(b"taken")
    assert became(case) == "said"
    (folder / "out.xlsx").unlink()
    assert became(Case(case.arguments, makes="other.xlsx")).startswith(
        "fault: share: with status 0"
    )


def said(*given):
    """What a command says where it does nothing, in one line."""
    done = ran(given)
    assert done.escaped is None
    assert done.status == 1, done.out
    (line,) = done.err.splitlines()
    assert line.startswith("cornerbook: ") and "failed inside" not in line
    return line


# ---------------------------------------------------------------- arguments that were faults


@pytest.mark.parametrize(
    "line",
    [
        ["new", "a\0.xlsx"], ["share", "a\0.xlsx", "out.xlsx"], ["share", "in.xlsx", "a\0.xlsx"],
        ["import", "in.xlsx", "a\0.csv", "--out", "out.xlsx"], ["draw", "in.xlsx", "a\0.png"],
        ["import", "in.xlsx", "a\0.dxf", "--out", "out.xlsx"], ["calc", "extension", "a\0.oxt"],
        ["tolerance", "a\0.xlsx"], ["export", "in.xlsx", "a\0.csv"],
    ],
)  # fmt: skip
def test_a_name_that_no_file_can_have(folder, line):
    there = sorted(os.listdir())
    assert "no file can have this name" in said(*line)
    assert sorted(os.listdir()) == there


@pytest.mark.parametrize("command", [["tolerance"], ["solve", "--change", "A", "--make", "B=1"]])
@pytest.mark.parametrize("name", ["", ".", "/"])
def test_a_workbook_without_a_name(folder, command, name):
    assert "is no name of a workbook" in said(command[0], name, *command[1:])


def test_a_file_without_an_end():
    assert "/dev/zero is refused" in said("share", "/dev/zero", "out.xlsx")


# ---------------------------------------------------------------- streams that were faults


def run_with(code, cwd):
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    return subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=cwd,
        env=environment, timeout=HANGING,
    )  # fmt: skip


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no /dev/full")
def test_standard_output_that_takes_nothing(folder):
    code = (
        "import sys; sys.stdout = open('/dev/full', 'w'); from cornerbook.cli import main; "
        "sys.exit(main('share in.xlsx out.xlsx --values'.split()))"
    )
    done = run_with(code, folder)
    assert done.returncode == 1
    (line,) = done.stderr.splitlines()
    assert "done, and what was to be said is lost" in line and "No space left" in line
    assert zipfile.is_zipfile("out.xlsx")


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no /dev/full")
def test_what_is_to_be_known_first_cannot_be_said(folder):
    """The report of a solve comes before its workbook: where it is lost, nothing is made."""
    line = ["solve", "in.xlsx", "--out", "out.xlsx", "--change", "Notes!A1", "--make", "Total=20"]
    code = (
        "import sys; sys.stdout = open('/dev/full', 'w'); from cornerbook.cli import main; "
        f"sys.exit(main({line!r}))"
    )
    done = run_with(code, folder)
    assert (done.returncode, done.stderr.count("\n")) == (1, 1)
    assert "stopped: standard output takes no more" in done.stderr
    assert not os.path.exists("out.xlsx")


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no /dev/full")
def test_standard_error_that_takes_nothing(folder):
    code = (
        "import sys; sys.stderr = open('/dev/full', 'w'); from cornerbook.cli import main; "
        "print(main(['share', 'nothing.xlsx', 'out.xlsx']))"
    )
    done = run_with(code, folder)
    assert (done.returncode, done.stdout, done.stderr) == (0, "1\n", "")


def test_stopped_while_the_parser_is_made(monkeypatch, capsys):
    def stop():
        raise KeyboardInterrupt

    monkeypatch.setattr(cli, "_parser", stop)
    assert cli.main(["chapters"]) == 130
    assert capsys.readouterr().err == "cornerbook: stopped\n"


def test_what_a_killed_run_left_goes_also_where_nothing_is_made(folder):
    (folder / ".out.xlsx.123.cornerbook-part").write_bytes(b"half")
    (folder / "out.xlsx").write_bytes(b"mine")
    assert "exists and was left" in said("share", "in.xlsx", "out.xlsx")
    assert not list(folder.glob(".*"))


# ---------------------------------------------------------------- workbooks that were faults


def workbook_with(changes=(), formulas=(), names=()):
    """Write in.xlsx: the rich one with {part: function of its bytes} and other formulas.

    formulas: {cell of the sheet Notes: text without '='}. names: {name: text}.
    """
    parts = dict(workbooks.rich())
    for part, change in dict(changes).items():
        parts[part] = change(parts[part])
    sheet = parts["xl/worksheets/sheet1.xml"].decode()
    for row, (cell, text) in enumerate(dict(formulas).items(), 500):
        text = text.replace("&", "&amp;").replace("<", "&lt;")
        cell = cell or f"A{row}"
        sheet = sheet.replace(
            "</sheetData>", f'<row r="{cell[1:]}"><c r="{cell}"><f>{text}</f></c></row></sheetData>'
        )
    parts["xl/worksheets/sheet1.xml"] = sheet.encode()
    book = parts["xl/workbook.xml"].decode()
    for name, text in dict(names).items():
        book = book.replace(
            "</definedNames>", f'<definedName name="{name}">{text}</definedName></definedNames>'
        )
    parts["xl/workbook.xml"] = book.encode()
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in parts.items():
            package.writestr(name, content)
    with open("in.xlsx", "wb") as file:
        file.write(out.getvalue())


BOOK, NOTES, STYLES = "xl/workbook.xml", "xl/worksheets/sheet1.xml", "xl/styles.xml"


@pytest.mark.parametrize(
    ("part", "old", "new", "words"),
    [
        (BOOK, b'<definedName name="Half">', b'<definedName name="Half" localSheetId="x">',
         "the name Half is of a sheet that there is not"),
        (BOOK, b'<definedName name="Half">', b'<definedName name="Half" localSheetId="9">',
         "the name Half is of a sheet that there is not"),
        (BOOK, b'<definedName name="Half">', b"<definedName>", "a defined name is empty"),
        (BOOK, b'<sheet name="Notes"', b"<sheet", "a sheet has no name"),
        (NOTES, b"sheetData>", b"sheetdata>", "sheet Notes cannot be read: it has no sheetData"),
        (NOTES, b'<c r="C3"', b'<c r="c3"', "c3 is not how a file names a cell"),
        (NOTES, b'<row r="20"', b'<row r="2147483648"', "'2147483648' is no whole number"),
        (NOTES, b'ref="E1:F3"', b'ref="D1:F3"', "E1 fills D1:F3, which does not begin there"),
        (NOTES, b'<c r="C3"', b'<c r="C3" s="-1"', "'-1' is no whole number"),
    ],
)  # fmt: skip
def test_damage_is_named(folder, part, old, new, words):
    workbook_with({part: lambda content: content.replace(old, new)})
    assert words in said("share", "in.xlsx", "out.xlsx")


@pytest.mark.parametrize("number", ["x", "99", ""])
def test_a_style_that_there_is_not(folder, number):
    """Cells that keep their numbers are shown grey: in a style of their own and another font."""
    font = f'fontId="{number}"'.encode()
    workbook_with(
        {STYLES: lambda content: re.sub(rb'fontId="\d+"', font, content)},
        {"C40": 'CORNER.SENSITIVITY(Front,"camber","upper ball joint z","mm")'},
    )
    assert became(Case(["share", "in.xlsx", "out.xlsx"], ["in.xlsx"], "out.xlsx")) in (
        "said",
        "made",
    )


def test_ids_of_sheets_that_are_no_numbers(folder):
    workbook_with({BOOK: lambda content: content.replace(b'sheetId="1"', b'sheetId="one"')})
    assert became(Case(["share", "in.xlsx", "out.xlsx"], ["in.xlsx"], "out.xlsx")) == "made"


def test_a_name_of_thousands_of_letters_is_not_shown_whole(folder):
    workbook_with(names={"Long": "+".join(["A1"] * 4000)})
    assert len(said("export", "in.xlsx", "out.csv", "--block", "Long")) < 400


# ---------------------------------------------------------------- formulas that hung or failed


def values_of(folder, formulas, names=()):
    """What `share --values` stores in the cells of formulas on Notes."""
    import openpyxl

    workbook_with(formulas=formulas, names=names)
    done = ran(["share", "in.xlsx", "out.xlsx", "--values", "--force"])
    assert done.status == 0, done.err
    sheet = openpyxl.load_workbook("out.xlsx")["Notes"]
    return [sheet[cell].value for cell in formulas]


def test_a_whole_sheet_is_read_by_what_is_filled(folder):
    wide = "'My points'!A1:XFD1048576"
    found = values_of(
        folder,
        {
            "M40": f"SUM({wide})", "M41": f"COUNTA({wide})", "M42": f"MAX({wide})",
            "M43": f"CORNER.TRAIL({wide})", "M44": "CORNER.TRAIL(Front)",
            "M45": f"CORNER.CHECK({wide})", "M46": f"INDEX({wide},1,1)", "M47": f"ROWS({wide})",
            "M48": "SUM('My points'!A1:D30)", "M49": "SUM(Everything)",
        },
        {"Everything": "'My points'!$A$1:$XFD$1048576"},
    )  # fmt: skip
    assert found[3] == pytest.approx(found[4])
    assert found[0] == pytest.approx(found[8]) == pytest.approx(found[9])
    assert found[5].startswith("ok")
    assert found[6:8] == ["Wheel centre", 1048576]


@pytest.mark.parametrize(
    "formula",
    ["SUMPRODUCT(B30:XFD1048576*1)", "COUNTBLANK(A30:XFD1048576)", "MMULT(A30:A9999,A30:ZZ30)",
     "COUNTIF(A30:XFD1048576,\"\")", "VLOOKUP(1,A30:XFD1048576,2,FALSE)"],
)  # fmt: skip
def test_a_range_too_large_is_named_with_its_cell(folder, formula):
    workbook_with(formulas={"M25": formula})
    line = said("share", "in.xlsx", "out.xlsx", "--values")
    assert "Notes!M25: " in line and f"{LARGEST} are worked out here at most" in line


def test_an_array_formula_over_the_whole_sheet(folder):
    workbook_with({NOTES: lambda c: c.replace(b'ref="E1:F3"', b'ref="E1:XFD1048576"')})
    for line in ("share in.xlsx out.xlsx --values", "share in.xlsx out.xlsx"):
        done = ran(line.split())
        assert done.status in (0, 1) and "failed inside" not in done.err
        assert done.status == 0 or f"{LARGEST} are worked out here at most" in done.err


def test_long_chains_of_cells_names_and_terms(folder):
    cells = {f"M{n}": f"M{n - 1}+1" if n > 1001 else "1" for n in range(1001, 1401)}
    cells["N1500"] = "+".join(["A1"] * 2000)
    cells["N1501"] = "(" * 240 + "A2" + ")" * 240
    cells["N1502"] = "IF(TRUE," * 60 + "A3" + ")" * 60
    cells["N1503"] = "-" * 200 + "A2"
    found = values_of(folder, cells)
    assert found[:400] == list(range(1, 401))
    assert found[400:] == [2000, 2, 3, 2]


def test_names_that_use_names(folder):
    names = {f"Step{n}": f"Step{n - 1}+1" if n else "1" for n in range(15)}
    assert values_of(folder, {"M40": "Step14"}, names) == [15]
    names = {f"Step{n}": f"Step{n - 1}+1" if n else "1" for n in range(300)}
    workbook_with(formulas={"M40": "Step299"}, names=names)
    assert "Notes!M40" in said("share", "in.xlsx", "new.xlsx", "--values")
    workbook_with(formulas={"M40": "IF(TRUE," * 300 + "1" + ")" * 300})
    assert "Notes!M40" in said("share", "in.xlsx", "new.xlsx", "--values")


def test_ways_to_choose_beyond_all_floats(folder):
    formulas = {"M40": "COMBIN(1E9,5E8)", "M41": "PERMUT(1E9,5E8)", "M42": "COMBIN(1E9,999999998)"}
    found = values_of(folder, formulas)
    assert found[:2] == ["#NUM!", "#NUM!"]
    assert found[2] == pytest.approx(1e9 * (1e9 - 1) / 2)


# ---------------------------------------------------------------- drawings that were faults


@pytest.mark.parametrize(
    ("old", "new"),
    [(b"ENDBLK", b"ENDBLQ"), (b"\n  5\n", b"\n  5\nx"), (b"\n  5\n2F\n", b"\n  5\n30\n")],
)
def test_what_the_library_mends_is_not_said_in_its_words(folder, old, new):
    content = points.written()["dxf"]
    with open("in.dxf", "wb") as file:
        file.write(content.replace(old, new, 3))
    script = (
        "import sys; from cornerbook.cli import main; "
        "sys.exit(main('import in.xlsx in.dxf --out out.xlsx'.split()))"
    )
    done = run_with(script, folder)
    assert all(line.startswith("cornerbook: ") for line in done.stderr.splitlines())


def test_a_whole_number_of_a_drawing_that_is_none(folder):
    lines = points.written()["dxf"].decode().split("\n")
    at = lines.index("$INSUNITS") + 2
    lines[at] = "4l"
    with open("in.dxf", "w") as file:
        file.write("\n".join(lines))
    line = said("import", "in.xlsx", "in.dxf", "--out", "out.xlsx")
    assert f'line {at + 1}: "4l" stands where a whole number was expected' in line


def test_a_table_of_points_as_large_as_a_disk(folder):
    with open("in.csv", "wb") as file:
        file.truncate(87_000_000)
    with open("in.dxf", "wb") as file:
        file.truncate(87_000_000)
    for name in ("in.csv", "in.dxf"):
        assert "MB" in said("import", "in.xlsx", name, "--out", "out.xlsx")
