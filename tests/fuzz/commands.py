"""A command run in this process, and what is wrong with what became of it.

Whatever a command is given, it does what was asked and says so; or it does nothing at all, and
says in a line what to mend. It shows nothing of Python's, changes no file that it only reads,
leaves nothing unfinished, and ends.
"""

import argparse
import contextlib
import io
import os
import random
import re
import shutil
import signal
import sys
import tempfile
import traceback
import warnings
import zipfile
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from cornerbook import cli
from cornerbook.book.file.package import Package
from lxml import etree

LONGEST_LINE = 1500
"""Letters of a line that somebody may still read."""

_OF_PYTHON = re.compile(
    r"failed inside|Traceback|Error:|Errno|\bNoneType\b|object at 0x|<class|"
    r"\bnan\b(?! given)|\bNone\b"
)

_OF_TOML = re.compile(r"\.toml(, line \d+)?: |^and \d+ more")
"""What lines look like of which there may be many: each says a mistake in a text file."""


class Hang(BaseException):
    """It took too long; no command may catch it."""


@dataclass
class Outcome:
    """What became of a command: its exit status, texts, and what escaped it."""

    status: object
    out: str
    err: str
    escaped: BaseException | None = None


@dataclass
class Case:
    """A command with its files. inputs: names of those that it may only read. makes: what it is
    to make. given: texts of the user's own, which may stand in a sentence as they are. judge: a
    function that tells what is false in what was made, None where nothing is. anything: whether
    it may make a file of any name and replace one that it is told to, if it says that it did."""

    arguments: list
    inputs: list = field(default_factory=list)
    makes: str | None = None
    given: str = ""
    judge: object = None
    anything: bool = False


def ran(arguments):
    """The `Outcome` of a command line."""
    out, err = io.StringIO(), io.StringIO()
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            with warnings.catch_warnings():
                warnings.simplefilter("error")
                status = cli.main([str(a) for a in arguments])
    except SystemExit as end:
        return Outcome(end.code, out.getvalue(), err.getvalue())
    except (KeyboardInterrupt, Hang):
        raise
    except BaseException as escaped:
        return Outcome(None, out.getvalue(), err.getvalue(), escaped)
    return Outcome(status, out.getvalue(), err.getvalue())


def said(*given):
    """What a command says where it does nothing, in one line."""
    done = ran(given)
    assert done.escaped is None
    assert done.status == 1, done.out
    (line,) = done.err.splitlines()
    assert line.startswith("cornerbook: ") and "failed inside" not in line
    return line


def became(case):
    """'made', 'said', 'asked wrongly', or what is wrong: the same line for the same fault."""
    before = {name: Path(name).read_bytes() for name in case.inputs}
    there = set(os.listdir("."))
    try:
        done = ran(case.arguments)
    except Hang:
        return f"fault: {_name(case)}: took too long"
    wrong = _wrong(case, done)
    if wrong is None and _changed(before) and not (case.anything and "--force" in case.arguments):
        wrong = "a file that was only to be read is changed"
    new = set(os.listdir(".")) - there
    if wrong is None and case.anything:
        wrong = "new files and no success" if new and done.status != 0 else None
        wrong = wrong or next(filter(None, (unsound(name, before.values()) for name in new)), None)
    elif wrong is None and new != ({case.makes} if done.status == 0 and case.makes else set()):
        wrong = f"with status {done.status} there are new files: {sorted(new)}"
    if wrong is None and done.status == 0 and case.makes:
        wrong = unsound(case.makes, before.values())
        if wrong is None and case.judge is not None:
            wrong = case.judge()
    if wrong is not None:
        return f"fault: {_name(case)}: {wrong[:300]}"
    return {0: "made", 1: "said", 2: "asked wrongly"}[done.status]


def _name(case):
    return case.arguments[0][:20] if case.arguments else "nothing"


def _changed(before):
    return any(Path(name).read_bytes() != content for name, content in before.items())


def _wrong(case, done):
    if done.escaped is not None:
        return f"{type(done.escaped).__name__} escaped at {where(done.escaped)}"
    if done.status not in (0, 1, 2):
        return f"status {done.status!r}"
    if "failed inside" in done.err:
        kind = done.err.partition("failed inside: ")[2].partition(":")[0]
        place = re.search(r"\(([\w.]+, line \d+)\); please", done.err)
        return f"failed inside: {kind} at {place[1] if place else '?'}"
    for text in (done.out, done.err):
        found = _OF_PYTHON.search(text)
        if found and found[0] not in case.given:
            return f"{found[0]!r} in what is said: {text[max(0, found.start() - 60) :][:120]!r}"
        longest = max(LONGEST_LINE, 3 * len(case.given))
        if any(len(line) > longest for line in text.splitlines()):
            return "a line that nobody reads to its end"
    lines = done.err.rstrip("\n").split("\n") if done.err else []
    if done.status == 0 and lines:
        return f"done, and yet it says: {lines[0][:80]}"
    if done.status == 1 and not _said_well(lines, case.arguments[0]):
        return f"not said in one line: {done.err[:120]!r}"
    if done.status == 2 and not (lines and lines[0].startswith("usage: ")):
        return f"asked wrongly, and no usage is shown: {done.err[:80]!r}"
    return None


