"""Names of rows as they are compared: case, spaces, hyphens and a unit in brackets do not count."""

import random
import re

import pytest
from cornerbook.cells.block import key_of

PLAIN = re.compile(r"\(.*?\)|[\s\-_.:]+")
"""The same in one expression, which takes the square of the length for brackets left open."""


def test_any_label_against_one_expression():
    chance = random.Random(5)
    for _ in range(20_000):
        label = "".join(chance.choice("aB() -_.:") for _ in range(chance.randrange(14)))
        assert key_of(label) == PLAIN.sub("", label.lower()), label


@pytest.mark.parametrize("label", ["(" * 300_000, ")" + "(" * 300_000, "(" * 300_000 + ")"])
def test_brackets_left_open_are_sought_once(label):
    """With a search for each, this would take hours."""
    assert key_of("Tyre radius" + label) in ("tyreradius" + label, "tyreradius")
