"""Short runs of what goes wrong with files and arguments; the long ones are by hand, as the head
of each module of this folder says. Every fault that was found is a case further down."""

import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from cornerbook import cli
from cornerbook.book.points.dxf.write import dxf_of
from cornerbook.book.points.row import Row
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

from tests.fuzz import arguments, kills, points, scenarios, workbooks
from tests.fuzz.commands import Case, became, ran, run, said
from tests.support.patience import HANGING


def faults(first):
    return "\n".join(f"seed {seed}: {what}" for what, seed in first.items())


@pytest.mark.parametrize(
    ("cases", "count", "most_made"),
    [(workbooks.case, 25, 0.9), (points.case, 40, 0.6), (scenarios.case, 24, 0.9),
     (arguments.case, 45, 0.7)],
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
    wanted = {"--version": "made", "adopt": "said", "take": "said"}.get(given[0], "made")
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


def test_a_name_of_two_lines_is_said_in_one(folder):
    for line in (["share", "a\nb.xlsx", "out.xlsx"], ["share", "in.xlsx", "a\nb.ods"]):
        assert "a\\nb." in said(*line)


def test_an_extension_by_the_name_of_another_kind(folder):
    assert "a name that ends in .oxt was expected" in said("calc", "extension", ".xlsx")


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


def test_stopped_while_it_starts(folder):
    """An interrupt within the imports of the command itself, which take longest at first."""
    code = """
import sys
from cornerbook.__main__ import main

class Stop:
    def find_spec(self, name, *_):
        if name == "cornerbook.commands.share":
            raise KeyboardInterrupt

sys.meta_path.insert(0, Stop())
sys.exit(main())
"""
    done = run_with(code, folder)
    assert (done.returncode, done.stdout, done.stderr) == (130, "", "cornerbook: stopped\n")
    project = (Path(__file__).parents[2] / "pyproject.toml").read_text("utf-8")
    assert 'cornerbook = "cornerbook.__main__:main"' in project


def test_what_was_asked_is_told_before_the_name_that_is_taken(folder):
    (folder / "taken.xlsx").write_bytes(b"mine")
    for line, wrong in (
        ("new taken.xlsx --scenario nowhere.toml", "no file nowhere.toml"),
        ("new taken.xlsx --chapters car,wantd", "--chapters: the template car.toml has no chapter"),
        ("share nowhere.xlsx taken.xlsx", "no file nowhere.xlsx"),
        ("import in.xlsx nowhere.csv --out taken.xlsx", "no file nowhere.csv"),
        ("export in.xlsx taken.csv --block Frnt", "did you mean Front?"),
    ):
        assert wrong in said(*line.split())


def test_what_a_killed_run_left_goes_also_where_nothing_is_made(folder):
    (folder / ".out.xlsx.123.cornerbook-part").write_bytes(b"half")
    (folder / "out.xlsx").write_bytes(b"mine")
    assert "exists and was left" in said("share", "in.xlsx", "out.xlsx")
    assert not list(folder.glob(".*"))


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


def test_thousands_of_points_without_a_name(folder):
    """Each of them was once held to each label."""
    rows = [*points.ROWS, *(Row(f"Station {n}", (1.0 * n, 1.0, 2.0), "mm") for n in range(1500))]
    content = re.sub(rb"\n1001\nCORNERBOOK\n1000\n[^\n]*", b"", dxf_of(rows, "mm")[0])
    with open("in.dxf", "wb") as file:
        file.write(content)
    line = said("import", "in.xlsx", "in.dxf", "--out", "out.xlsx")
    assert "save the points of the corner alone" in line


@pytest.mark.parametrize("rows", ["1e308", "-1", "nan", "1001"])
def test_rows_of_a_grid_beyond_all_sheets(folder, rows):
    chapter = (folder / "small.toml").read_text().replace('["car"', '["car", "mine.toml"')
    (folder / "small.toml").write_text(chapter)
    (folder / "mine.toml").write_text(
        'about = "Mine."\n[[sheet]]\nname = "Mine"\n[[sheet.block]]\nkind = "grid"\nname = "Mine"\n'
        f'formula = "=A1"\ncolumns = 3\nrows = {rows}\n'
    )
    done = ran("new out.xlsx --template small.toml".split())
    assert done.status == 1
    assert any("mine.toml, line 9" in line and "rows" in line for line in done.err.splitlines())


def test_a_block_of_a_hundred_thousand_rows_of_the_users_own():
    """Each was once compared with every name that is known."""
    rows = (*EXAMPLE, *((f"Station {n}", 1.0, 2.0, 3.0) for n in range(100_000)))
    assert call("CHECK", rows, "mm").startswith("ok")
    assert call("TRAIL", rows) == call("TRAIL", EXAMPLE)


@pytest.mark.parametrize("label", ["(" * 32_000, " (" * 16_000, "()" * 16_000, "-" * 32_000])
def test_a_label_as_long_as_a_cell_takes(label):
    """The pattern of brackets was quadratic in them: seconds for each of these rows."""
    rows = (*EXAMPLE, *((f"{label}{n}", 1.0, 2.0, 3.0) for n in range(20)))
    assert call("TRAIL", rows) == call("TRAIL", EXAMPLE)


def test_a_table_of_points_as_large_as_a_disk(folder):
    with open("in.csv", "wb") as file:
        file.truncate(87_000_000)
    with open("in.dxf", "wb") as file:
        file.truncate(87_000_000)
    for name in ("in.csv", "in.dxf"):
        assert "MB" in said("import", "in.xlsx", name, "--out", "out.xlsx")


def test_a_row_with_a_name_as_long_as_a_cell_takes_is_not_shown_whole(folder):
    with open("in.csv", "ab") as file:
        file.write(b"x" * 32_000 + b",1,2,3,mm\n")
    done = ran("import in.xlsx in.csv --out out.xlsx".split())
    assert done.status == 0
    assert "Not in the block and left out: xxx" in done.out and len(done.out) < 1000
