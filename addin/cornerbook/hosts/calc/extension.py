"""Builds the Calc extension: an .oxt, which is a zip of text files made from the catalogue."""

import io
import zipfile
from pathlib import Path

import cornerbook

from . import files

PACKAGE = Path(cornerbook.__file__).parent

_SHIPPED = ("catalogue", "cells", "geometry")
"""The folders of the package that the formulas need; both keep to the standard library."""

_SHIPPED_FILES = ("hosts/__init__.py", "hosts/calc/__init__.py", "hosts/calc/names.py")

_FIXED_TIME = (1980, 1, 1, 0, 0, 0)


def build_extension():
    """The bytes of the .oxt. The same catalogue gives the same bytes on every machine."""
    packed = io.BytesIO()
    # Stored, not compressed: compressors differ between machines, and the files are small.
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_STORED) as archive:
        for name, text in _members():
            entry = zipfile.ZipInfo(name, _FIXED_TIME)
            entry.create_system = 3
            entry.external_attr = 0o100644 << 16
            archive.writestr(entry, text.encode("utf-8"))
    return packed.getvalue()


def _members():
    """(name, text) of each file in the extension, in a fixed order."""
    yield (
        "META-INF/manifest.xml",
        files.manifest(
            [
                ("cornerbook.idl", files.TYPE_LIBRARY),
                ("component.py", files.PYTHON_COMPONENT),
            ]
        ),
    )
    yield "description.xml", files.description(cornerbook.__version__, "description.txt")
    yield "description.txt", files.SUMMARY
    yield "cornerbook.idl", files.type_library()
    yield "component.py", _source("hosts/calc/component.py")
    # Not the package's own __init__: that is the front for pandas users, who are not here.
    yield (
        "pythonpath/cornerbook/__init__.py",
        f'"""The formulas, for Calc."""\n\n__version__ = "{cornerbook.__version__}"\n',
    )
    for name in sorted(_SHIPPED_FILES + tuple(_python_files())):
        yield "pythonpath/cornerbook/" + name, _source(name)


def _python_files():
    for folder in _SHIPPED:
        for file in (PACKAGE / folder).rglob("*.py"):
            yield file.relative_to(PACKAGE).as_posix()


def _source(name):
    # Read as text, so that line ends are the same wherever the package came from.
    return (PACKAGE / name).read_text(encoding="utf-8")
