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


def test_a_link_that_leads_nowhere_is_left(tmp_path):
    link = tmp_path / "a.xlsx"
    link.symlink_to(tmp_path / "elsewhere.xlsx")
    with pytest.raises(Trouble, match="a link that leads nowhere and was left"):
        save(link, b"new")
    assert os.listdir(tmp_path) == ["a.xlsx"]
    save(link, b"new", overwrite=True)
    assert link.is_symlink()
    assert (tmp_path / "elsewhere.xlsx").read_bytes() == b"new"


def test_a_link_stays_a_link(tmp_path):
    (tmp_path / "kept").mkdir()
    (tmp_path / "kept" / "real.xlsx").write_bytes(b"old")
    link = tmp_path / "a.xlsx"
    link.symlink_to(tmp_path / "kept" / "real.xlsx")
    save(link, b"new", overwrite=True)
    assert link.is_symlink()
    assert (tmp_path / "kept" / "real.xlsx").read_bytes() == b"new"
    assert os.listdir(tmp_path / "kept") == ["real.xlsx"]


@pytest.mark.parametrize("rights", [0o600, 0o640, 0o666])
def test_the_rights_of_a_file_stay(tmp_path, rights):
    path = tmp_path / "a.xlsx"
    path.write_bytes(b"old")
    path.chmod(rights)
    save(path, b"new", overwrite=True)
    assert path.stat().st_mode & 0o777 == rights


def test_a_name_of_many_letters(tmp_path):
    """The longest that the system takes, in letters of two bytes each."""
    path = tmp_path / ("\N{LATIN SMALL LETTER U WITH DIAERESIS}" * 125 + ".xlsx")
    save(path, b"new")
    assert path.read_bytes() == b"new"
    with pytest.raises(Trouble, match="its name is too long"):
        save(tmp_path / ("a" * 300 + ".xlsx"), b"new")


KILLED = """
import os, signal, sys
from cornerbook.book.file import save as saving
if sys.argv[2] == "wait":
    saving.os.fsync = lambda _: (print("here", flush=True), sys.stdin.read())
else:
    saving.os.fsync = lambda _: os.kill(os.getpid(), signal.SIGKILL)
saving.save(sys.argv[1], b"x" * 5000)
"""


def other_run(path, what):
    """A run of its own that is in the midst of writing a file: killed there, or waiting."""
    return subprocess.Popen(
        [sys.executable, "-c", KILLED, str(path), what],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )  # fmt: skip


@pytest.mark.skipif(os.name == "nt", reason="a kill in mid-write is tried on POSIX systems only")
def test_what_a_killed_run_left_is_swept(tmp_path):
    with other_run(tmp_path / "b.xlsx", "kill") as killed:
        killed.communicate()
    (left,) = os.listdir(tmp_path)
    assert left.endswith(".cornerbook-part")
    save(tmp_path / "a.xlsx", b"new")
    assert os.listdir(tmp_path) == ["a.xlsx"]


@pytest.mark.skipif(os.name == "nt", reason="a kill in mid-write is tried on POSIX systems only")
def test_what_another_run_is_writing_stays(tmp_path):
    with other_run(tmp_path / "b.xlsx", "wait") as other:
        assert other.stdout.readline() == "here\n"
        save(tmp_path / "a.xlsx", b"new")
        other.communicate("")
    assert sorted(os.listdir(tmp_path)) == ["a.xlsx", "b.xlsx"]
    assert (tmp_path / "b.xlsx").read_bytes() == b"x" * 5000
