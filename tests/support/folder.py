"""A test's own folder as the one where a command runs."""

import contextlib
import os


@contextlib.contextmanager
def in_folder(folder):
    """Within it, paths start from that folder."""
    before = os.getcwd()
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(before)
