"""Put a finished file in its place, whole or not at all."""

import contextlib
import errno
import os
import stat
import tempfile
from pathlib import Path

from .trouble import Trouble

try:
    import fcntl
except ImportError:  # Windows
    fcntl = None  # type: ignore[assignment]

_REASONS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your share of the disk is used up",
    errno.EACCES: "you may not write there",
    errno.EPERM: "you may not write there",
    errno.EROFS: "the folder is read-only",
    errno.ENOENT: "there is no such folder",
    errno.ENOTDIR: "there is no such folder",
    errno.ENAMETOOLONG: "its name is too long",
    errno.ELOOP: "it is a link to itself",
    errno.EBUSY: "another program has the file open",
}


_UNFINISHED = ".cornerbook-part"
"""How the name of a file ends that is still being written."""

_LONGEST = 100
"""Bytes of the wanted name that the unfinished file's has; a system takes 255 in all."""


def save(path, content, overwrite=False):
    """Write bytes to a file beside the wanted one, then move it into place.

    path: where to; a link is followed, and what it leads to is written. content: bytes.
    overwrite: whether an existing file may go; the new one has its rights.
    Raises `Trouble`, and then leaves what was there as it was and nothing new. What a run that
    was killed left unfinished in the folder is removed.
    """
    path = Path(path)
    hold_free(path, overwrite)
    beside = None
    try:
        # A link stays one: what it leads to is replaced, in the folder where that stands.
        target = Path(os.path.realpath(path))
        start = os.fsencode(target.name)[:_LONGEST].decode("ascii", "ignore")
        handle, beside = tempfile.mkstemp(
            dir=target.parent, prefix=f".{start}.", suffix=_UNFINISHED
        )
        with os.fdopen(handle, "wb") as file:
            _mark(file)
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
            os.chmod(beside, _rights_of(target))
            if overwrite:
                os.replace(beside, target)
            else:
                _move_to_free(beside, path, target)
    except OSError as error:
        raise _not_written(path, error) from error
    finally:
        if beside is not None:
            with contextlib.suppress(OSError):
                os.remove(beside)


def hold_possible(path):
    """Raise `Trouble` for a name that no file can have."""
    if not os.fspath(path):
        raise Trouble("the name of a file is empty")
    if "\0" in os.fspath(path):
        shown = os.fspath(path).replace("\0", "\\0")
        raise Trouble(f"{shown}: no file can have this name, for there is a NUL in it")


def hold_ending(name, ending):
    """Raise `Trouble` unless a file's name ends so, such as in ".xlsx", in any case."""
    if not name.lower().endswith(ending):
        raise Trouble(f"{name}: a name that ends in {ending} was expected")


def hold_free(path, overwrite=False):
    """Raise `Trouble` if the path is taken and may not be replaced, or is a folder, or in none.

    A link that leads nowhere takes its name as a file does.
    """
    hold_possible(path)
    folder = Path(os.path.realpath(path)).parent
    # What a run that was killed left is removed also where nothing is going to be written.
    _sweep(folder)
    # Asked of `os`, which takes a name that no file can have for one that none has.
    if os.path.isdir(path):
        raise Trouble(f"{path} is a folder; give the name of a file")
    if os.path.lexists(path) and not overwrite:
        what = "exists" if os.path.exists(path) else "is a link that leads nowhere"
        raise Trouble(
            f"{path} {what} and was left as it is; give another name, or --force to replace it"
        )
    try:
        os.stat(folder)
    except OSError as error:
        raise _not_written(path, error) from error


def hold_other(path, copy):
    """Raise `Trouble` if two paths mean one file, which must not be written over itself."""
    hold_possible(path)
    hold_possible(copy)
    if os.path.exists(path) and os.path.exists(copy) and os.path.samefile(path, copy):
        raise Trouble(f"{copy} is the workbook itself; give the copy another name")


def _move_to_free(beside, path, target):
    try:
        # A hard link fails if the name was taken meanwhile; a rename would not.
        os.link(beside, target)
    except FileExistsError:
        hold_free(path, False)
        raise  # it was there a moment ago
    except OSError:
        # A file system without hard links.
        hold_free(path, False)
        os.replace(beside, target)


def _rights_of(target):
    """The rights of the file that is replaced, or those of a new one."""
    try:
        return stat.S_IMODE(os.stat(target).st_mode)
    except FileNotFoundError:
        return 0o666 & ~_umask()


def _mark(file):
    """Mark a file as being written, for as long as it is open."""
    if fcntl is not None:
        # Where locks are not to be had, it may be swept: then it is said that it is gone.
        with contextlib.suppress(OSError):
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _sweep(folder):
    """Remove what runs that were killed left unfinished in a folder."""
    try:
        found = list(folder.glob(f".*{_UNFINISHED}"))
    except OSError:
        return  # a folder that may not be read, or is none
    for left in found:
        with contextlib.suppress(OSError):
            if fcntl is None:
                left.unlink()  # Windows refuses this while somebody has it open
                continue
            with left.open("rb") as file:
                fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
                left.unlink()


def _not_written(path, error):
    reason = _REASONS.get(error.errno, error.strerror or str(error))
    return Trouble(f"{path} was not written: {reason}")


def _umask():
    mask = os.umask(0)
    os.umask(mask)
    return mask
