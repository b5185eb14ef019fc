"""The .oxt file itself, and finding LibreOffice; no Calc is started here."""

import ast
import io
import os
import subprocess
import sys
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import cornerbook
import pytest
from cornerbook.catalogue import FORMULAS
from cornerbook.hosts.calc import extension, install, locate


@pytest.fixture(scope="module")
def members():
    """{name: text} of the files in the extension."""
    with zipfile.ZipFile(io.BytesIO(extension.build_extension())) as archive:
        assert archive.testzip() is None
        return {name: archive.read(name).decode("utf-8") for name in archive.namelist()}


def test_it_is_the_same_every_time():
    build = (
        "import sys; from cornerbook.hosts.calc.extension import build_extension;"
        "sys.stdout.buffer.write(build_extension())"
    )
    env = {**os.environ, "PYTHONPATH": str(extension.PACKAGE.parent), "TZ": "Asia/Tokyo"}
    other = subprocess.run(
        [sys.executable, "-c", build], env=env, capture_output=True, check=True
    ).stdout
    assert other == extension.build_extension()


def test_it_is_text_alone(members):
    for name, text in members.items():
        assert "\0" not in text and "\r" not in text, name
        if name.endswith(".xml"):
            ElementTree.fromstring(text)
        if name.endswith(".py"):
            ast.parse(text, feature_version=(3, 8))


def test_it_declares_every_formula(members):
    for name, formula in FORMULAS.items():
        assert f" {name}(" in members["cornerbook.idl"]
        line = next(x for x in members["cornerbook.idl"].splitlines() if f" {name}(" in x)
        assert line.count("[in] any") == len(formula.arguments)


def test_it_names_its_version(members):
    root = ElementTree.fromstring(members["description.xml"])
    tag = root.find("{http://openoffice.org/extensions/description/2006}version")
    assert tag is not None and tag.get("value") == cornerbook.__version__


def test_its_formulas_need_only_what_it_ships(members, tmp_path):
    for name, text in members.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    run = "from cornerbook.catalogue import call; print(call('TRAIL_FROM_CASTER', 6.0, 262.0))"
    done = subprocess.run(
        # -S: without site-packages, as LibreOffice's own Python is
        [sys.executable, "-S", "-E", "-c",
         f"import sys; sys.path.insert(0, {str(tmp_path / 'pythonpath')!r}); {run}"],
        capture_output=True, text=True,
    )  # fmt: skip
    assert done.stderr == "" and float(done.stdout) == pytest.approx(27.5373096)


def test_a_wrong_program_folder_is_told_in_words(tmp_path, monkeypatch):
    monkeypatch.setenv(locate.OVERRIDE, str(tmp_path))
    with pytest.raises(install.InstallError, match="no unopkg in"):
        install.install()


def test_no_libreoffice_is_told_in_words(monkeypatch):
    monkeypatch.delenv(locate.OVERRIDE, raising=False)
    monkeypatch.setattr(locate, "_places", lambda: iter(()))
    with pytest.raises(install.InstallError, match="LibreOffice was not found"):
        install.install()


def _pretend_program(folder, script="exit 0"):
    for name in ("unopkg", "soffice.bin"):
        path = folder / name
        path.write_text(f"#!/bin/sh\n{script}\n")
        path.chmod(0o755)
    return folder


@pytest.mark.skipif(os.name == "nt", reason="the pretended unopkg is a shell script")
class TestPretendedLibreOffice:
    """What install says, with a pretended unopkg and an ordinary user."""

    @pytest.fixture(autouse=True)
    def ordinary_user(self, monkeypatch):
        monkeypatch.setattr(os, "geteuid", lambda: 1000)

    def test_a_missing_python_part_is_told_in_words(self, tmp_path):
        with pytest.raises(install.InstallError, match="python3-uno"):
            install.install(program_folder=_pretend_program(tmp_path))

    def test_a_failure_is_reported_with_what_unopkg_said(self, tmp_path):
        _pretend_program(tmp_path, "echo The disk is full; exit 1")
        (tmp_path / "pythonloader.py").touch()
        with pytest.raises(install.InstallError, match="The disk is full"):
            install.install(program_folder=tmp_path)
        with pytest.raises(install.InstallError, match="The disk is full"):
            install.remove(program_folder=tmp_path)

    def test_a_stuck_unopkg_is_given_up(self, tmp_path, monkeypatch):
        _pretend_program(tmp_path, "exec sleep 60")
        (tmp_path / "pythonloader.py").touch()
        monkeypatch.setattr(install, "PATIENCE", 0.2)
        with pytest.raises(install.InstallError, match="did not finish"):
            install.install(program_folder=tmp_path)

    def test_nothing_to_remove_is_told_in_words(self, tmp_path):
        _pretend_program(tmp_path, "echo ERROR: There is no such extension deployed; exit 1")
        assert "nothing was changed" in install.remove(program_folder=tmp_path)


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="no root on this system")
def test_root_is_refused_in_words(tmp_path, monkeypatch):
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    with pytest.raises(install.InstallError, match="without sudo"):
        install.install(program_folder=_pretend_program(tmp_path))


def test_the_component_is_shipped_as_it_stands(members):
    source = Path(extension.__file__).with_name("component.py").read_text(encoding="utf-8")
    assert members["component.py"] == source
