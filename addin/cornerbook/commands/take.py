"""`cornerbook take`: what was edited in a shared copy, typed into the workbook."""

from .files import copied
from .show import show


def add(commands):
    """Add the command to the parser's."""
    take = commands.add_parser(
        "take",
        help="make a copy of a workbook with what was edited in a shared copy of it",
        description="Every yellow cell that holds something else than when share made the copy is "
        "typed into the workbook. What was changed there as well since then stays as it is there, "
        "and is named.",
    )
    take.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    take.add_argument("edited", metavar="SHARED.xlsx", help="the shared copy, edited; only read")
    take.add_argument(
        "--out", dest="copy", metavar="FILE.xlsx", required=True, help="the workbook to make"
    )
    take.add_argument("--force", action="store_true", help="replace the file if it exists")
    take.set_defaults(run=_take)


def _take(options):
    from ..book.file.package import Package
    from ..book.file.save import hold_other
    from ..book.plain.edits import edits_of
    from ..book.study.take import take

    hold_other(options.edited, options.copy)

    def make():
        shared = Package.read(options.edited)
        edits, messages = edits_of(shared)
        for message in messages:
            show(message)
        return take(options.file, shared, edits)

    return f"\n{copied(options, make)} is made."
