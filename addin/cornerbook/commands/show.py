"""What a command says on standard output, and what becomes of it where that takes no more."""


class NotShown(Exception):
    """Standard output takes no more. is_closed: whoever read it, such as `head`, has gone."""

    def __init__(self, error):
        super().__init__(getattr(error, "strerror", None) or str(error))
        self.is_closed = isinstance(error, BrokenPipeError)


def show(text):
    """Print a text at once; raises `NotShown`."""
    try:
        print(text, flush=True)
    except (OSError, ValueError) as error:
        raise NotShown(error) from error
