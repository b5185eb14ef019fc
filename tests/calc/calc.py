"""Drives a real LibreOffice Calc, without a window, in a profile of its own.

In a test, take the session's Calc (it has the extension installed):

    def test_trail(calc):
        with calc.new() as book:
            book.set("Sheet1", "A1", "=CORNER.TRAIL_FROM_CASTER(6;262;5)")
            assert book.value("Sheet1", "A1") == pytest.approx(22.53732)

Outside pytest:

    with Calc(extension=True) as calc, calc.open("car.xlsx") as book:
        rows = book.get("Corner", "A1:D20")

What a cell holds comes back as a float, a text, None (empty) or a `Fault` (an error
value, with its number and what the cell shows). What goes in: a number, a text, a
formula (a text that begins with '=', with ';' between arguments and English names), None
to empty the cell, `typed("...")` for what a user would type in an English (USA) Calc, and
`array("=...")` with a range for an array formula.

Many edits: `set_many` makes them in one round trip, and `steps` makes a list of lists of
edits, reading a range after each list. Both leave Calc to recalculate after each edit,
as it does for a user.

Files are copied into and out of a temporary folder, so any path will do. Run as root,
the driver makes and uses the ordinary user `cornerbook-test`, since LibreOffice's
extension tool refuses to work for root. Every wait has a limit, and all that was started
is ended on the way out, after a failure too. Problems are raised as `CalcError`, and
`CalcMissing` where there is no LibreOffice, or no Python that can talk to it.
"""

import itertools
import json
import os
import queue
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import uuid
from dataclasses import dataclass
from pathlib import Path

from cornerbook.hosts.calc.extension import write_extension
from cornerbook.hosts.calc.locate import LibreOfficeMissing, find_program

CLIENT = Path(__file__).with_name("calc_client.py")
USER = "cornerbook-test"
START_SECONDS = 120.0
REQUEST_SECONDS = 120.0


class CalcError(Exception):
    """Calc did not do what was asked; the text says what happened."""


class CalcMissing(CalcError):
    """LibreOffice, or its connection to Python, is not on this machine."""


@dataclass(frozen=True)
class Fault:
    """An error value in a cell. code: Calc's number, 32767 for #N/A; text: what it shows."""

    code: int
    text: str


def typed(text):
    """What a user types, read as Calc reads it: '5' is a number, '=1,5' is not."""
    return {"typed": text}


def array(formula):
    """A formula entered with Ctrl+Shift+Enter over the range that it is set on."""
    return {"array": formula}


def _value(raw):
    return Fault(raw["code"], raw["text"]) if isinstance(raw, dict) else raw


def _values(rows):
    return [[_value(v) for v in row] for row in rows]


