"""Names of cells: B7 for a row and a column that count from zero."""


def column_letters(column):
    """The letters of a column: 0 is A."""
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def column_number(letters):
    """The number of a column: A is 0."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number - 1


def cell_name(row, column, fixed=False):
    """A cell's address, such as B7 or $B$7."""
    mark = "$" if fixed else ""
    return f"{mark}{column_letters(column)}{mark}{row + 1}"