def _said_well(lines, command):
    """One line; a line for each mistake of a text file, or of what `new` was asked."""
    if not lines or not lines[0].startswith("cornerbook: "):
        return False
    return len(lines) == 1 or command == "new" or all(_OF_TOML.search(line) for line in lines)


def unsound(name, given):
    """What is wrong with a file that a command made; None where nothing is.

    given: contents of the files that it was made from; a part that is as it was is not looked at.
    """
    content = Path(name).read_bytes()
    there = set().union(*map(_contents, given))
    if name.endswith((".xlsx", ".xlsm")):
        try:
            with zipfile.ZipFile(io.BytesIO(content)) as parts:
                for part in parts.namelist():
                    if part.endswith((".xml", ".rels")) and parts.read(part) not in there:
                        etree.fromstring(parts.read(part), etree.XMLParser(huge_tree=True))
            package = Package.read(name)
            for sheet in package.sheets:
                package.cells(sheet)
        except Exception as error:
            part = re.search(r"its part (\S+) cannot be read", str(error))
            if part is None or _contents(content, part[1]).isdisjoint(there):
                return f"the workbook that it made cannot be read: {type(error).__name__}"
    return None if content else "an empty file"


def _contents(file, part=None):
    """The contents of a zip's parts, or of one part, as far as they can be had."""
    try:
        with zipfile.ZipFile(io.BytesIO(file)) as parts:
            return {parts.read(name) for name in ([part] if part else parts.namelist())}
    except Exception:
        return set()


def where(error):
    """The last place in our own code, and that in another's where it went on from there."""
    frames = traceback.extract_tb(error.__traceback__)
    paths = [Path(frame.filename) for frame in frames]
    places = [
        f"{path.parent.name}/{path.name}:{frame.name}"
        for path, frame in zip(paths, frames, strict=True)
    ]
    ours = [place for place, path in zip(places, paths, strict=True) if "cornerbook" in path.parts]
    last = ours[-1] if ours else "?"
    return last if places[-1] == last else f"{last} > {places[-1]}"


# ---------------------------------------------------------------- many of them


def run(cases, count, seed, seconds=None, keep=None, each=None):
    """{what became of cases: how many}, and {a fault: the first seed that had it}.

    cases: a function of a random.Random that puts files into the current folder and returns a
    `Case`. seconds: how long one may take before it is a fault, where the system can tell; for
    long runs by hand. keep: a folder for the files of each fault. each: a function of (done,
    counts) that is called after each.
    """
    counts, first = Counter(), {}
    before = os.getcwd()
    with tempfile.TemporaryDirectory() as made:
        for number in range(seed, seed + count):
            folder = Path(made) / str(number)
            folder.mkdir()
            os.chdir(folder)
            try:
                case = cases(random.Random(number))
                if seconds:
                    # Seconds of the processor: another program may keep it busy.
                    signal.signal(signal.SIGPROF, _hang)
                    signal.setitimer(signal.ITIMER_PROF, seconds)
                what = became(case)
            finally:
                if seconds:
                    signal.setitimer(signal.ITIMER_PROF, 0)
                os.chdir(before)
            counts[what] += 1
            if what.startswith("fault") and what not in first:
                first[what] = number
                if keep:
                    (folder / "command.txt").write_text("\n".join(map(repr, case.arguments)))
                    _keep(folder, Path(keep) / str(number))
            shutil.rmtree(folder)
            if each:
                each(number - seed + 1, counts)
    return counts, first


def _keep(folder, kept):
    """Copy the plain files of a folder."""
    kept.mkdir(parents=True, exist_ok=True)
    for path in folder.iterdir():
        if path.is_file() and not path.is_symlink():
            shutil.copy(path, kept)


def _hang(*_):
    raise Hang


def by_hand(prog, cases, what):
    """A long run, with options; the exit status is 1 where there was a fault."""
    parser = argparse.ArgumentParser(prog=f"python -m tests.fuzz.{prog}")
    parser.add_argument("--cases", type=int, default=3000, help=f"how many {what} (3000)")
    parser.add_argument("--seed", type=int, default=1, help="the number of the first one (1)")
    parser.add_argument("--seconds", type=int, default=60, help="the longest for one (60)")
    parser.add_argument("--megabytes", type=int, default=4000, help="the most memory (4000)")
    parser.add_argument("--keep", help="a folder for the files of each fault")
    options = parser.parse_args()
    with contextlib.suppress(ImportError):
        import resource

        most = options.megabytes * 1_000_000
        resource.setrlimit(resource.RLIMIT_AS, (most, most))

    def each(done, counts):
        if done % 100 == 0:
            print(done, dict(counts.most_common(3)), file=sys.stderr, flush=True)

    keep = Path(options.keep).resolve() if options.keep else None
    counts, first = run(cases, options.cases, options.seed, options.seconds, keep, each)
    for became_, count in counts.most_common():
        print(f"{count:6d}  {became_}" + (f"  (seed {first[became_]})" if became_ in first else ""))
    kinds = sum(became_.startswith("fault") for became_ in counts)
    print(f"{kinds} kinds of fault")
    return 1 if kinds else 0