class Calc:
    """A running Calc. Use it in a `with` statement.

    extension: whether to install the CORNER extension first, or the path of an .oxt.
    """

    def __init__(self, extension=True):
        self._extension = extension
        self._process = None
        self._answers = queue.Queue()
        self._count = itertools.count(1)
        self.folder = None

    def __enter__(self):
        try:
            self._start()
        except BaseException:
            self.__exit__()
            raise
        return self

    def __exit__(self, *problem):
        self._stop()
        if self.folder is not None:
            shutil.rmtree(self.folder, ignore_errors=True)
            self.folder = None

    # Starting and stopping

    def _start(self):
        try:
            soffice = find_program("soffice")
        except LibreOfficeMissing as problem:
            raise CalcMissing(str(problem)) from None
        self._as_user = _ordinary_user() if _is_root() else []
        self.folder = Path(tempfile.mkdtemp(prefix="cornerbook-calc-")).resolve()
        self.profile = (self.folder / "profile").as_uri()
        client = self._hand_over(CLIENT, "calc_client.py")
        if self._is_other_user():
            shutil.chown(self.folder, USER)
        python = self._python(soffice)
        if self._extension:
            self._install(soffice)
        pipe = "cornerbook-" + uuid.uuid4().hex
        self._process = subprocess.Popen(
            [*self._as_user, python, str(client), str(soffice), self.profile, pipe,
             str(self.folder / "soffice.log")],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
            env=self._environment(), cwd=self.folder, text=True, encoding="utf-8",
            start_new_session=True,
        )  # fmt: skip
        threading.Thread(target=self._read, args=(self._process,), daemon=True).start()
        self._answer("start", START_SECONDS)

    def _stop(self):
        process, self._process = self._process, None
        if process is None:
            return
        try:
            process.stdin.write('{"do": "quit"}\n')
            process.stdin.close()
            process.wait(30)
        except (OSError, ValueError, subprocess.TimeoutExpired):
            pass  # it is ended below
        _end_group(process)

    def _read(self, process):
        for line in process.stdout:
            self._answers.put(json.loads(line))
        self._answers.put(None)

    def _is_other_user(self):
        return bool(self._as_user)

    def _environment(self):
        kept = {k: os.environ[k] for k in ("PATH", "SYSTEMROOT", "TEMP", "TMP") if k in os.environ}
        return {
            **kept, "HOME": str(self.folder), "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8",
            "SAL_USE_VCLPLUGIN": "svp",
        }  # fmt: skip

    def run(self, *command, seconds=120.0):
        """Run a program as the user that Calc runs as; returns the completed process."""
        try:
            return subprocess.run(
                [*self._as_user, *map(str, command)],
                stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                env=self._environment(), cwd=self.folder, text=True, timeout=seconds,
            )  # fmt: skip
        except subprocess.TimeoutExpired:
            raise CalcError("%s took longer than %d s" % (command[0], seconds)) from None

    def _python(self, soffice):
        program = Path(soffice).resolve().parent
        candidates = [
            sys.executable, "/usr/bin/python3", program / "python", program / "python.exe",
            program.parent / "Resources" / "python",
        ]  # fmt: skip
        for python in candidates:
            if Path(python).exists():
                try:
                    if self.run(python, "-c", "import uno").returncode == 0:
                        return str(python)
                except (OSError, CalcError):
                    pass  # not this one
        raise CalcMissing(
            "No Python here can talk to LibreOffice (import uno). "
            "On Debian and Ubuntu, install the package python3-uno."
        )

    def _install(self, soffice):
        if self._extension is True:
            oxt = write_extension(self.folder / "cornerbook.oxt")
        else:
            oxt = self._hand_over(Path(self._extension), Path(self._extension).name)
        done = self.run(
            find_program("unopkg"), "add", "-f", oxt, "-env:UserInstallation=" + self.profile
        )
        if done.returncode != 0:
            raise CalcError("The extension could not be installed: " + done.stdout.strip())

    # Files

    def _hand_over(self, path, name):
        copy = self.folder / name
        shutil.copyfile(path, copy)
        copy.chmod(0o644)
        if self._is_other_user():
            shutil.chown(copy, USER)
        return copy

    def _place(self, name):
        return self.folder / ("%d-%s" % (next(self._count), name))

    # Requests

    def ask(self, do, seconds=REQUEST_SECONDS, **what):
        """Send one request to the client (see calc_client.py) and return its answer."""
        if self._process is None:
            raise CalcError("Calc is not running")
        try:
            self._process.stdin.write(json.dumps({"do": do, **what}) + "\n")
            self._process.stdin.flush()
        except (OSError, ValueError):
            pass  # it has ended; the answer says so
        return self._answer(do, seconds)

    def _answer(self, do, seconds):
        try:
            answer = self._answers.get(timeout=seconds)
        except queue.Empty:
            _end_group(self._process)
            self._process = None
            raise CalcError("Calc did not answer %r within %d s; it was ended" % (do, seconds)) from None
        if answer is None:
            self._process = None
            raise CalcError("Calc ended at %r. %s" % (do, self._log()))
        if "error" in answer:
            raise CalcError("%s: %s" % (do, answer["error"]))
        return answer["ok"]

    def _log(self):
        log = self.folder / "soffice.log"
        return log.read_text(errors="replace")[-500:].strip() if log.exists() else ""

    def new(self):
        """A new, empty book (its sheet is Sheet1)."""
        return Book(self, self.ask("new"))

    def open(self, path):
        """Open a copy of the file at `path`."""
        path = Path(path)
        return Book(self, self.ask("open", path=str(self._hand_over(path, self._place(path.name).name))))

    def function_descriptions(self, start="CORNER."):
        """{name: {description, category, arguments}} as the function wizard shows them."""
        return self.ask("function_descriptions", start=start)

    def version(self):
        """LibreOffice's version, as a text."""
        return self.ask("version")


