"""Puts the extension into LibreOffice, and takes it out again, with LibreOffice's own unopkg."""

import os
import subprocess
import tempfile
from pathlib import Path
from urllib.parse import urlsplit
from urllib.request import url2pathname

from .extension import build_extension
from .locate import LibreOfficeMissing, find_program
from .names import IDENTIFIER, shown
from .surroundings import is_in_another, surroundings

PATIENCE = 180.0
"""Seconds after which unopkg is taken to be stuck."""

# A shell gives the status of a program that a signal has ended as this and the signal's number.
_BY_SIGNAL = 128


class InstallError(Exception):
    """The extension could not be put in or taken out; the text says what to mend."""


def install(profile=None, program_folder=None):
    """Add the CORNER formulas to the Calc of the user who runs this.

    profile: the UserInstallation URL (file:///...) of a LibreOffice profile other than
        the user's own. program_folder: LibreOffice's program folder, if it is not to be
        looked for. Returns a sentence on what was done. Raises InstallError.
    """
    unopkg = _unopkg(program_folder)
    _need_python(unopkg)
    with tempfile.TemporaryDirectory(prefix="cornerbook-") as folder:
        extension = Path(folder) / "cornerbook.oxt"
        try:
            extension.write_bytes(build_extension())
        except OSError as problem:
            raise InstallError(
                f"The extension could not be written to {folder}: {problem.strerror or problem}. "
                "Free some space there and try again."
            ) from problem
        status, output = _run(unopkg, profile, "add", "-f", str(extension))
    if status != 0:
        _clear_half_done(unopkg, profile)
        raise InstallError(_failure("The extension was not installed", unopkg, output))
    said = (
        "The CORNER formulas are installed in LibreOffice Calc. Close every LibreOffice "
        f"window and start Calc again, then type ={shown('')} in a cell."
    )
    if is_in_another():
        said += (
            " Start it from its menu, or from a terminal with no virtual environment active: in "
            "one, LibreOffice takes that one's Python for its own and may open no workbook, with "
            '"General input/output error".'
        )
    return said


def remove(profile=None, program_folder=None):
    """Take the CORNER formulas out again; the arguments and errors are those of `install`."""
    unopkg = _unopkg(program_folder)
    if _registered(unopkg, profile) is None:
        return "The CORNER formulas are not installed in LibreOffice Calc; nothing was changed."
    status, output = _run(unopkg, profile, "remove", IDENTIFIER)
    if status != 0:
        raise InstallError(_failure("The extension was not removed", unopkg, output))
    return (
        "The CORNER formulas are removed from LibreOffice Calc. "
        "Close every LibreOffice window and start Calc again."
    )


def _unopkg(program_folder):
    try:
        unopkg = find_program("unopkg", program_folder)
    except LibreOfficeMissing as problem:
        raise InstallError(str(problem)) from problem
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        raise InstallError(
            "LibreOffice installs no extension for root. Run this again without sudo, as the "
            "user who works with Calc."
        )
    return unopkg


def _need_python(unopkg):
    """Refuse a LibreOffice without its Python part, where its absence can be seen."""
    # Linux distributions ship that part as a package of its own, beside the programs.
    folder = unopkg.resolve().parent
    if not (folder / "soffice.bin").is_file() or (folder / "pythonloader.py").is_file():
        return
    raise InstallError(
        "This LibreOffice cannot run extensions written in Python, since its Python part is "
        f"missing from {folder}. Install it: the package is python3-uno on Debian, Ubuntu and Mint "
        "(sudo apt install python3-uno), libreoffice-pyuno on Fedora and openSUSE."
    )


def _run(unopkg, profile, *arguments):
    """Run unopkg; returns its exit status and all that it wrote."""
    status, output = _run_once(unopkg, profile, *arguments)
    # It was seen to crash, about once in some hundred times, where nothing was wrong.
    if status < 0 or status > _BY_SIGNAL:
        status, output = _run_once(unopkg, profile, *arguments)
    return status, output


def _run_once(unopkg, profile, *arguments):
    command = [str(unopkg), *arguments]
    if profile:
        _need_closed(profile)
        command.append("-env:UserInstallation=" + profile)
    # To a file and not a pipe: unopkg may start a LibreOffice that outlives it and would
    # hold a pipe open.
    with tempfile.TemporaryFile() as output:
        try:
            status = subprocess.run(
                command,
                stdin=subprocess.DEVNULL,  # so that a question is not waited on for ever
                stdout=output,
                stderr=subprocess.STDOUT,
                timeout=PATIENCE,
                env=surroundings(),
            ).returncode
        except subprocess.TimeoutExpired:
            raise InstallError(
                f"LibreOffice's extension tool did not finish within {PATIENCE:g} seconds. "
                "Close every LibreOffice window and try again."
            ) from None
        except OSError as problem:
            raise InstallError(
                f"LibreOffice's extension tool {unopkg} could not be started: "
                f"{problem.strerror or problem}."
            ) from problem
        output.seek(0)
        return status, output.read().decode("utf-8", "replace")


def _need_closed(profile):
    """Refuse while LibreOffice is open with `profile`.

    With the user's own profile, unopkg hands over to the LibreOffice that is open. With
    another one it would hand over to a LibreOffice with the user's own.
    """
    lock = Path(url2pathname(urlsplit(profile).path)) / ".lock"
    if lock.exists():
        raise InstallError(
            f"LibreOffice is open with the profile {profile}. Close every window of it and try "
            f"again. If it is not open, it ended badly: delete the file {lock}."
        )


def _registered(unopkg, profile):
    """True if the extension is in and works, False if it is only half in, None if absent."""
    status, output = _run(unopkg, profile, "list", IDENTIFIER)
    if status == 0:
        return "is registered: yes" in output.partition("bundled Packages")[0]
    # unopkg gives 1 both for an extension that is not there and when it cannot look.
    if "no such extension" in output:
        return None
    raise InstallError(_failure("LibreOffice's extensions could not be listed", unopkg, output))


def _clear_half_done(unopkg, profile):
    """After a failed add: leave nothing half in. An older version that still works stays."""
    try:
        if _registered(unopkg, profile) is False:
            _run(unopkg, profile, "remove", IDENTIFIER)
    except InstallError:
        pass  # the failed add is the one to report


def _failure(what, unopkg, output):
    said = " ".join(output.split()) or "nothing"
    return (
        f"{what}. If LibreOffice is open, close every window of it and try again. "
        f"{unopkg.name} said: {said}"
    )
