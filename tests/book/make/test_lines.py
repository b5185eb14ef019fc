"""Where the keys of a TOML file stand, held to the text itself."""

import pytest
from cornerbook.book.make.texts.lines import Lines
from cornerbook.book.make.texts.places import find, names_in
from cornerbook.book.make.texts.text_files import TextFile

OURS = [(folder, name) for folder in ("templates", "chapters", "scenarios")
        for name in names_in(folder)]  # fmt: skip


def paths(content, path=()):
    """Every path to a key or an item of a content."""
    if isinstance(content, dict):
        for key, value in content.items():
            yield (*path, key)
            yield from paths(value, (*path, key))
    elif isinstance(content, list):
        for number, value in enumerate(content):
            yield (*path, number)
            yield from paths(value, (*path, number))


@pytest.mark.parametrize(("folder", "name"), OURS)
def test_every_key_of_ours_stands_where_it_is_said_to(folder, name):
    file = TextFile(find(folder, name))
    text = file.text.split("\n")
    before = {}
    for path in paths(file.content):
        line = file.lines.of(path)
        if isinstance(path[-1], str):
            assert path[-1] in text[line - 1], (path, line)
        # The items of a list stand in its order.
        elif path[-1]:
            assert line >= before[path[:-1]]
        before[path[:-1]] = line


TEXT = '''# title = 1
title = "a # b = [c]"   # d = 1
"quoted key".x.'y z' = [1, [2,
  3], { k = 1, "l m" = "}" }]
when = 1979-05-27 07:32:00 # e = 1
text = """
[no.table]
x = "1" \\"""
""" # f
raw = \'\'\'
[[no]]\'\'\'\'

  [ a . "b.c" ]
p = { q = { r = 1 } }
[[a.list]]
n = 1
[[a.list.inner]]
o = 1
[[a.list]]
n = 2
[[ a.list.inner ]]
o = 2
[a.list.inner.deep]
s = 3
[end]
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("title",), 2),
        (("quoted key", "x", "y z"), 3),
        (("quoted key", "x", "y z", 1, 0), 3),
        (("quoted key", "x", "y z", 1, 1), 4),
        (("quoted key", "x", "y z", 2, "l m"), 4),
        (("when",), 5),
        (("text",), 6),
        (("raw",), 10),
        (("a", "b.c"), 13),
        (("a", "b.c", "p", "q", "r"), 14),
        (("a", "list", 0), 15),
        (("a", "list", 0, "inner", 0, "o"), 18),
        (("a", "list", 1, "n"), 20),
        (("a", "list", 1, "inner", 0, "o"), 22),
        (("a", "list", 1, "inner", 0, "deep", "s"), 24),
        (("end",), 25),
        (("a", "list", 1, "nothing"), 19),
        (("nothing",), 1),
    ],
)
def test_every_way_to_write_a_key(tmp_path, path, line):
    (tmp_path / "x.toml").write_text(TEXT, encoding="utf-8")
    file = TextFile(tmp_path / "x.toml")
    assert file.lines.of(path) == line
    value = file.content
    for part in path:
        if part != "nothing":
            value = value[part]


def test_spans(tmp_path):
    (tmp_path / "x.toml").write_text(TEXT, encoding="utf-8")
    lines = TextFile(tmp_path / "x.toml").lines
    assert lines.span(("a", "list", 0)) == (15, 18)
    assert lines.span(("a", "list", 1)) == (19, 24)
    assert lines.span(("a", "list", 1, "inner", 0)) == (21, 24)
    assert lines.span(("end",)) == (25, 25)
    assert lines.span(()) == (1, 25)


def test_a_text_that_is_none_of_its_own_ends_too():
    """It judges nothing, but it must not run for ever either."""
    for text in (
        "=",
        "[",
        "[[",
        "a",
        "a = ",
        "a = [",
        'a = "',
        "a = {",
        "]",
        "a.",
        "\x00",
        "a = [",
    ):
        Lines(text, lambda key: key)
