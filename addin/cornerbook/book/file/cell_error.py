"""An error value of a cell, such as #N/A."""


class CellError(Exception):
    """A spreadsheet error, such as #N/A, on its way through a formula."""

    def __init__(self, code):
        super().__init__(code)
        self.code = code
