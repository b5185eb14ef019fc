"""What the Calc driver raises."""


class CalcError(Exception):
    """Calc did not do what was asked; the text says what happened."""


class CalcMissing(CalcError):
    """LibreOffice, or its connection to Python, is not on this machine."""
