"""`cornerbook share`: make a copy that is live with no add-in."""

from .files import copied


def add(commands):
    """Add the command to the parser's."""
    share = commands.add_parser(
        "share", help="make a copy that is live in any spreadsheet program, with no add-in"
    )
    share.add_argument("file", metavar="IN.xlsx", help="the workbook, which is only read")
    share.add_argument("copy", metavar="OUT.xlsx", help="the copy to make")
    share.add_argument(
        "--values", action="store_true", help="numbers only: a frozen copy, with no formulas"
    )
    share.add_argument("--force", action="store_true", help="replace the copy if it exists")
    share.set_defaults(run=_share)


def _share(options):
    from ..book.plain.share import share

    copy = copied(options, lambda: share(options.file, options.values), slow=True)
    kind = "frozen: numbers only" if options.values else "live in any spreadsheet program"
    return f"{copy} is made, {kind}."
