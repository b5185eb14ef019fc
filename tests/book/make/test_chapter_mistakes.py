"""A list of chapters, or a chapter, with a mistake: the file, the line, and both that clash."""

import pytest
from cornerbook.book.make.new import make
from cornerbook.book.make.texts.places import find

from tests.book.make.texts import changed, line_of, stopped, written

LIST = """title = "Mine"
chapters = [
  "car",
  "front-corner",
  "bump",
  "own.toml",
]
"""

OWN = """about = "Two results and a table."
needs = ["car", "front-corner", "bump"]
gives = ["OwnTrail", "OwnRack"]
tables = ["own"]

[[sheet]]
name = "Own"

[[sheet.block]]
kind = "results"
columns = ["now"]
rows = [
  { label = "Trail", name = "OwnTrail", kind = "length", formula = "=CORNER.TRAIL(Front)" },
  { label = "Rack", name = "OwnRack", kind = "length", formula = "=RackLock+1" },
]

[[sheet.block]]
kind = "series"
name = "own"
over = "travel"
kind_over = "length"
like = "bump"
columns = [{ title = "trail", kind = "length", formula = "=CORNER.TRAIL(Front,{x})" }]
"""


@pytest.fixture
def said(tmp_path):
    """A function of the list and the chapter own.toml: the sentence that `make` stops with."""

    def run(listed=LIST, own=OWN, **others):
        return stopped(tmp_path, listed, own=own, **others)

    return run


def test_without_a_mistake_it_is_made(tmp_path):
    mine, _ = written(tmp_path, mine=LIST, own=OWN)
    assert make(mine)


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ('  "car",\n', "", 4,
         'the chapter "bump" needs the chapter "car", which is not in the list; put it above'),
        ('  "front-corner",\n  "bump",\n', '  "bump",\n  "front-corner",\n', 4,
         'the chapter "bump" needs the chapter "front-corner", which stands below it'),
        ('  "bump",\n', '  "bump",\n  "bump",\n', 6, 'the chapter "bump" is in the list twice'),
        ('"car"', '"carr"', 3, 'there is no chapter named "carr"; did you mean "car"?'),
        ('"own.toml"', '"parts/own.toml"', 6, "there is no file"),
        ('"car"', "5", 3, 'in the template the list "chapters" has a number; a text was expected'),
        ('"own.toml"', '"mine.toml"', 1, 'the key "title" is not known in the chapter'),
        ('"own.toml"', '"overview"', 6,
         'the chapter "overview" needs the chapter "self-check", which is not in the list; put it '
         "there too"),
        ("chapters = [", "chapter = [", 2, 'did you mean "chapters"?'),
    ],
)  # fmt: skip
def test_list(said, old, new, line, words):
    message = said(changed(LIST, old, new))
    assert message.startswith(f"mine.toml, line {line}: ")
    assert words in message


