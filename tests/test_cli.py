"""The command: what it makes, and what it says. Where a process of its own matters (its exit
status, pipes, letters), it is run as one; else in this one, which takes a tenth of the time."""

import os
import subprocess
import sys
import zipfile

import pytest
from cornerbook.book.file.package import Package

from tests.support.command import run
from tests.support.patience import HANGING


def in_a_process(*arguments, cwd):
    """What `run` gives, of a process of its own."""
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    return subprocess.run(
        [sys.executable, "-m", "cornerbook", *arguments],
        capture_output=True, text=True, cwd=cwd, env=environment, timeout=HANGING,
    )  # fmt: skip


FEW = ("placing", "loads", "survey")


@pytest.fixture
def car(tmp_path, once):
    """A workbook with what the commands ask for as car.xlsx in a test's own folder."""
    path = tmp_path / "car.xlsx"
    path.write_bytes(once.workbook(chapters=FEW).read_bytes())
    return path


def test_new(tmp_path):
    done = in_a_process("new", "car.xlsx", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert os.listdir(tmp_path) == ["car.xlsx"]
    assert zipfile.ZipFile(tmp_path / "car.xlsx").testzip() is None


def test_new_keeps_what_is_there(tmp_path):
    (tmp_path / "car.xlsx").write_bytes(b"mine")
    done = run("new", "car.xlsx", cwd=tmp_path)
    assert done.returncode == 1
    assert "exists and was left as it is" in done.stderr
    assert (tmp_path / "car.xlsx").read_bytes() == b"mine"
    assert run("new", "car.xlsx", "--chapters", "car", "--force", cwd=tmp_path).returncode == 0
    assert zipfile.is_zipfile(tmp_path / "car.xlsx")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["new", "car.ods"], ".xlsx was expected"),
        (["new", "no/car.xlsx"], "no such folder"),
        (["new", "car.xlsx", "--template", "carr"], "car"),
        (["new", "car.xlsx", "--scenario", "my.toml"], "there is no file my.toml"),
    ],
)
def test_mistakes_are_one_sentence(tmp_path, arguments, words):
    done = run(*arguments, cwd=tmp_path)
    assert done.returncode == 1
    assert words in done.stderr
    assert "Traceback" not in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert os.listdir(tmp_path) == []


@pytest.mark.parametrize("how", [run, in_a_process])
def test_wrong_choice_is_refused(tmp_path, how):
    assert how("new", "car.xlsx", "--unit", "furlong", cwd=tmp_path).returncode == 2


def test_a_process_ends_as_the_command_does(tmp_path):
    done = in_a_process("new", "car.ods", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == run("new", "car.ods", cwd=tmp_path).stderr


def test_extension_file(tmp_path):
    done = run("calc", "extension", "cornerbook.oxt", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "META-INF/manifest.xml" in zipfile.ZipFile(tmp_path / "cornerbook.oxt").namelist()


def test_template_without_a_spreadsheet_program(tmp_path):
    """LibreOffice is not needed to make the file: an empty PATH does not matter."""
    environment = {"PYTHONPATH": os.pathsep.join(sys.path), "PATH": str(tmp_path)}
    done = subprocess.run(
        [sys.executable, "-m", "cornerbook", "new", "car.xlsx", "--chapters", "car"],
        capture_output=True, text=True, cwd=tmp_path, env=environment,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr


def test_share(tmp_path, once):
    before = once.workbook(chapters=("front-corner",)).read_bytes()
    (tmp_path / "car.xlsx").write_bytes(before)
    done = run("share", "car.xlsx", "copy.xlsx", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "car.xlsx").read_bytes() == before
    assert zipfile.is_zipfile(tmp_path / "copy.xlsx")
    again = run("share", "car.xlsx", "copy.xlsx", cwd=tmp_path)
    assert again.returncode == 1
    assert "exists and was left" in again.stderr


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["share", "car.xlsx", "car.xlsx", "--force"], "is the workbook itself"),
        (["share", "none.xlsx", "copy.xlsx"], "none.xlsx"),
        (["share", "notes.txt", "copy.xlsx"], "not a"),
        (["share", "car.xlsx", "copy.ods"], ".xlsx was expected"),
    ],
)
def test_share_mistakes_are_one_sentence(tmp_path, car, arguments, words):
    (tmp_path / "notes.txt").write_text("no workbook")
    before = sorted(os.listdir(tmp_path))
    done = run(*arguments, cwd=tmp_path)
    assert done.returncode == 1
    assert words in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert sorted(os.listdir(tmp_path)) == before