class Book:
    """A spreadsheet open in Calc. Closed at the end of a `with` statement."""

    def __init__(self, calc, number):
        self._calc = calc
        self._number = number

    def __enter__(self):
        return self

    def __exit__(self, kind, problem, trace):
        try:
            self.close()
        except CalcError:
            if kind is None:
                raise

    def _ask(self, do, **what):
        return self._calc.ask(do, book=self._number, **what)

    def sheets(self):
        """The names of the sheets, in order."""
        return self._ask("sheets")

    def get(self, sheet, range):
        """The values of a range, as a list of rows. sheet: a name, or a position from 0."""
        return _values(self._ask("get", sheet=sheet, range=range))

    def value(self, sheet, cell):
        """The value of one cell."""
        return self.get(sheet, cell)[0][0]

    def formulas(self, sheet, range):
        """The formulas (or the values, as text) of a range, as a list of rows."""
        return self._ask("formulas", sheet=sheet, range=range)

    def texts(self, sheet, range):
        """What the cells of a range show, as a list of rows."""
        return self._ask("texts", sheet=sheet, range=range)

    def set(self, sheet, cell, what):
        """Change one cell (a range for `array(...)`)."""
        self._ask("set", edits=[(sheet, cell, what)])

    def set_many(self, edits):
        """Change many cells: (sheet, cell, what) each, in order."""
        self._ask("set", edits=list(edits))

    def fill(self, sheet, range, rows):
        """Put rows of numbers, texts and formulas in a range of that very size, at once."""
        self._ask("fill", sheet=sheet, range=range, rows=[list(row) for row in rows])

    def steps(self, steps, sheet, range):
        """For each of `steps`, a list of edits: make them, then read the range. A list of reads."""
        return [
            _values(rows)
            for rows in self._ask(
                "steps", steps=[list(edits) for edits in steps], sheet=sheet, range=range
            )
        ]

    def name_range(self, name, sheet, range):
        """Give a range a name that formulas may use."""
        self._ask("name_range", name=name, sheet=sheet, range=range)

    def recalculate(self):
        """Recalculate every formula in the book; returns the seconds that Calc took."""
        return self._ask("recalculate")

    def save(self, path, format=None):
        """Save a copy as 'xlsx', 'ods' or 'pdf'; by the path's ending if not given."""
        path = Path(path)
        format = format or path.suffix.lstrip(".").lower()
        inside = self._calc._place("saved." + format)
        self._ask("save", path=str(inside), format=format)
        shutil.copyfile(inside, path)
        inside.unlink()
        return path

    def close(self):
        """Close without saving."""
        self._ask("close")


def _is_root():
    return hasattr(os, "geteuid") and os.geteuid() == 0


def _ordinary_user():
    """The start of a command that runs it as the ordinary user, who is made if need be."""
    import pwd

    for tool in ("runuser", "useradd"):
        if shutil.which(tool) is None:
            raise CalcMissing("Run the tests as an ordinary user: root here has no " + tool)
    try:
        pwd.getpwnam(USER)
    except KeyError:
        made = subprocess.run(
            ["useradd", "--system", "--no-create-home", "--shell", "/usr/sbin/nologin", USER],
            capture_output=True, text=True,
        )  # fmt: skip
        if made.returncode not in (0, 9):  # 9: another test run made it just now
            raise CalcError("The user %s could not be made: %s" % (USER, made.stderr)) from None
    return ["runuser", "-u", USER, "--"]


def _end_group(process):
    """End the client and the Calc that it started, all in one process group."""
    if hasattr(os, "killpg"):
        try:
            os.killpg(process.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass  # all gone already
    elif process.poll() is None:
        process.kill()
    process.wait(10)
