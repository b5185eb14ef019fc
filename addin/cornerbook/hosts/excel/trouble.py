"""What stops a macro workbook from being made."""


class InstallError(Exception):
    """The macro workbook could not be made; the text says what to mend."""
