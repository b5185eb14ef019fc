"""Templates, chapters and scenarios of a test's own: written, changed, and what `make` says."""

import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.make.new import make


def written(folder, **texts):
    """Write each text to a file of its name (`mine` to mine.toml); returns their paths."""
    paths = [folder / f"{name}.toml" for name in texts]
    for path, text in zip(paths, texts.values(), strict=True):
        path.write_text(text, encoding="utf-8")
    return [str(path) for path in paths]


def stopped(folder, mine, scenario=None, **texts):
    """The sentence that `make` stops with, for the template mine.toml and texts beside it.

    scenario: the text of lapwing.toml; the scenario of that name is taken if it is left out.
    """
    given = written(folder, mine=mine, **({} if scenario is None else {"lapwing": scenario}))
    written(folder, **texts)
    with pytest.raises(Trouble) as problem:
        make(*given)
    return str(problem.value)


def changed(text, old, new):
    """A text with a part of it, which must be there, changed where it stands first."""
    assert old in text
    return text.replace(old, new, 1)


def line_of(text, part):
    """The number of the first line with a part in it."""
    return next(n for n, line in enumerate(text.splitlines(), 1) if part in line)
