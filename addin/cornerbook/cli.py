"""The command `cornerbook`."""

import argparse
import contextlib
import functools
import os
import sys
import traceback
from pathlib import Path

from . import __version__
from .book.file.trouble import Trouble
from .commands import (
    adopt,
    calc,
    chapters,
    convert,
    draw,
    excel,
    exchange,
    loads,
    new,
    renew,
    scenario,
    share,
    solve,
    survey,
    take,
    tolerance,
)
from .commands.show import NotShown, show

COMMANDS = (
    new, chapters, scenario, renew, share, take, convert, tolerance, solve, survey, adopt, exchange,
    loads, draw, calc, excel,
)  # fmt: skip
"""The modules of the commands, in the order in which the help lists them."""


def main(arguments=None):
    """Run the command; returns the exit status.

    0: done. 1: not done, and what is to be mended is said in one sentence on standard error.
    2: asked wrongly. 130: stopped by the user, who finds all files as they were.
    """
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            # A terminal that cannot show a letter shows its code instead.
            stream.reconfigure(errors="backslashreplace")
    is_done = False
    try:
        options = _parser().parse_args(arguments)
        said = options.run(options)
        is_done = True
        show(said)
    except Trouble as trouble:
        return _not_done(_in_a_line(str(trouble), arguments or sys.argv[1:]))
    except KeyboardInterrupt:
        _not_done("stopped")
        return 130
    except NotShown as error:
        _give_up(sys.stdout)
        if error.is_closed:
            return 1
        return _not_done(
            f"{'done, and what was to be said is lost' if is_done else 'stopped'}: standard output "
            f"takes no more ({error})"
        )
    except SystemExit:
        # The parser has shown its help, or what was asked wrongly.
        _flushed(sys.stdout)
        raise
    except Exception as error:  # a mistake of ours: one line, with what a report needs
        place = traceback.extract_tb(error.__traceback__)[-1]
        return _not_done(
            f"failed inside: {type(error).__name__}: {error} "
            f"({Path(place.filename).name}, line {place.lineno}); please report it"
        )
    return 0


def _in_a_line(sentence, arguments):
    """A sentence in which names that the user gave have no line breaks, nor other such marks."""
    for argument in arguments:
        if not argument.isprintable() and argument.strip():
            shown = "".join(c if c.isprintable() else repr(c)[1:-1] for c in argument)
            sentence = sentence.replace(argument, shown)
    return sentence


def _not_done(sentence):
    try:
        print(f"cornerbook: {sentence}", file=sys.stderr, flush=True)
    except (OSError, ValueError):
        _give_up(sys.stderr)  # nobody is there to be told
    return 1


def _flushed(stream):
    try:
        if stream is not None:
            stream.flush()
    except (OSError, ValueError):
        _give_up(stream)


def _give_up(stream):
    """Let what a stream still holds go nowhere; Python would complain of it on its way out."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


@functools.cache
def _parser():
    """The parser, made once: it takes as long as many a command."""
    parser = argparse.ArgumentParser(
        prog="cornerbook",
        description="Spreadsheet formulas for the steering and suspension of a small "
        "home-built car, and the workbook that uses them.",
    )
    parser.add_argument("--version", action="version", version="cornerbook " + __version__)
    commands = parser.add_subparsers(metavar="COMMAND", required=True)
    for command in COMMANDS:
        command.add(commands)
    return parser


if __name__ == "__main__":
    sys.exit(main())
