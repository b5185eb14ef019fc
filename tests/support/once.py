"""Workbooks, shared copies and other files that many tests read, made once in a whole run.

Test processes side by side (pytest-xdist) share one folder: the first that needs a file makes
it while the others wait. The files are read-only; a test that writes takes a copy.
"""

import json
import os
from pathlib import Path

from cornerbook.book.make.new import make
from cornerbook.book.plain.share import share
from filelock import FileLock

from tests.support.unprotected import unprotected


class Once:
    """Makes files once in a run.

    folder: that of the run, the same for every test process.
    """

    def __init__(self, folder):
        self.folder = Path(folder)
        self.folder.mkdir(exist_ok=True)

    def file(self, name, build):
        """The path of the file of this name; `build` gives its bytes if it is not there yet."""
        path = self.folder / name
        with FileLock(self.folder / f"{name}.lock"):
            if not path.exists():
                begun = path.with_name(f"{name}.begun")
                begun.write_bytes(build())
                begun.chmod(0o444)
                os.replace(begun, path)
        return path

    def workbook(self, template="car", system="mm", target="calc", scenario="lapwing", chapters=()):
        """The workbook of a car, as `cornerbook new` makes it. chapters: all of them if none."""
        return self.file(
            f"{_name(template, system, target, scenario, chapters)}.xlsx",
            lambda: make(template, scenario, system, target, chapters=list(chapters) or None),
        )

    def copy(self, template="car", system="mm", values=False, scenario="lapwing", chapters=()):
        """(path, sentences) of that workbook's shared copy, as `cornerbook share` makes it."""
        kind = "frozen" if values else "shared"
        name = _name(template, system, kind, scenario, chapters)

        def build():
            path = self.workbook(template, system, scenario=scenario, chapters=chapters)
            content, messages = share(path, values)
            self.file(f"{name}.json", lambda: json.dumps(messages).encode("utf-8"))
            return content

        path = self.file(f"{name}.xlsx", build)
        said = (self.folder / f"{name}.json").read_text(encoding="utf-8")
        return path, json.loads(said)

    def copy_of_every_formula(self):
        """The copy of a workbook in which all our formulas are called, none a kept number.

        That is the sheet Self-check, on which anybody may edit the example.
        """

        def build():
            path = self.file(
                "self-check unprotected.xlsx",
                lambda: unprotected(self.workbook(chapters=("self-check",)).read_bytes()),
            )
            return share(path)[0]

        return self.file("self-check unprotected shared.xlsx", build)


def _name(*parts):
    return " ".join("+".join(part) if isinstance(part, tuple) else part for part in parts if part)
