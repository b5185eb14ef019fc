"""Put a finished file in its place, whole or not at all."""

import contextlib
import errno
import os
import tempfile
from pathlib import Path

from .trouble import Trouble

_REASONS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your share of the disk is used up",
    errno.EACCES: "you may not write there",
    errno.EPERM: "you may not write there",
    errno.EROFS: "the folder is read-only",
    errno.ENOENT: "there is no such folder",
    errno.ENOTDIR: "there is no such folder",
    errno.EBUSY: "another program has the file open",
}


def save(path, content, overwrite=False):
    """Write bytes to a file beside the wanted one, then move it into place.

    path: where to. content: bytes. overwrite: whether an existing file may go.
    Raises `Trouble`, and then leaves what was there as it was and nothing new.
    """
    path = Path(path)
    hold_free(path, overwrite)
    beside = None
    try:
        handle, beside = tempfile.mkstemp(
            dir=path.parent, prefix="." + path.name[:100], suffix=".part"
        )
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(beside, 0o666 & ~_umask())
        if overwrite:
            os.replace(beside, path)
        else:
            _move_to_free(beside, path)
    except OSError as error:
        raise Trouble(f"{path} was not written: {_reason(error)}") from error
    finally:
        if beside is not None:
            with contextlib.suppress(OSError):
                os.remove(beside)


def hold_free(path, overwrite=False):
    """Raise `Trouble` if the path is taken and may not be replaced, or is a folder."""
    path = Path(path)
    if path.is_dir():
        raise Trouble(f"{path} is a folder; give the name of a file")
    if path.exists() and not overwrite:
        raise Trouble(
            f"{path} exists and was left as it is; give another name, or --force to replace it"
        )


def hold_other(path, copy):
    """Raise `Trouble` if two paths mean one file, which must not be written over itself."""
    if Path(path).exists() and Path(copy).exists() and os.path.samefile(path, copy):
        raise Trouble(f"{copy} is the workbook itself; give the copy another name")


def _move_to_free(beside, path):
    try:
        # A hard link fails if the name was taken meanwhile; a rename would not.
        os.link(beside, path)
    except FileExistsError:
        hold_free(path, False)
    except OSError:
        # A file system without hard links.
        hold_free(path, False)
        os.replace(beside, path)


def _reason(error):
    return _REASONS.get(error.errno, error.strerror or str(error))


def _umask():
    mask = os.umask(0)
    os.umask(mask)
    return mask
