"""Installing, and removing, as a user does, in a real LibreOffice; and the driver's own limits."""

import os
import shutil
import signal
import time
from pathlib import Path

import pytest
from cornerbook.hosts.calc import install
from cornerbook.hosts.calc.extension import PACKAGE

from tests.calc.calc import Calc, CalcError, CalcMissing, Fault
from tests.support.patience import HANGING

FORMULA = "=CORNER.TRAIL_FROM_CASTER(6;262;5)"
UNKNOWN = Fault(525, "#NAME?")


@pytest.fixture
def bare():
    """A Calc of its own, without the extension."""
    try:
        with Calc(extension=False) as calc:
            yield calc
    except CalcMissing as problem:
        if os.environ.get("CORNERBOOK_NEEDS_CALC"):
            raise
        pytest.skip(str(problem))


def run_install(calc, what, fails=False, first=""):
    """Run `install` or `remove` as the user that Calc runs as, and return what it says.

    first: a folder that is put before all others on the search path.
    """
    package = calc.folder / "package" / "cornerbook"
    if not package.exists():
        shutil.copytree(PACKAGE, package, ignore=shutil.ignore_patterns("__pycache__"))
    run = (
        f"import sys; sys.path.insert(0, {str(package.parent)!r});"
        "from cornerbook.hosts.calc import install;"
        f"install.PATIENCE = {HANGING};"
        f"import os; os.environ['PATH'] = {str(first)!r} + os.pathsep + os.environ['PATH'];"
        f"print(install.{what}(profile={calc.profile!r}))"
    )
    done = calc.run(calc.python, "-B", "-c", run)
    assert (done.returncode != 0) == fails, done.stdout
    return done.stdout


def environment_in(folder):
    """The folder of the programs of a virtual environment, made in another."""
    programs = folder / "environment" / "bin"
    programs.mkdir(parents=True)
    settings = "home = /usr/bin\ninclude-system-site-packages = false\n"
    (programs.parent / "pyvenv.cfg").write_text(settings)
    if os.name != "nt":
        for name in ("python", "python3"):
            (programs / name).symlink_to("/usr/bin/python3")
    return programs


def value_in(calc):
    with calc.new() as book:
        book.set("Sheet1", "A1", FORMULA)
        return book.value("Sheet1", "A1")


def test_install_and_remove(bare):
    assert value_in(bare) == UNKNOWN
    assert "LibreOffice is open" in run_install(bare, "install", fails=True)
    bare.stop()
    said = run_install(bare, "install", first=environment_in(bare.folder))
    assert "start Calc again" in said and "no virtual environment active" in said
    assert value_in(bare) == pytest.approx(22.5373096)
    bare.stop()
    said = run_install(bare, "install")  # once more, over the first
    assert "are installed" in said and "virtual environment" not in said
    assert value_in(bare) == pytest.approx(22.5373096)
    bare.stop()
    assert "are removed" in run_install(bare, "remove")
    assert value_in(bare) == UNKNOWN
    bare.stop()
    assert "nothing was changed" in run_install(bare, "remove")


@pytest.mark.skipif(os.name == "nt", reason="the programs stood in for are shell scripts")
@pytest.mark.parametrize("crashes", [1, 2])
def test_a_crash_of_the_extension_tool_is_tried_once_more(tmp_path, crashes):
    """As of a shell script whose program was ended by a signal, and of that program itself."""
    for ending in ("exit 139", "kill -SEGV $$"):
        tries = tmp_path / ending.split()[0]
        program = tmp_path / f"unopkg-{tries.name}"
        program.write_text(
            f"#!/bin/sh\necho x >> {tries}\n"
            f"if [ $(wc -l < {tries}) -le {crashes} ]; then {ending}; fi\necho $1 done\n"
        )
        program.chmod(0o755)
        status, said = install._run(program, None, "add")
        assert (status == 0, said) == ((True, "add done\n") if crashes == 1 else (False, ""))
        assert len(tries.read_text().split()) == 2


def alive(group):
    """The processes of a process group that have not ended (Linux; elsewhere nothing is known)."""
    found = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            state, _, in_group = stat.read_text().rpartition(")")[2].split()[:3]
        except OSError:
            continue  # it ended meanwhile
        if int(in_group) == group and state != "Z":
            found.append(stat.parent.name)
    return found


@pytest.mark.skipif(not Path("/proc").exists(), reason="looks for processes in /proc")
def test_a_stuck_calc_is_ended_and_started_again(bare):
    group = bare._process.pid
    assert alive(group)
    os.killpg(group, signal.SIGSTOP)
    with pytest.raises(CalcError, match="did not answer"):
        bare.ask("new", seconds=0.2)
    give_up = time.monotonic() + HANGING
    while alive(group) and time.monotonic() < give_up:
        time.sleep(0.05)
    assert not alive(group)
    with bare.new() as book:
        book.set("Sheet1", "A1", "=1+1")
        assert book.value("Sheet1", "A1") == 2.0


def test_mistakes_in_a_request_are_told_in_words(bare_calc, tmp_path):
    junk = tmp_path / "junk.xlsx"
    junk.write_bytes(b"PK not a spreadsheet")
    with bare_calc.new() as book:
        with pytest.raises(CalcError, match="No sheet 'Nowhere'; there are Sheet1"):
            book.get("Nowhere", "A1")
        with pytest.raises(CalcError, match="No format 'doc'"):
            book.save(tmp_path / "book.doc")
        pdf = book.save(tmp_path / "book.pdf")
        assert pdf.read_bytes().startswith(b"%PDF")
    with pytest.raises(CalcError, match="No request is called 'dance'"):
        bare_calc.ask("dance")
