"""A test of many values fails with every value for which it does, and for nothing else."""

import pytest

from tests.support.each import each


@pytest.fixture
def limit():
    return 3


@each("number", [1, 2])
def test_all_values_are_looked_at(number, limit):
    assert number < limit


def test_every_failure_is_told():
    seen = []

    @each("number", range(5))
    def hold(number):
        seen.append(number)
        assert number not in (1, 3), "odd"

    with pytest.raises(pytest.fail.Exception, match=r"(?s)2 of 5 fail\n1: .*odd.*\n3: .*odd"):
        hold()
    assert seen == [0, 1, 2, 3, 4]


def test_a_test_of_nothing_is_none():
    with pytest.raises(AssertionError, match="nothing"):
        each("number", [])