def test_convert(tmp_path, car):
    done = run("convert", "car.xlsx", "excel.xlsx", "--for", "excel", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "Bump: 191 formulas changed." in done.stdout
    assert zipfile.is_zipfile(tmp_path / "excel.xlsx")
    assert run("convert", "car.xlsx", "b.xlsx", "--for", "abacus", cwd=tmp_path).returncode == 2


def test_excel_alone_shows_both_ways(tmp_path):
    done = run("excel", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    for command in ("cornerbook excel lite", "cornerbook excel install"):
        assert command in done.stdout


def test_excel_lite_shows_both_texts(tmp_path):
    done = run("excel", "lite", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "from cornerbook.hosts.excel.lite import *" in done.stdout
    assert "requirements.txt" in done.stdout


def test_excel_install(tmp_path):
    pytest.importorskip("xlwings")
    done = run("excel", "install", "car.xlsm", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "this is not Windows" in done.stdout or os.name == "nt"
    names = zipfile.ZipFile(tmp_path / "car.xlsm").namelist()
    assert "xl/vbaProject.bin" in names
    again = run("excel", "install", "car.xlsm", cwd=tmp_path)
    assert again.returncode == 1
    assert "exists and was left" in again.stderr


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (
            ["solve", "car.xlsx", "--change", "Front: nothing x", "--make", "Caster=7"],
            "no such row",
        ),
        (["tolerance", "car.xlsx", "--cars", "3"], "from 1000 to"),
        (["survey", "car.xlsx", "--out", "built.xlsx"], "nothing is measured yet"),
    ],
)
def test_what_is_asked_is_checked_before_the_name_that_is_taken(tmp_path, car, arguments, words):
    for name in ("car-solved.xlsx", "car-tolerance.xlsx"):
        (tmp_path / name).write_bytes(b"mine")
    done = run(*arguments, cwd=tmp_path)
    assert done.returncode == 1
    assert words in done.stderr and "--force" not in done.stderr


@pytest.mark.parametrize(("text", "words"), [("1mm", "1mm given"), ("0,5", "decimal point: 0.5")])
def test_a_length_that_is_none_is_said_in_words(tmp_path, car, text, words):
    done = run("tolerance", "car.xlsx", "--within", text, cwd=tmp_path)
    assert done.returncode == 2
    assert words in done.stderr and "invalid" not in done.stderr


def test_a_pipe_that_closes_and_a_terminal_without_the_letters(tmp_path):
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    name = "c\N{LATIN SMALL LETTER O WITH DIAERESIS}r.xlsx"
    done = subprocess.run(
        [sys.executable, "-m", "cornerbook", "new", name, "--chapters", "car"],
        capture_output=True, cwd=tmp_path,
        env={**environment, "PYTHONIOENCODING": "ascii"},
    )  # fmt: skip
    assert done.returncode == 0 and b"c\\xf6r.xlsx is made" in done.stdout
    reading, writing = os.pipe()
    os.close(reading)
    with os.fdopen(writing, "w") as closed:
        done = subprocess.run(
            [sys.executable, "-m", "cornerbook", "excel", "lite"], stdout=closed,
            stderr=subprocess.PIPE, text=True, cwd=tmp_path, env=environment,
        )  # fmt: skip
    assert done.returncode == 1 and "Traceback" not in done.stderr


def test_adopt(tmp_path, car):
    done = run("adopt", "car.xlsx", "placing", "--out", "moved.xlsx", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "moved.xlsx is made" in done.stdout
    assert zipfile.is_zipfile(tmp_path / "moved.xlsx")
    assert car.read_bytes() != (tmp_path / "moved.xlsx").read_bytes()


def test_take(tmp_path, once):
    few = ("sensitivity",)
    package = Package.read(once.copy(chapters=few)[0])
    package.set_value("Car", "B6", 1150.0)
    (tmp_path / "edited.xlsx").write_bytes(package.to_bytes())
    car = str(once.workbook(chapters=few))
    done = run("take", car, "edited.xlsx", "--out", "car.xlsx", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "Car!B6 (Front track)" in done.stdout and "car.xlsx is made" in done.stdout
    assert Package.read(tmp_path / "car.xlsx").cells("Car")["B6"].value == 1150.0
    for given, words in (
        ((car, "edited.xlsx", "--out", "car.xlsx"), "exists and was left as it is"),
        ((car, "edited.xlsx", "--out", "edited.xlsx"), "itself"),
        (("edited.xlsx", car, "--out", "other.xlsx"), "is no copy"),
    ):
        refused = run("take", *given, cwd=tmp_path)
        assert refused.returncode == 1 and words in refused.stderr, given


def test_loads(tmp_path, car):
    done = run("loads", "car.xlsx", "frame.csv", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "no check of strength" in done.stdout
    lines = (tmp_path / "frame.csv").read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("case,point,x (mm)") and len(lines) == 1 + 6 * 7
    again = run("loads", "car.xlsx", "frame.csv", cwd=tmp_path)
    assert again.returncode == 1 and "exists and was left" in again.stderr
    wrong = run("loads", "car.xlsx", "frame.txt", cwd=tmp_path)
    assert wrong.returncode == 1 and "ends in .csv" in wrong.stderr


def test_renew(tmp_path, once):
    car = tmp_path / "car.xlsx"
    car.write_bytes(once.workbook(chapters=("springs",)).read_bytes())
    done = run("renew", car.name, "--out", "new.xlsx", "--chapters", "springs", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (0, "new.xlsx is made.\n"), done.stderr
    assert zipfile.ZipFile(tmp_path / "new.xlsx").testzip() is None
    for out, words in (("new.xlsx", "exists and was left as it is"), (car.name, "itself")):
        refused = run("renew", car.name, "--out", out, cwd=tmp_path)
        assert refused.returncode == 1
        assert words in refused.stderr


def test_scenario(tmp_path, starter):
    car = tmp_path / "car.xlsx"
    car.write_bytes(starter.read_bytes())
    done = run("scenario", car.name, "car.toml", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (0, "car.toml is made, with lengths in mm.\n")
    again = run("new", "again.xlsx", "--scenario", "car.toml", cwd=tmp_path)
    assert again.returncode == 0, again.stderr
    assert (tmp_path / "again.xlsx").read_bytes() == car.read_bytes()
    taken = run("scenario", car.name, "car.toml", cwd=tmp_path)
    assert taken.returncode == 1
    assert "exists and was left as it is" in taken.stderr
