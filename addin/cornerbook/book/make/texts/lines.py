"""Where each key of a TOML file stands.

The library that reads TOML gives values without their places. This reads a text that it has
accepted, so nothing here judges what is right.
"""

import re

_SPACE = re.compile(r"[ \t]*")
_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_KEY = re.compile(r'"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|[\w-]+')
_STRING = re.compile(
    r'"""(?:[^\\]|\\.)*?"""(?:"{0,2}(?!"))|\'\'\'.*?\'\'\'(?:\'{0,2}(?!\'))'
    r'|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'',
    re.DOTALL,
)
# A date may be parted from its time by a space.
_PLAIN = re.compile(r"[^\s,\]}#]+(?: \d\d:[^\s,\]}#]+)?")


class Lines:
    """The lines of a TOML text by path.

    A path is a tuple of keys and of numbers from zero for the items of a list: ("sheet", 0,
    "block", 2, "rows", 5, "label").
    """

    def __init__(self, text, unquoted):
        """unquoted: a function from a key in quotation marks to the key."""
        self.text = text
        self.count = text.rstrip("\n").count("\n") + 1
        self._unquoted = unquoted
        self._starts = {(): 1}
        self._headers = []
        self._tables = {}
        self._at = 0
        self._line = 1
        self._read()

    def of(self, path):
        """The line of a path; where there is none, that of the nearest one around it."""
        path = tuple(path)
        while path not in self._starts:
            path = path[:-1]
        return self._starts[path]

    def span(self, path):
        """(first, last) line of a table that begins with a line in brackets."""
        first = self.of(path)
        for line, other in self._headers:
            if line > first and other[: len(path)] != tuple(path):
                return first, line - 1
        return first, self.count

    # ---------------------------------------------------------------- reading

    def _read(self):
        base = ()
        self._skip(_BLANK)
        while self._at < len(self.text):
            if self.text.startswith("[[", self._at):
                base = self._header(2)
            elif self.text.startswith("[", self._at):
                base = self._header(1)
            else:
                self._pair(base)
            self._skip(_BLANK)

    def _skip(self, what):
        """Pass over what stands here; gives its text."""
        found = what.match(self.text, self._at)
        said = found.group() if found else self.text[self._at : self._at + 1]
        self._at += len(said)
        self._line += said.count("\n")
        return said

    def _keys(self):
        """The parts of a key with dots."""
        keys = []
        while True:
            self._skip(_SPACE)
            key = self._skip(_KEY)
            keys.append(self._unquoted(key) if key[:1] in "\"'" else key)
            self._skip(_SPACE)
            if not self.text.startswith(".", self._at):
                return keys
            self._at += 1

    def _header(self, brackets):
        line = self._line
        self._at += brackets
        keys = self._keys()
        self._at += brackets
        path = ()
        for key in keys[:-1]:
            path = self._newest((*path, key))
        path = (*path, keys[-1])
        if brackets == 2:
            self._starts.setdefault(path, line)
            number = self._tables.get(path, -1) + 1
            self._tables[path] = number
            path = (*path, number)
        self._note(path, line)
        self._headers.append((line, path))
        return path

    def _newest(self, path):
        """The path of a table, or of the last one so far of an array of tables."""
        return (*path, self._tables[path]) if path in self._tables else path

    def _note(self, path, line):
        # A table may be opened by a key within it: its line is the first that speaks of it.
        for end in range(1, len(path) + 1):
            self._starts.setdefault(path[:end], line)

    def _pair(self, base):
        line = self._line
        path = (*base, *self._keys())
        self._note(path, line)
        self._at += 1  # the sign of equality
        self._value(path)

    def _value(self, path):
        self._skip(_SPACE)
        first = self.text[self._at : self._at + 1]
        if first == "[":
            self._items(path)
        elif first == "{":
            self._at += 1
            self._skip(_BLANK)
            while self._at < len(self.text) and self.text[self._at] != "}":
                self._pair(path)
                self._comma()
            self._at += 1
        else:
            self._skip(_STRING if first in ("'", '"') else _PLAIN)

    def _items(self, path):
        self._at += 1
        self._skip(_BLANK)
        number = 0
        while self._at < len(self.text) and self.text[self._at] != "]":
            self._note((*path, number), self._line)
            self._value((*path, number))
            self._comma()
            number += 1
        self._at += 1

    def _comma(self):
        self._skip(_BLANK)
        if self.text.startswith(",", self._at):
            self._at += 1
        self._skip(_BLANK)
