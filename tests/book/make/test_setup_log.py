"""The sheet Set-up log: what it learns, against numpy's least squares, and what it says of rows."""

import io

import numpy as np
import pytest
from cornerbook.book.make.new import make
from cornerbook.catalogue import call

from tests.book.make.test_block_mistakes import TEMPLATE
from tests.book.make.test_scenario_keys import LAPWING
from tests.book.make.texts import stopped, written
from tests.support.looking import looked_into

CHAPTERS = ["set-up", "adjusters"]
ENDS, SHIM, SLEEVE = "Upper arm, rod ends", "Upper arm, shim fore", "Tie rod, sleeve"
LOG = [
    (ENDS, "camber", 4, -1.0, -0.3), (SLEEVE, "toe", 3, 0.1, 0.8),
    (ENDS, "camber", -6, -0.5, -1.6), (None, None, None, None, None),
    (ENDS, "camber", 5, -1.2, -0.35), (SLEEVE, "toe", -4, 0.5, None),
    (SHIM, "caster", 2, 6.1, 6.7), ("Upper arm", "camber", 2, 0.1, 0.2),
    (SLEEVE, "trail", 2, 20.0, 21.0), (SHIM, "camber", 2, None, None),
]  # fmt: skip
TITLES = ("Adjuster", "Result", "Steps", "Before", "After")


def made(tmp_path, log=LOG, use="no", **measured):
    """{sheet: its rows of values} of the workbook with a log."""
    lines = ['\n[typed."Set-up log"]', f'UseLog = "{use}"']
    for number, row in enumerate(log, 1):
        for title, value in zip(TITLES, row, strict=True):
            if value is not None:
                text = f'"{value}"' if isinstance(value, str) else value
                lines.append(f'"{title}, row {number}" = {text}')
    if measured:
        lines.append("\n[typed.Adjusters]")
        lines += [f'"{name}, {side}" = {value}' for name, sides in measured.items()
                  for side, value in zip(("left", "right"), sides, strict=True)]  # fmt: skip
    scenario = written(tmp_path, lapwing=LAPWING + "\n".join(lines) + "\n")
    content = make("car", *scenario, chapters=CHAPTERS)
    book = looked_into(io.BytesIO(content), data_only=True)
    return {
        sheet.title: [[cell.value for cell in row] for row in sheet.iter_rows()] for sheet in book
    }


def below(rows, heading):
    return rows[next(i for i, row in enumerate(rows) if row[0] == heading) + 2 :]


@pytest.fixture(scope="module")
def unused(tmp_path_factory):
    return made(tmp_path_factory.mktemp("log"))


def learned(book):
    rows = below(book["Set-up log"], "What a step does by the log, and by the linkage over the same"
                 " steps")  # fmt: skip
    return {(row[0], row[1]): row[2:] for row in rows if row[0]}


def test_what_is_learned_is_numpys_line_through_the_origin(unused):
    found = learned(unused)
    assert len(found) == 9
    steps, changes = np.array([4.0, -6.0, 5.0]), np.array([0.7, -1.1, 0.85])
    slope, left, _, _ = np.linalg.lstsq(steps[:, None], changes, rcond=None)
    entries, expected, effect, deviation, more, _, remark, *_ = found[ENDS, "camber"]
    assert entries == 3
    assert effect == pytest.approx(slope[0], rel=1e-9)
    assert deviation == pytest.approx(np.sqrt(left[0] / 2 / (steps @ steps)), rel=1e-6)
    # What was expected is the exact linkage over the same steps, fitted likewise.
    corner = tuple(
        (row[0], *("" if cell is None else cell for cell in row[1:4]))
        for row in unused["Front corner"] if row[0] and row[1] not in (None, "x")
    )  # fmt: skip
    closed = [
        call("ADJUSTER_EFFECT", corner, "camber", "upper arm", 0.0, 0.75, 0.0, n) for n in steps
    ]
    assert all(isinstance(one, float) for one in closed), closed
    wanted = np.linalg.lstsq(steps[:, None], closed, rcond=None)[0][0]
    assert expected == pytest.approx(wanted, rel=1e-9)
    assert more == pytest.approx(slope[0] - wanted, rel=1e-7)
    assert remark == "not as the linkage says, by more than twice its deviation"
    for key, number, said in (((SLEEVE, "toe"), 0.7 / 3, "one entry: no spread"),
                              ((SHIM, "caster"), 0.3, "one entry: no spread"),
                              ((SHIM, "camber"), None, "nothing logged yet")):  # fmt: skip
        entries, _, effect, deviation, _, _, remark, *_ = found[key]
        assert entries == (0 if number is None else 1)
        assert deviation in (None, "")
        assert effect == pytest.approx(number) if number else effect in (None, "")
        assert remark == said


