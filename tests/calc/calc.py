"""Drives a real LibreOffice Calc, without a window, in a profile of its own.

In a test, take the session's Calc (it has the extension installed), or the demonstration that is
open in it (`opened`), which is changed by `with_edits` alone:

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

import contextlib
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
from pathlib import Path

from cornerbook.hosts.calc.extension import build_extension
from cornerbook.hosts.calc.locate import LibreOfficeMissing, find_program
from cornerbook.hosts.calc.surroundings import surroundings

from tests.calc.book import Book, Fault, array, typed
from tests.calc.errors import CalcError, CalcMissing
from tests.support.patience import HANGING

__all__ = ["Book", "Calc", "CalcError", "CalcMissing", "Fault", "array", "typed"]

CLIENT = Path(__file__).with_name("calc_client.py")
USER = "cornerbook-test"
LOG = "soffice.log"

QUITTING = 300.0
"""Seconds that Calc may take to end; then it is killed, and no test fails for that."""


class Calc:
    """A running Calc. Use it in a `with` statement.

    extension: whether to install the CORNER extension first, or the path of an .oxt.
    """

    def __init__(self, extension=True):
        self._extension = extension
        self._process = None
        self._as_user = []
        self._answers = queue.Queue()
        self._count = itertools.count(1)
        self.folder = None
        self.patience = HANGING
        """Seconds that one request may take."""

    def __enter__(self):
        try:
            self.start()
        except BaseException:
            self.end()
            raise
        return self

    def __exit__(self, *problem):
        self.end()

    # Starting and stopping

    def start(self):
        """Start Calc; the first time, also make its profile and install the extension."""
        if self._process is not None:
            return
        if self.folder is None:
            self._prepare()
        self._answers = queue.Queue()
        # Left by a Calc that was killed; the next one would ask what to do about it.
        (self.folder / "profile" / ".lock").unlink(missing_ok=True)
        pipe = "cornerbook-" + uuid.uuid4().hex
        self._process = subprocess.Popen(
            [*self._as_user, self.python, str(self.folder / CLIENT.name), str(self.soffice),
             self.profile, pipe, str(self.folder / LOG)],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
            env=self._environment(), cwd=self.folder, text=True, encoding="utf-8",
            start_new_session=True,
        )  # fmt: skip
        self._reader = threading.Thread(
            target=_read_answers, args=(self._process, self._answers), daemon=True
        )
        self._reader.start()
        self._answer("start", HANGING)

    def stop(self):
        """End Calc; its profile stays, and `start` starts it again. Open books are lost."""
        process, self._process = self._process, None
        if process is None:
            return
        try:
            process.stdin.write('{"do": "quit"}\n')
            process.stdin.close()
            process.wait(QUITTING)
        except (OSError, ValueError, subprocess.TimeoutExpired):
            pass  # it is ended below
        self._end_group(process)

    def end(self):
        """Stop, and delete all that was made."""
        self.stop()
        if self.folder is not None:
            shutil.rmtree(self.folder, ignore_errors=True)
            self.folder = None

    def _prepare(self):
        try:
            self.soffice = find_program("soffice")
            unopkg = find_program("unopkg")
        except LibreOfficeMissing as problem:
            raise CalcMissing(str(problem)) from None
        as_user = _ordinary_user() if _is_root() else []
        self.folder = Path(tempfile.mkdtemp(prefix="cornerbook-calc-")).resolve()
        if as_user:
            shutil.chown(self.folder, USER)
            # runuser names that user's own home, which there is none of.
            self._as_user = [*as_user, "env", f"HOME={self.folder}"]
        self.profile = (self.folder / "profile").as_uri()
        self.python = self._python()
        self._hand_over(CLIENT, CLIENT.name)
        if not self._extension:
            return
        if self._extension is True:
            extension = self.folder / "cornerbook.oxt"
            extension.write_bytes(build_extension())
        else:
            extension = self._hand_over(self._extension, Path(self._extension).name)
        done = self.run(unopkg, "add", "-f", extension, "-env:UserInstallation=" + self.profile)
        if done.returncode != 0:
            raise CalcError("The extension could not be installed: " + done.stdout.strip())

    def _environment(self):
        around = surroundings()
        kept = {k: around[k] for k in ("PATH", "SYSTEMROOT", "TEMP", "TMP") if k in around}
        return {
            **kept, "HOME": str(self.folder), "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8",
            "SAL_USE_VCLPLUGIN": "svp",
        }  # fmt: skip

    def run(self, *command, seconds=HANGING):
        """Run a program as the user that Calc runs as; returns the completed process."""
        try:
            return subprocess.run(
                [*self._as_user, *map(str, command)],
                stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                env=self._environment(), cwd=self.folder, text=True, timeout=seconds,
            )  # fmt: skip
        except subprocess.TimeoutExpired:
            raise CalcError(f"{command[0]} took longer than {seconds:g} s") from None

    def _python(self):
        program = self.soffice.resolve().parent
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

    # Files

    def _hand_over(self, path, name):
        copy = self.folder / name
        shutil.copyfile(path, copy)
        copy.chmod(0o644)
        if self._as_user:
            shutil.chown(copy, USER)
        return copy

    def _place(self, name):
        return self.folder / f"{next(self._count)}-{name}"

    # Requests

    def ask(self, do, seconds=None, **what):
        """Send one request to the client (see calc_client.py) and return its answer.

        seconds: how long to wait for it, `patience` if not given. A Calc that does not
        answer in time is ended.
        """
        if self._process is None:
            raise CalcError("Calc is not running")
        try:
            self._process.stdin.write(json.dumps({"do": do, **what}) + "\n")
            self._process.stdin.flush()
        except (OSError, ValueError):
            pass  # it has ended; the answer says so
        return self._answer(do, self.patience if seconds is None else seconds)

    def _answer(self, do, seconds):
        try:
            answer = self._answers.get(timeout=seconds)
        except queue.Empty:
            self._give_up()
            raise CalcError(
                f"Calc did not answer {do!r} within {seconds:g} s and was ended"
            ) from None
        if answer is None:
            self._give_up()
            raise CalcError(f"Calc ended at {do!r}. {self._log()}")
        if "error" in answer:
            raise CalcError("{}: {}".format(do, answer["error"]))
        return answer["ok"]

    def _give_up(self):
        process, self._process = self._process, None
        self._end_group(process)

    def _end_group(self, process):
        """End the client and the Calc that it started, and close what led to them."""
        _kill_group(process)
        self._reader.join(HANGING)
        with contextlib.suppress(OSError, ValueError):
            process.stdin.close()  # what it never read goes with it
        process.stdout.close()

    def _log(self):
        log = self.folder / LOG
        return log.read_text(errors="replace")[-500:].strip() if log.exists() else ""

    def new(self):
        """A new, empty book (its sheet is Sheet1). A Calc that has ended is started again."""
        self.start()
        return Book(self, self.ask("new"))

    def open(self, path):
        """Open a copy of the file at `path`. A Calc that has ended is started again."""
        self.start()
        copy = self._hand_over(path, self._place(Path(path).name).name)
        return Book(self, self.ask("open", path=str(copy)))

    def function_descriptions(self, start="CORNER."):
        """{name: {description, category, arguments}} as the function wizard shows them."""
        return self.ask("function_descriptions", start=start)

    def version(self):
        """LibreOffice's version, as a text."""
        return self.ask("version")


def _read_answers(process, answers):
    """Put each answer in the queue, and None when there will be no more."""
    for line in process.stdout:
        answers.put(json.loads(line))
    answers.put(None)


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
            raise CalcError(f"The user {USER} could not be made: {made.stderr}") from None
    return ["runuser", "-u", USER, "--"]


def _kill_group(process):
    """End the client and the Calc that it started, all in one process group."""
    if hasattr(os, "killpg"):
        try:
            os.killpg(process.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass  # all gone already
    elif process.poll() is None:
        process.kill()
    process.wait(HANGING)
