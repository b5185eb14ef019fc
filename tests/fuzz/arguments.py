"""Command lines that nobody meant, random by a seed. The suite runs a few (test_arguments.py); by
hand, from the folder that holds `tests`, many:

    python -m tests.fuzz.arguments --cases 3000 --seed 1 --keep /tmp/found

A good line of each command has words left out, doubled, in another order or replaced by odd ones:
names of files that no system takes, folders, links, numbers of another kind, options of another
command.
"""

import os
import sys

from tests.fuzz.commands import Case, by_hand
from tests.fuzz.points import workbook, written
from tests.fuzz.workbooks import COMMANDS
from tests.fuzz.workbooks import arguments as words

LINES = (
    *COMMANDS,
    "new out.xlsx --template small.toml",
    "new out.xlsx --template small.toml --unit in --for excel",
    "new out.xlsx --chapters car,wanted", "chapters", "chapters --template small.toml",
    "calc extension out.oxt", "excel lite", "import in.xlsx in.dxf --out out.xlsx", "--version",
    "--help",
    "share --help", "new out.xlsx --wheelbase 1500 --front-track 1100 --template small.toml",
    "tolerance in.xlsx --tolerance tolerances.toml --cars 1000 --out out.xlsx",
)  # fmt: skip

ODD = (
    "", " ", ".", "..", "/", "-", "--", "---", "-h", "--help", "--force", "--out", "--block",
    "--change", "--make",
    "a\0b.xlsx", "\0", "a\nb.xlsx", "x" * 300 + ".xlsx", "x/" * 3000 + "a.xlsx", "a" * 100_000,
    ".xlsx",
    "folder", "folder.xlsx", "folder.toml", "nowhere/out.xlsx", "in.xlsx/out.xlsx", "dangling.xlsx",
    "loop.xlsx",
    "/dev/null", "/dev/zero", "/dev/full", "/proc/self/mem", "in.xlsx", "./in.xlsx",
    "IN.XLSX", "small.toml",
    "in.csv", "empty.xlsx", "text.xlsx", "\udcff.xlsx", "\u00e9\U0001f600.xlsx", "out.csv",
    "out.dxf", "out.svg",
    "out.xlsm", "out.oxt", "~", "$HOME", "*", "%s", "{x}", "'", '"', "!", "!A1", "Notes!",
    "Notes!A1", "Notes!A0",
    "Notes!XFE1", "'My points'!B2", "My points!B2", "Front", "front", "Front: upper ball joint x",
    "Front:", ": x",
    "Front: x", "Trail", "Total", "Wide", "Loop", "Chain3", "Trail=", "=5", "=", "Trail=5",
    "Total=nan", "Total=inf",
    "Total=1e400", "Total=5,5", "Total=5=5", "Total=1e308", "Notes!A1=1..2", "Notes!A1=..",
    "Notes!A1=2..1",
    "Notes!A1=nan..", "Notes!A1=1e400..", "Notes!A1=-..5", "0", "-1", "1", "1e3", "1000", "1e308",
    "-1e308",
    "1e-320", "nan", "inf", "-inf", "1,5", "1_000", "\u0661", "9" * 400, "9" * 5000, "0x10", "mm",
    "in", "calc",
    "excel", "placing", "Variant-A", "Variant-", "Variant-Z", "car", "car,", ",", "car,nothing",
    "lapwing", "Notes!A1:XFD1048576",
    "'My points'!A1:D26", "A1:D26", "A:XFD", "[1]x!A1", "normal", "uniform", "front", "all",
    "--unit=in", "--for=calc",
    "--cars=1000", "--seed=-1", "--seed=1e3", "--within=nan", "--within=-1", "--within=0",
    "--within=1e308", "--travel=1e308",
    "--rack=nan", "--roll=90", "--roll=1e400", "--rounds=0", "--rounds=99999", "--wheelbase=",
    "--wheelbase=-1",
    "--wheelbase=1e308", "--wheelbase=nan", "--tyre-radius=0", "--front-track=1,5", "--chapters=",
    "--template=", "--scenario=",
    "--tolerance=", "--tolerance=a\0b", "--template=a\0b.toml", "--scenario=/dev/zero",
    "--workbook=", "--workbook=a\0",
    "--block=", "--block=\0", "--view=all", "--values", "--axle", "@in.csv",
)  # fmt: skip
"""Words that are put in the place of good ones, or beside them."""

TEMPLATE = b'title = "Small"\nabout = "For odd arguments."\nchapters = ["car", "wanted"]\n'
TOLERANCES = b'within = 1.0\n[Front]\n"upper ball joint" = 0.3\n'


def put_files():
    """Put what the lines name into the current folder."""
    for name, content in {
        "in.xlsx": workbook(), "points.csv": written()["csv"], "in.csv": written()["csv"],
        "in.dxf": written()["dxf"], "small.toml": TEMPLATE, "tolerances.toml": TOLERANCES,
        "empty.xlsx": b"", "text.xlsx": b"PK is how it begins",
    }.items():  # fmt: skip
        with open(name, "wb") as file:
            file.write(content)
    for name in ("folder", "folder.xlsx", "folder.toml"):
        os.mkdir(name)
    for name, target in (("dangling.xlsx", "nowhere/x.xlsx"), ("loop.xlsx", "loop.xlsx")):
        os.symlink(target, name)


def line(chance):
    """A list of arguments near a good one."""
    given = words(chance.choice(LINES))
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        at = chance.randrange(len(given) + 1)
        values = [i for i, word in enumerate(given) if i and not word.startswith("--")]
        what = chance.choice(("value",) * 8 + ("replace", "insert", "drop", "swap", "other"))
        if what == "value":
            at, what = chance.choice(values or [0]), "replace"
        if what == "replace" and at < len(given):
            given[at] = chance.choice(ODD)
        elif what == "insert":
            given.insert(at, chance.choice(ODD))
        elif what == "drop":
            del given[at : at + 1]
        elif what == "swap" and given:
            other = chance.randrange(len(given))
            at = min(at, len(given) - 1)
            given[at], given[other] = given[other], given[at]
        else:
            given.append(chance.choice(words(chance.choice(LINES)) or [""]))
    # Neither may be run here: they change what this user has installed.
    return given if given[:1] != ["calc"] or "extension" in given else ["chapters"]


def case(chance):
    """Files of every kind and a line that may name any of them."""
    put_files()
    given = line(chance)
    return Case(
        given, ["in.xlsx", "in.csv", "in.dxf", "points.csv", "small.toml", "tolerances.toml"],
        given="\n".join(given) + " nan None inf Errno Error:", judge=None, anything=True,
    )  # fmt: skip


if __name__ == "__main__":
    sys.exit(by_hand("arguments", case, "command lines"))
