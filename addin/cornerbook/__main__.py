"""The command `cornerbook`, which is also `python -m cornerbook`; stopped in a line from the start.

What the command imports takes long enough to be interrupted in, so nothing is imported here before
an interrupt is looked for.
"""

import gc
import sys

# A command makes millions of small things that live until it ends: looked through for circles at
# Python's own pace, they cost a fifth of the time of `share` (measured) and free nothing.
SELDOM = (50_000, 10, 10)


def main():
    """Run the command; returns the exit status, as `cli.main` has it."""
    gc.set_threshold(*SELDOM)
    try:
        from .cli import main as command

        return command()
    except KeyboardInterrupt:
        print("cornerbook: stopped", file=sys.stderr)
        return 130


if __name__ == "__main__":
    sys.exit(main())
