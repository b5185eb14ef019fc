"""Prepares a macro workbook for classic Excel on Windows, from the one that xlwings ships.

The macros are xlwings' own and stay as they are, so no add-in of xlwings is needed. What is
ours are two pages: one with the button that imports the functions, one with the settings that
tell xlwings where they are.
"""

import importlib.metadata
import importlib.util
import sys
from pathlib import Path

from .macros import SETTINGS, with_macros
from .names import shown
from .trouble import InstallError

__all__ = ["InstallError", "install", "instructions", "prepare_macro_workbook"]

TEMPLATE = "quickstart_standalone.xlsm"
"""xlwings' template that carries its macros within."""

MODULES = ("cornerbook.hosts.excel.classic", "cornerbook.scripts")
"""The modules whose functions and scripts *Import functions* brings into Excel."""


def prepare_macro_workbook(source=None, buttons=(), interpreter=None, called="the workbook"):
    """The bytes of an .xlsm with xlwings' macros, set up for our functions.

    source: the bytes of an .xlsx whose sheets it is to have, or None. buttons: (what stands
    on it, macro) of buttons beside the one that imports. interpreter: the path of a Windows
    pythonw.exe; left out, the one beside the Python that runs this, where this is Windows.
    called: the source's name in sentences. Raises InstallError.
    """
    if interpreter is None:
        interpreter = _interpreter()
    settings = (interpreter, MODULES, _version())
    return with_macros(_template(), source, called, buttons, settings)


def install(path, source=None, buttons=(), write=None):
    """Write a macro workbook; returns a sentence on what is left to do.

    path: of the .xlsm to write, which must not be there yet. source: of an .xlsx whose
    sheets it is to have, or None. write: a function of (path, bytes) that writes it, in
    place of one that refuses to replace a file. Raises InstallError.
    """
    path = Path(path)
    if path.suffix.lower() != ".xlsm":
        raise InstallError(f"{path}: a name that ends in .xlsm was expected")
    content = None if source is None else _read(Path(source))
    made = prepare_macro_workbook(content, buttons, called=str(source))
    (write or _write)(path, made)
    return instructions(path)


def instructions(path):
    """What is left to do with a macro workbook, on Windows or elsewhere."""
    steps = (
        "open it, allow its macros, tick Trust access to the VBA project object model (File > "
        "Options > Trust Center > Trust Center Settings > Macro Settings), press Import "
        "functions, and type ={} in a cell".format(shown("", classic=True))
    )
    if _on_windows():
        return f"{path} is prepared. In Excel: {steps}."
    return (
        f"{path} is prepared, but this is not Windows, where alone Excel takes classic "
        "functions, so "
        "the functions are not imported yet and nothing was tried in Excel. On Windows: "
        f'pip install "cornerbook[excel]" xlwings=={_version()}, whose macros these are; write '
        "the path of "
        f"pythonw.exe beside Interpreter_Win on the page {SETTINGS}, or leave it empty if "
        "Windows finds "
        f"Python by itself; then {steps}."
    )


def _on_windows():
    return sys.platform.startswith("win")


def _interpreter():
    """The Python without a console window, beside the one that runs this; '' elsewhere."""
    if not _on_windows():
        return ""
    windowless = Path(sys.executable).with_name("pythonw.exe")
    return str(windowless if windowless.exists() else sys.executable)


def _version():
    """The version of xlwings; its macros work with no other."""
    try:
        return importlib.metadata.version("xlwings")
    except importlib.metadata.PackageNotFoundError as problem:
        raise InstallError(_NO_XLWINGS) from problem


_NO_XLWINGS = 'xlwings is missing; install it with: pip install "cornerbook[excel]"'


def _template():
    # Found without importing xlwings, which would look for Excel.
    found = importlib.util.find_spec("xlwings")
    if found is None or not found.origin:
        raise InstallError(_NO_XLWINGS)
    path = Path(found.origin).with_name(TEMPLATE)
    try:
        return path.read_bytes()
    except OSError as problem:
        raise InstallError(
            f"this xlwings has no template {TEMPLATE} ({problem.strerror or problem}); install "
            "it anew with: "
            "pip install --force-reinstall xlwings"
        ) from problem


def _read(path):
    try:
        return path.read_bytes()
    except FileNotFoundError as problem:
        raise InstallError(f"there is no file {path}") from problem
    except OSError as problem:
        raise InstallError(f"{path} cannot be read: {problem.strerror or problem}") from problem


def _write(path, content):
    try:
        with open(path, "xb") as file:
            file.write(content)
    except FileExistsError as problem:
        raise InstallError(f"{path} exists and was left as it is; give another name") from problem
    except OSError as problem:
        raise InstallError(f"{path} was not written: {problem.strerror or problem}") from problem
