"""Scenarios and files of tolerances gone wrong, given to `new` and `tolerance`. The suite runs a
few (test_scenarios.py); by hand, from the folder that holds `tests`, many:

    python -m tests.fuzz.scenarios --cases 1000 --seed 1 --keep /tmp/found

Chapters and templates are changed in texts.py; here a scenario goes all the way, also one of few
numbers, which `new` completes and solves.
"""

import sys

from tests.fuzz.commands import Case, by_hand
from tests.fuzz.points import workbook
from tests.fuzz.texts import changed, ours

TEMPLATE = """
title = "Small"
about = "For scenarios gone wrong."
chapters = ["car", "wanted", "front-corner"]
"""

FEW = """
title = "Mine"
unit = "mm"

[car]
wheelbase = 1500
front_track = 1100
rear_track = 1100

[corner.front]
"tyre radius" = 250
"wheel centre" = [0, 550, 250]

[wanted]
caster = { aim = 5 }
"""

TOLERANCES = """
within = 1.0

[Front]
within = 0.8
"upper ball joint" = 0.3
"tie rod inner" = [0.5, 0.5, 1.0]

[[jig]]
name = "front bulkhead"
block = "Front"
points = ["lower front pickup", "upper front pickup"]
within = [0.5, 0.5, 0.5]
"""


def case(chance):
    """A text file gone wrong, and the command that is given it."""
    given = "nan None inf Errno Error: <class"
    if chance.random() < 0.4:
        with open("in.xlsx", "wb") as file:
            file.write(workbook())
        _write("in.toml", changed(TOLERANCES, chance))
        line = "tolerance in.xlsx --tolerance in.toml --cars 1000 --out out.xlsx"
        return Case(line.split(), ["in.xlsx", "in.toml"], "out.xlsx", given)
    text = ours("scenarios", "lapwing") if chance.random() < 0.5 else FEW
    _write("in.toml", changed(text, chance))
    _write("small.toml", TEMPLATE.encode())
    line = "new out.xlsx --scenario in.toml --template small.toml"
    return Case(line.split(), ["in.toml", "small.toml"], "out.xlsx", given)


def _write(name, content):
    with open(name, "wb") as file:
        file.write(content)


if __name__ == "__main__":
    sys.exit(by_hand("scenarios", case, "text files"))
