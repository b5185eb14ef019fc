"""What is wrong with text files: collected, so that all of it is said at once."""

from ...file.trouble import Trouble

MOST = 20
"""How many mistakes are said at once; of more, how many."""

LONGEST = 900
"""Characters of one mistake's line; a text that somebody pasted may be far longer."""


class PlacedTrouble(Trouble):
    """A `Trouble` of one mistake in a text file, or of several: one line each.

    places: (the file's name, the line or None, the message) of each. A line begins with the
    file, and the line where it is known. They stand by file and line, each once, `MOST` at most.
    files: names of files in the order in which they are to stand; others come after them.
    """

    def __init__(self, places, files=()):
        order = {file: number for number, file in reversed(list(enumerate(files)))}
        self.places = sorted(
            set(places), key=lambda p: (order.get(p[0], len(order)), p[0], p[1] or 0, p[2])
        )
        lines = [_said(*place) for place in self.places[:MOST]]
        if len(self.places) > MOST:
            lines.append(f"and {len(self.places) - MOST} more")
        super().__init__("\n".join(lines))


def hold_all(troubles):
    """Raise one `PlacedTrouble` of several, if there is any."""
    places = [place for trouble in troubles for place in trouble.places]
    if places:
        raise PlacedTrouble(places)


class Mistakes:
    """What was found so far in the files of one workbook.

    files: their names in the order in which they were read. notes: (file, line, message) of what
    is no mistake and yet deserves a word.
    """

    def __init__(self):
        self.files = []
        self.places = []
        self.notes = []

    def __bool__(self):
        return bool(self.places)

    def take(self, trouble):
        """Add those of a `Trouble`; one that names no file stands first, as it is."""
        if isinstance(trouble, PlacedTrouble):
            self.places += trouble.places
        else:
            self.places.append(("", None, str(trouble)))

    def hold(self):
        """Raise a `PlacedTrouble` with all of them, if there is any."""
        if self.places:
            raise PlacedTrouble(self.places, self.files)

    def noted(self):
        """The notes as lines, in the order of files and lines."""
        return [_said(*place) for place in sorted(set(self.notes))]


def _said(file, line, message):
    where = f"{file}, line {line}" if line else file
    said = f"{where}: {message}" if where else message
    # Texts of the user's may hold anything; a mistake is one line all the same.
    plain = "".join(c if c.isprintable() else f"\\x{ord(c):02x}" for c in said)
    return plain if len(plain) <= LONGEST else plain[: LONGEST - 4] + " ..."
