"""The kinds of block: each stands in one file, with all that a template may say in it."""

import os
import shutil
import subprocess
import sys
from collections import defaultdict
from pathlib import Path

import pytest
from cornerbook.book.make.build import build
from cornerbook.book.make.sheet.declare import ANY_BLOCK, KINDS, TEXT, block_kind
from cornerbook.book.make.templates.template import Template
from cornerbook.book.make.texts.places import find, workbooks
from cornerbook.book.make.texts.scenario import Scenario

from tests.support.looking import looked_into

ROOT = Path(__file__).parents[3]

TRIAL = '''"""A block that says something so many times."""

from ..sheet.declare import NUMBER, TEXT, block_kind, needed


def _check(block, trouble):
    if block["times"] < 1:
        raise trouble("say it once at least", "times")


@block_kind("echo", {"said": needed(TEXT), "times": needed(NUMBER)}, check=_check)
def echo(page, block):
    """The text, a row each time."""
    for _ in range(int(block["times"])):
        page.line(page.filled(block["said"]), "text")
'''

TEMPLATE = """
title = "A trial"

[[sheet]]
name = "Only"

[[sheet.block]]
kind = "echo"
heading = "Thrice"
said = "{car} says so"
times = 3

[[sheet.block]]
kind = "title"
text = "below"
"""


@pytest.fixture(scope="module")
def new(tmp_path_factory):
    """The command `new`, of a copy of the package with one file more: the kind 'echo'."""
    there = tmp_path_factory.mktemp("copy")
    ignored = shutil.ignore_patterns("__pycache__")
    shutil.copytree(ROOT / "addin" / "cornerbook", there / "cornerbook", ignore=ignored)
    shutil.copytree(ROOT / "workbooks", there / "cornerbook" / "workbooks")
    (there / "cornerbook/book/make/kinds/echo.py").write_text(TRIAL, encoding="utf-8")

    def run(template):
        path, made = there / "mine.toml", there / "mine.xlsx"
        path.write_text(template, encoding="utf-8")
        done = subprocess.run(
            [sys.executable, "-m", "cornerbook", "new", str(made), "--template", str(path),
             "--force"],
            cwd=there, env={**os.environ, "PYTHONPATH": str(there)}, capture_output=True, text=True,
        )  # fmt: skip
        return done.stderr, made

    return run


def test_a_new_kind_needs_one_file(new):
    said, made = new(TEMPLATE)
    assert said == ""
    sheet = looked_into(made)["Only"]
    column = [sheet.cell(row, 1).value for row in range(1, 7)]
    assert column == ["Thrice", *["Lapwing says so"] * 3, None, "below"]


@pytest.mark.parametrize(
    ("old", "new_text", "words"),
    [
        ("times = 3", "time = 3", 'line 11: the key "time" is not known'),
        ("times = 3", 'times = "3"', "a number was expected"),
        ('said = "{car} says so"', "", 'the key "said" is missing in a block of kind "echo"'),
        ("times = 3", "times = 0", "line 11: say it once at least"),
        ('kind = "echo"', 'kind = "ecko"', 'did you mean "echo"?'),
    ],
)
def test_its_declaration_checks_templates(new, old, new_text, words):
    assert old in TEMPLATE
    said, _ = new(TEMPLATE.replace(old, new_text))
    assert words in said
    assert "Traceback" not in said


def test_the_kind_is_not_known_without_its_file():
    assert "echo" not in KINDS


def test_a_kind_is_declared_once():
    with pytest.raises(ValueError, match="twice"):
        block_kind("title", {"text": TEXT})(lambda page, block: None)


class Read(dict):
    """A block that keeps which of its keys were asked for."""

    def __init__(self, content, asked):
        super().__init__(content)
        self.asked = asked

    def __getitem__(self, key):
        self.asked.add(key)
        return super().__getitem__(key)

    def get(self, key, default=None):
        self.asked.add(key)
        return super().get(key, default)

    def __contains__(self, key):
        self.asked.add(key)
        return super().__contains__(key)


def test_what_is_declared_is_what_is_read():
    """Over our templates, which have blocks of every kind: no key more, and no key less."""
    asked = defaultdict(set)
    for name in ("car",):
        template = Template(find("templates", name))
        for sheet in (sheet for part in template.parts for sheet in part.sheets):
            sheet["block"] = [Read(block, asked[block["kind"]]) for block in sheet["block"]]
        build(template, Scenario(find("scenarios", "lapwing")), pictures=workbooks() / "pictures")
    assert {name: keys | set(ANY_BLOCK) for name, keys in asked.items()} == {
        name: set(kind.fields) for name, kind in KINDS.items()
    }


def test_each_kind_says_what_it_is():
    for kind in KINDS.values():
        assert kind.place.__doc__, kind.name
