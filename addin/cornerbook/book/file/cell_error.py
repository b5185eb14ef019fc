"""An error value of a cell, such as #N/A."""


class CellError(Exception):
    """A spreadsheet error, such as #N/A, on its way through a formula."""

    def __init__(self, code):
        super().__init__(code)
        self.code = code

    def as_value(self):
        """The error as what a cell comes to: it does not keep what was at work as it was raised."""
        self.__context__ = None
        return self.with_traceback(None)
