"""Keys and values as TOML writes them."""

import re

_BARE = re.compile(r"[A-Za-z0-9_-]+")


def key_text(name):
    """A name as a key: quoted unless it may stand bare."""
    return name if _BARE.fullmatch(name) else quoted_text(name)


def value_text(value):
    """A number, a text, a list or a table of such on one line. Whole numbers have no point."""
    if isinstance(value, str):
        return quoted_text(value)
    if isinstance(value, dict):
        inside = ", ".join(f"{key_text(name)} = {value_text(v)}" for name, v in value.items())
        return "{ %s }" % inside if inside else "{}"
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(map(value_text, value))}]"
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return str(int(value))
    return repr(value)


def rows_text(rows):
    """A list of rows, a line each."""
    return "[\n%s]" % "".join(f"  {value_text(row)},\n" for row in rows)


def quoted_text(text):
    """A text in quotation marks; what cannot be shown stands by its number."""
    return '"%s"' % "".join(map(_letter, text))


def _letter(letter):
    if letter in '\\"':
        return "\\" + letter
    if letter.isprintable():
        return letter
    code = ord(letter)
    return "\\u%04X" % code if code < 0x10000 else "\\U%08X" % code
