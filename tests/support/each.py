"""A test that runs for each of many values, as one test.

A parametrized test of a few lines costs more to start and to report than to run; over every
formula of the catalogue that is most of the time. One that fails names every value for which it
failed, with what was wrong.
"""

import functools
import inspect

import pytest


def each(argument, values):
    """The test runs for each of the values, given as that argument, and reports all failures."""
    values = list(values)
    assert values, "a test of nothing"

    def over(test):
        @functools.wraps(test)
        def run(*args, **others):
            failed = []
            for value in values:
                try:
                    test(*args, **{argument: value}, **others)
                except (Exception, pytest.fail.Exception) as problem:
                    said = f"{type(problem).__name__}: {problem}"
                    failed.append(f"{getattr(value, 'name', value)}: {said}")
            if failed:
                pytest.fail("\n".join([f"{len(failed)} of {len(values)} fail", *failed]))

        signature = inspect.signature(test)
        kept = [p for name, p in signature.parameters.items() if name != argument]
        run.__signature__ = signature.replace(parameters=kept)
        return run

    return over
