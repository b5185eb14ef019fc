"""The command `cornerbook`, which is also `python -m cornerbook`; stopped in a line from the start.

What the command imports takes long enough to be interrupted in, so nothing is imported here before
an interrupt is looked for.
"""

import gc
import sys

# A command makes millions of small things that live until it ends: looked through for circles they
# cost a fifth of the time of `share` (measured) and free nothing. So that is left to a command that
# goes on and on, once it has made some 500 MB of them.
SELDOM = (5_000_000, 10, 10)


def main():
    """Run the command; returns the exit status, as `cli.main` has it."""
    gc.set_threshold(*SELDOM)
    try:
        from .cli import main as command

        return command()
    except KeyboardInterrupt:
        print("cornerbook: stopped", file=sys.stderr)
        return 130
    finally:
        # All goes with the process: Python need not look through it once more as it leaves.
        gc.freeze()


if __name__ == "__main__":
    sys.exit(main())
