"""The zip of a spreadsheet file unpacked, or refused in words."""

import errno
import io
import zipfile
import zlib
from pathlib import Path

from .content_types import TYPES
from .save import hold_possible
from .trouble import Trouble

LIMIT = 300_000_000
"""Bytes, unpacked, beyond which a file is refused rather than filling the memory."""

_MOST_PARTS = 20_000

# How an encrypted file and an old .xls begin, which are no zip.
_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_DAMAGE = (
    zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError,
    ValueError,
)  # fmt: skip


def unpacked(path, raw=None):
    """{part: bytes} of the file at `path`, in the order of the zip. raw: its bytes, where known.

    Raises `Trouble` if there is none, or it is damaged, locked with a password, of another
    kind, or too large.
    """
    path = Path(path)
    raw = _read(path) if raw is None else raw
    if raw.startswith(_OLE):
        raise Trouble(
            f"{path} is protected by a password or is an old .xls file; open it in your "
            "spreadsheet program and save it as .xlsx with no password"
        )
    if not raw.startswith(b"PK"):
        raise Trouble(f"{path} is not an .xlsx file")
    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as package:
            return _contents(path, package)
    except _DAMAGE as error:
        raise Trouble(f"{path} is damaged: it cannot be unpacked") from error


def _read(path):
    hold_possible(path)
    try:
        if path.is_dir():
            raise Trouble(f"{path} is a folder; give the name of an .xlsx file")
        with path.open("rb") as file:
            # With a limit: some files, such as devices, say no size, or have no end.
            content = file.read(LIMIT + 1)
        if len(content) > LIMIT:
            raise Trouble(_too_large(path))
        return content
    except OSError as error:
        if error.errno == errno.ENOENT:
            raise Trouble(f"there is no file {path}") from None
        raise Trouble(f"{path} cannot be read: {error.strerror}") from error


def _contents(path, package):
    entries = [entry for entry in package.infolist() if not entry.is_dir()]
    if sum(entry.file_size for entry in entries) > LIMIT or len(entries) > _MOST_PARTS:
        raise Trouble(_too_large(path))
    if any(entry.flag_bits & 1 for entry in entries):
        raise Trouble(f"{path} is protected by a password; save it without one")
    names = {entry.filename for entry in entries}
    if len({name.lower() for name in names}) < len(entries):
        raise zipfile.BadZipFile("a part stands twice")
    if "content.xml" in names and TYPES not in names:
        raise Trouble(f"{path} is an OpenDocument file; save it as .xlsx first")
    if TYPES not in names:
        raise Trouble(f"{path} is not an .xlsx file")
    contents = {}
    for entry in entries:
        with package.open(entry) as part:
            # With a limit, or an entry that understates its size is unpacked whole first.
            contents[entry.filename] = part.read(entry.file_size + 1)
    return contents


def _too_large(path):
    return f"{path} is refused: unpacked it is larger than {LIMIT // 1000000} MB"
