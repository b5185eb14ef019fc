"""What stops a workbook from being made or read, in a sentence for the user."""


class Trouble(Exception):
    """Something for the user to mend: a file, a line, a key; the text says which."""