def test_every_row_is_worked_out_or_says_why_not(unused):
    rows = below(unused["Set-up log"], "As turned and measured")
    remarks = [row[11] or "" for row in rows[: len(LOG)]]
    assert rows[0][8] == pytest.approx(0.7) and rows[0][10] == pytest.approx(0.175)
    assert not any(remarks[i] for i in (0, 1, 2, 3, 4, 6))
    assert not any(rows[3][i] for i in (8, 9, 10))
    assert "not counted yet" in remarks[5] and "not counted yet" in remarks[9]
    assert 'no adjuster "Upper arm"' in remarks[7] and ENDS in remarks[7]
    assert '"trail" is not logged here' in remarks[8]


def test_it_is_used_only_where_that_is_said(unused, tmp_path):
    measured = {"camber": (-3.0, -0.2), "toe": (0.05, 0.05), "caster": (6.5, 6.5)}
    used = made(tmp_path, use="yes", **measured)["Adjusters"]
    (tmp_path / "no").mkdir()
    plain = made(tmp_path / "no", **measured)["Adjusters"]
    more = learned(unused)[ENDS, "camber"][4]
    assert below(used, "What the log adds to a step")[1][1] == pytest.approx(more)
    assert not any(below(plain, "What the log adds to a step")[1][1:])
    assert any("by the linkage alone" in str(row[0]) for row in plain)
    assert any("by the linkage and what the log adds" in str(row[0]) for row in used)
    read = {}
    for name, rows in (("used", used), ("plain", plain)):
        steps = {row[0]: row[1:3] for row in below(rows, "What to turn")[1:4]}
        then = {row[0]: row[1:3] for row in below(rows, "What is then to be read")[:4]}
        assert then["camber"][0] <= -0.5 and then["camber"][0] >= -1.5
        read[name] = steps, then
    (steps, then), (other, by_linkage) = read["used"], read["plain"]
    # A step does less than the linkage says: as many as before, or more.
    assert steps[ENDS][0] >= other[ENDS][0] > 0
    if steps == other:
        added = steps[ENDS][0] * more
        assert then["camber"][0] - by_linkage["camber"][0] == pytest.approx(added, abs=1e-9)


LOG_BLOCK = """
[[sheet.block]]
kind = "log"
name = "Learned"
adjusters = "Turned"
corner = "Front"
quantities = ["camber"]
rows = 3
"""


@pytest.mark.parametrize(
    "adjusters, log, sentence",
    [
        ('name = "Turned"\nuse_log = "Rack"\n', "", "use_log, learned and logged go together"),
        ('name = "Turned"\n', LOG_BLOCK.replace("Turned", "Nobody"), 'no table "Nobody" above'),
        ('name = "Turned"\n', LOG_BLOCK.replace('"camber"', '"camber", "trail"'), "one unit"),
        ('name = "Turned"\n', LOG_BLOCK.replace("camber", "ackermann"), "of one wheel"),
        ('name = "Turned"\n', LOG_BLOCK.replace("rows = 3", "rows = 0"), "rows"),
    ],
)
def test_a_mistake_in_such_a_block_is_said(tmp_path, adjusters, log, sentence):
    head, tail = TEMPLATE.split('kind = "adjusters"\n')
    mine = head + 'kind = "adjusters"\n' + adjusters + tail + log
    assert sentence in stopped(tmp_path, mine)
