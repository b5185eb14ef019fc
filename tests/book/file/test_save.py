"""Files are whole or not there, and nothing of the user's is lost."""

import os
import subprocess
import sys
import textwrap

import pytest
from cornerbook.book.file import save as saving
from cornerbook.book.file.save import save
from cornerbook.book.file.trouble import Trouble


def test_writes(tmp_path):
    save(tmp_path / "a.xlsx", b"new")
    assert (tmp_path / "a.xlsx").read_bytes() == b"new"
    assert os.listdir(tmp_path) == ["a.xlsx"]


def test_an_existing_file_is_left(tmp_path):
    (tmp_path / "a.xlsx").write_bytes(b"old")
    with pytest.raises(Trouble, match="exists and was left"):
        save(tmp_path / "a.xlsx", b"new")
    assert (tmp_path / "a.xlsx").read_bytes() == b"old"
    save(tmp_path / "a.xlsx", b"new", overwrite=True)
    assert (tmp_path / "a.xlsx").read_bytes() == b"new"


def test_a_file_that_appears_meanwhile_is_left(tmp_path, monkeypatch):
    """Another program may take the name between the look and the move."""
    path = tmp_path / "a.xlsx"
    looked = saving.hold_free

    def look_then_appear(*arguments):
        looked(*arguments)
        path.write_bytes(b"theirs")
        monkeypatch.setattr(saving, "hold_free", looked)

    monkeypatch.setattr(saving, "hold_free", look_then_appear)
    with pytest.raises(Trouble, match="exists and was left"):
        save(path, b"ours")
    assert path.read_bytes() == b"theirs"
    assert os.listdir(tmp_path) == ["a.xlsx"]


def test_no_such_folder(tmp_path):
    with pytest.raises(Trouble, match="no such folder"):
        save(tmp_path / "nowhere" / "a.xlsx", b"new")


def test_a_folder_for_a_file(tmp_path):
    with pytest.raises(Trouble, match="is a folder"):
        save(tmp_path, b"new", overwrite=True)


def test_a_write_that_fails_midway_leaves_the_old_file(tmp_path):
    """A real failure: the system lets this process write no file beyond 1000 bytes."""
    resource = pytest.importorskip("resource")
    assert resource
    path = tmp_path / "a.xlsx"
    path.write_bytes(b"old")
    script = textwrap.dedent(
        """
        import resource, signal, sys
        from cornerbook.book.file.save import save
        from cornerbook.book.file.trouble import Trouble
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
        try:
            save(sys.argv[1], b"x" * 5000, overwrite=True)
        except Trouble as trouble:
            print(trouble)
        """
    )
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path),
                   "PYTHONDONTWRITEBYTECODE": "1"}  # fmt: skip
    done = subprocess.run(
        [sys.executable, "-c", script, str(path)], capture_output=True, text=True, env=environment
    )
    assert "was not written" in done.stdout, done.stderr
    assert path.read_bytes() == b"old"
    assert os.listdir(tmp_path) == ["a.xlsx"]


def test_a_full_disk_is_named(tmp_path, monkeypatch):
    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(saving.os, "fsync", full)
    with pytest.raises(Trouble, match="the disk is full"):
        save(tmp_path / "a.xlsx", b"new")
    assert os.listdir(tmp_path) == []


def test_a_read_only_folder(tmp_path):
    if os.geteuid() == 0:
        # Root may write anywhere that is not read-only by its nature.
        with pytest.raises(Trouble, match="was not written"):
            save("/proc/a.xlsx", b"new")
        return
    tmp_path.chmod(0o500)
    with pytest.raises(Trouble, match="may not write"):
        save(tmp_path / "a.xlsx", b"new")
