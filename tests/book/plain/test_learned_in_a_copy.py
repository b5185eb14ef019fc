"""What a log teaches, in a copy without the add-in: the same numbers and sentences after edits."""

import numpy as np
import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.formula.values import Values
from cornerbook.book.plain.share import share
from cornerbook.catalogue import call

from tests.catalogue.independent_sensitivity import line_of
from tests.support.workbooks import notes_and_block

NAMES = ("LEARNED_EFFECT", "LEARNED_DEVIATION")
STEPS, CHANGES = (4.0, None, -6.0, 5.0, 2.0), (0.7, 0.4, -1.1, 0.85, None)


@pytest.fixture(scope="module")
def copy(tmp_path_factory):
    folder = tmp_path_factory.mktemp("learned")
    cells = {f"H{row}": f"=CORNER.{name}(A1:A5,B1:B5)" for row, name in enumerate(NAMES, 1)}
    for column, values in (("A", STEPS), ("B", CHANGES)):
        cells.update({f"{column}{row}": value for row, value in enumerate(values, 1)})
    content, _ = share(notes_and_block(folder / "mine.xlsx", cells))
    path = folder / "copy.xlsx"
    path.write_bytes(content)
    return path


@pytest.mark.parametrize(
    "edits",
    [
        {}, {"A2": 3.0}, {"B5": 0.3, "A1": -2.0}, {"A1": None, "A3": None}, {"B3": None},
        {"A1": None, "A3": None, "B4": None}, {"A1": 0.0, "A3": 0.0, "A4": 0.0},
        {"A3": "six"}, {"B1": "none"},
    ],
)  # fmt: skip
def test_it_follows_an_edit(copy, tmp_path, edits):
    package = Package.read(copy)
    columns = {"A": list(STEPS), "B": list(CHANGES)}
    for address, value in edits.items():
        package.set_value("Notes", address, value)
        columns[address[0]][int(address[1]) - 1] = value
    path = tmp_path / "edited.xlsx"
    path.write_bytes(package.to_bytes())
    values = Values(Package.read(path))
    cells = [tuple(("" if value is None else value,) for value in columns[c]) for c in "AB"]
    for row, name in enumerate(NAMES, 1):
        found, ours = values.at("Notes", f"H{row}"), call(name, *cells)
        if isinstance(ours, float):
            assert found == pytest.approx(ours, rel=1e-9, abs=1e-12)
        else:
            assert isinstance(found, str) and found.startswith("# "), found
    if not edits:
        steps, changes = np.array([4.0, -6.0, 5.0]), np.array([0.7, -1.1, 0.85])
        found = [values.at("Notes", f"H{row}") for row in (1, 2)]
        assert found == pytest.approx(list(line_of(steps, changes)), rel=1e-9)
