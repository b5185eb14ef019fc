"""What is wrong with an input, in a sentence that says what to mend."""


class Mend(ValueError):
    """An input that a formula cannot work with; the text is for the user's cell."""

    @property
    def sentence(self):
        """The text as a cell shows it: it begins with '#'."""
        return "# " + str(self)


def shown(value):
    """A value in a sentence: numbers short, texts in quotation marks."""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, (int, float)):
        return "%.6g" % value
    return '"%s"' % value
