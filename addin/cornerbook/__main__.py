"""The command `cornerbook`, which is also `python -m cornerbook`; stopped in a line from the start.

What the command imports takes long enough to be interrupted in, so nothing is imported here before
an interrupt is looked for.
"""

import sys


def main():
    """Run the command; returns the exit status, as `cli.main` has it."""
    try:
        from .cli import main as command

        return command()
    except KeyboardInterrupt:
        print("cornerbook: stopped", file=sys.stderr)
        return 130


if __name__ == "__main__":
    sys.exit(main())
