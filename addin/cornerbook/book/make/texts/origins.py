"""Where numbers came from that a builder did not give: what sheets say, and a scenario's table.

    [at_first]
    "In proportion to the front track." = ["car.rear_track", "driver.shoulder_width"]

What was so at first stays true, whatever is typed over a number afterwards.
"""

import textwrap

from .text_files import kind_name, text_wrong
from .toml_text import quoted_text, value_text

TABLE = "at_first"
"""The table's name."""

_BEFORE = "At first: "
_WIDTH = 100


def shown(sentence):
    """A sentence such as "In proportion to the front track." as a sheet says it."""
    return f"{_BEFORE}{sentence[:1].lower()}{sentence[1:]}" if sentence else ""


def of_shown(text):
    """The sentence again, of a text that ends with it; sheets of former times say it as it is."""
    said = text.rpartition(_BEFORE)[2]
    return said[:1].upper() + said[1:]


def text_of(sources):
    """Lines of a scenario's table of sentences, {key with dots: sentence}; none without any."""
    keys: dict = {}
    for key, sentence in sources.items():
        keys.setdefault(sentence, []).append(quoted_text(key))
    lines = ["", f"[{TABLE}]"] if keys else []
    for sentence, named in keys.items():
        lines.append(f"{value_text(sentence)} = [")
        lines += textwrap.wrap(_unbroken(named), _WIDTH, break_long_words=False,
                               break_on_hyphens=False,
                               initial_indent="  ", subsequent_indent="  ")  # fmt: skip
        lines.append("]")
    return [line.replace(_BLANK, " ") for line in lines]


_BLANK = "\ue000"
"""Stands for a blank at which no line may end."""


def _unbroken(named):
    return ", ".join(key.replace(" ", _BLANK) for key in named)


def read(table):
    """({key with dots: sentence} of such a table, [(what is wrong, *its path)])."""
    if not isinstance(table, dict):
        return {}, [(f"{TABLE} is {kind_name(table)}; a table was expected", TABLE)]
    found, wrong = {}, []
    for sentence, keys in table.items():
        is_list = isinstance(keys, list) and all(isinstance(key, str) for key in keys)
        said = text_wrong(sentence)
        if not is_list:
            wrong.append((f"{TABLE}: a list of keys was expected, as texts", TABLE, sentence))
        elif said is not None:
            wrong.append((f"{TABLE}: the text {said}", TABLE, sentence))
        else:
            found.update(dict.fromkeys(keys, sentence))
    return found, wrong