def test_a_template_needs_something(said):
    assert said('title = "Mine"\n') == (
        "mine.toml, line 1: the template needs chapters, or sheets of its own"
    )


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ('gives = ["OwnTrail", "OwnRack"]', 'gives = ["OwnTrail"]', 3,
         'the chapter "own" gives the name "OwnRack" and does not promise it; add it to gives'),
        ('gives = ["OwnTrail", "OwnRack"]', "", 1,
         'the chapter "own" gives the name "OwnTrail" and does not promise it'),
        ('"OwnRack"]', '"OwnRack", "OwnKick"]', 3,
         'the chapter "own" promises the name "OwnKick", and no block of it gives that'),
        ('tables = ["own"]', "", 1,
         'the chapter "own" gives the table "own" and does not promise it; add it to tables'),
        ('tables = ["own"]', 'tables = ["own", "other"]', 4,
         'the chapter "own" promises the table "other", and no block of it gives that'),
        ('"OwnRack"]', '"OwnRack", "Wheelbase"]', 3,
         'the name "Wheelbase" is given by two chapters, "car" and "own"'),
        ('"OwnRack"]', '"OwnRack", "FRONT"]', 3,
         'the name "FRONT" is given by two chapters, "front-corner" and "own"'),
        ('tables = ["own"]', 'tables = ["own", "bump"]', 4,
         'the table "bump" is given by two chapters, "bump" and "own"'),
        ('"front-corner", "bump"]', '"front-corner", "bumb"]', 2,
         'the chapter "own" needs the chapter "bumb", which is not known; did you mean "bump"?'),
        ('"front-corner", "bump"]', '"front-corner", "own"]', 2, 'the chapter "own" needs itself'),
        ("about = ", "abuot = ", 1, 'the key "abuot" is not known in the chapter'),
        ('needs = ["car", "front-corner", "bump"]', 'needs = "bump"', 2,
         'in the chapter the key "needs" is a text; a list in square brackets was expected'),
        ('name = "Own"', 'name = "Bump"', 7, 'two sheets are named "Bump"'),
        ('kind = "series"', 'kind = "serie"', 18, 'did you mean "series"?'),
        ('like = "bump"', 'like = "bmup"', 22, 'there is no table "bmup" above'),
        ("=RackLock+1", "=RackLook+1", 14, "Own!B3: RackLook is neither a name nor cells"),
        ("CORNER.TRAIL(Front,{x})", "CORNER.TRAIL(Frnt,{x})", 23,
         "Frnt is neither a name nor cells"),
    ],
)  # fmt: skip
def test_chapter(said, old, new, line, words):
    message = said(own=changed(OWN, old, new))
    assert message.startswith(f"own.toml, line {line}: ")
    assert words in message


def test_a_table_of_another_chapter_is_not_replaced_in_silence(said):
    own = changed(changed(OWN, 'name = "own"', 'name = "bump"'), 'tables = ["own"]', "tables = []")
    assert said(own=own) == (
        'own.toml, line 4: the chapter "own" gives the table "bump" and does not promise it; '
        "add it to tables in its head"
    )


def test_a_comment_is_not_where_a_mistake_is(said):
    own = "# needs = what it needs\n" + changed(OWN, '"front-corner", "bump"]', '"frnt"]')
    assert said(own=own).startswith("own.toml, line 3: ")


def test_a_mistake_in_the_second_sheet_of_a_chapter(said):
    """Lines are those of the chapter's own file, and sheets are counted within it."""
    more = '\n[[sheet]]\nname = "More"\n\n[[sheet.block]]\nkind = "text"\nline = ["a"]\n'
    message = said(own=OWN + more)
    assert message.startswith(f"own.toml, line {line_of(OWN + more, 'line = [')}: ")


def test_a_mistake_in_a_chapter_after_one_with_the_same_sheet_number(said):
    ours = find("chapters", "car").read_text(encoding="utf-8")
    wrong = changed(ours, 'from = "car.front_track"', 'from = "car.front_tack"')
    message = said(listed=changed(LIST, '"car"', '"car.toml"'), car=wrong)
    assert "car.front_tack" in message
    wrong = changed(ours, "=FrontTrack/Wheelbase", "=FrontTack/Wheelbase")
    message = said(listed=changed(LIST, '"car"', '"car.toml"'), car=wrong)
    assert message.startswith(f"car.toml, line {line_of(wrong, '=FrontTack')}: Car!B")


def test_own_sheets_cannot_give_a_name_of_a_chapter(said):
    own = '\n[[sheet]]\nname = "Own"\n\n[[sheet.block]]\nkind = "inputs"\n'
    own += 'rows = [{ label = "Base", name = "Wheelbase", value = 1, kind = "length" }]\n'
    message = said('title = "Mine"\nchapters = ["car"]\n' + own)
    assert message.startswith("mine.toml, line ")
    assert "the name Wheelbase is given twice" in message
