"""New workbooks, copies of them and what commands make of them, by the schemas of ISO 29500.

    python -m tests.programs.schemas FOLDER [WORKBOOK.xlsx ...]

FOLDER holds the schemas, or folders of them (`tests/authorities/iso_29500.py` says where ISO
publishes them). Without a workbook it makes some of each kind. Prints what the schemas do not
allow, part by part, and which parts have no schema; ends with 1 if there is anything wrong.
"""

import argparse
import collections
import re
import sys
import tempfile
from pathlib import Path

from cornerbook.book.formula.convert import convert
from cornerbook.book.formula.targets import TARGETS

from tests.authorities.iso_29500 import Schemas
from tests.support.command import run
from tests.support.once import Once

TEMPLATES = sorted(path.stem for path in Path("workbooks/templates").glob("*.toml"))


def main():
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("folder", type=Path)
    asked.add_argument("workbooks", nargs="*", type=Path)
    asked = asked.parse_args()
    schemas = Schemas(asked.folder)
    if not schemas.namespaces:
        sys.exit(f"There is no schema in {asked.folder}: the files are called sml.xsd and so on.")
    findings, not_held = 0, collections.Counter()
    with tempfile.TemporaryDirectory() as folder:
        for path in asked.workbooks or _made(Path(folder)):
            held, without, wrong = schemas.held(path)
            print(f"{path.name}: {len(held)} parts held, {len(wrong)} findings", flush=True)
            for sentence in wrong:
                print(f"  {sentence}", flush=True)
            findings += len(wrong)
            not_held.update((re.sub(r"\d+\.", "N.", part), why) for part, why in without.items())
    for (part, why), many in not_held.items():
        print(f"not held, {many} times {part}: {why}")
    sys.exit(1 if findings else 0)


def _made(folder):
    """The paths of workbooks of every kind that is written, each made as it is asked for."""
    once = Once(folder / "once")
    for template in TEMPLATES:
        for system in ("mm", "in"):
            yield once.workbook(template, system)
            yield once.copy(template, system)[0]
        yield once.copy(template, values=True)[0]
        for target in TARGETS[1:]:
            yield once.workbook(template, target=target)
            path = folder / f"{template} to {target}.xlsx"
            path.write_bytes(convert(once.workbook(template), target)[0])
            yield path
    book, points = once.workbook(), folder / "points.csv"
    for name, *arguments in (
        ("adopted.xlsx", "adopt", book, "placing", "--out"),
        ("renewed.xlsx", "renew", book, "--out"),
        ("solved.xlsx", "solve", book, "--change", "Front: upper ball joint x", "--make",
         "Caster=5", "--out"),
        ("spread.xlsx", "tolerance", book, "--within", "1", "--cars", "1000", "--out"),
        (points.name, "export", book),
        ("imported.xlsx", "import", book, points, "--out"),
        ("macros.xlsm", "excel", "install", "--workbook", book),
    ):  # fmt: skip
        done = run(*map(str, arguments), name, cwd=folder)
        if done.returncode:
            print(f"{name} is not made: {done.stderr or done.stdout}")
        elif folder / name != points:
            yield folder / name


if __name__ == "__main__":
    main()
