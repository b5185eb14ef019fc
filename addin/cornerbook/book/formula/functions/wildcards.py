"""Texts with * for any letters and ? for one, as conditions and searches take them."""

import re
from functools import lru_cache


@lru_cache(maxsize=64)
def wildcards(text):
    """The pattern of a text with * and ?; None for one without."""
    parts, is_one, at = [], False, 0
    while at < len(text):
        letter = text[at]
        if letter == "~" and text[at + 1 : at + 2] in ("*", "?", "~"):
            at += 1
            parts.append(re.escape(text[at]))
            is_one = True
        elif letter in "*?":
            parts.append(".*" if letter == "*" else ".")
            is_one = True
        else:
            parts.append(re.escape(letter))
        at += 1
    return re.compile("".join(parts), re.IGNORECASE | re.DOTALL) if is_one else None
