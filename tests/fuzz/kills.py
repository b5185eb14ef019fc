"""A command killed at any moment leaves what was there, or what it was to make, whole. The suite
kills a few (test_kills.py); by hand, from the folder that holds `tests`, many:

    python -m tests.fuzz.kills --cases 300 --seed 1

Each run writes over an old file or to a free name, and is killed or interrupted after a random
time. What may be left is a file that is still being written; the next run removes it, also one
that then makes nothing.
"""

import argparse
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
import zipfile
from collections import Counter
from pathlib import Path

TEMPLATE = b'title = "Small"\nabout = "To be killed."\nchapters = ["car", "wanted"]\n'

NEW = "new out.xlsx --template small.toml --force"

BIG = 60_000_000
"""Bytes of the file that is written with nothing done before; most of its time is writing."""

SAVE = f"from cornerbook.book.file.save import save; save('out.xlsx', b'PK' * {BIG // 2}, True)"


def case(chance, folder, longest):
    """What became of a run that was killed in a folder; begins with 'fault' if anything is wrong.

    longest: seconds after which it is killed at the latest.
    """
    os.chdir(folder)
    Path("small.toml").write_bytes(TEMPLATE)
    old = chance.choice((None, b"the old one"))
    if old is not None:
        Path("out.xlsx").write_bytes(old)
    is_new = chance.random() < 0.5
    command = ["-m", "cornerbook", *NEW.split()] if is_new else ["-c", SAVE]
    how = chance.choice((signal.SIGKILL, signal.SIGTERM, signal.SIGINT))
    running = subprocess.Popen(
        [sys.executable, *command], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )  # fmt: skip
    time.sleep(chance.uniform(0.0, longest))
    running.send_signal(how)
    _, said = running.communicate()
    made = Path("out.xlsx").read_bytes() if os.path.exists("out.xlsx") else None
    whole = zipfile.is_zipfile("out.xlsx") if is_new else made == b"PK" * (BIG // 2)
    if made != old and not whole:
        return "fault: neither the old file nor a whole new one"
    if is_new and how == signal.SIGINT and b"Traceback" in said and b"/__main__.py" in said:
        return "fault: a traceback of Python's"
    left = [name for name in os.listdir(".") if name.startswith(".")]
    if any(not name.endswith(".cornerbook-part") for name in left) or len(left) > 1:
        return f"fault: it left {left}"
    # One that makes nothing, for the name is taken.
    Path("out.xlsx").write_bytes(b"taken")
    again = subprocess.run(
        [sys.executable, "-m", "cornerbook", *NEW.split()[:-1]], capture_output=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )  # fmt: skip
    if again.returncode != 1 or b"exists and was left" not in again.stderr:
        return f"fault: the next run said {again.stderr[:100]!r}"
    if any(name.startswith(".") for name in os.listdir(".")):
        return "fault: the next run did not remove what was left"
    return f"{how.name}, {'done before' if made != old else 'unfinished file' if left else 'clean'}"


def run(count, seed, longest):
    """{what became of runs: how many}."""
    counts = Counter()
    before = os.getcwd()
    with tempfile.TemporaryDirectory() as made:
        for number in range(seed, seed + count):
            folder = Path(made) / str(number)
            folder.mkdir()
            try:
                counts[case(random.Random(number), folder, longest)] += 1
            finally:
                os.chdir(before)
    return counts


def main():
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.kills")
    parser.add_argument("--cases", type=int, default=300, help="how many runs (300)")
    parser.add_argument("--seed", type=int, default=1, help="the number of the first one (1)")
    parser.add_argument("--longest", type=float, default=2.0, help="seconds until it is killed (2)")
    options = parser.parse_args()
    counts = run(options.cases, options.seed, options.longest)
    for what, number in counts.most_common():
        print(f"{number:6d}  {what}")
    return 1 if any(what.startswith("fault") for what in counts) else 0


if __name__ == "__main__":
    sys.exit(main())
