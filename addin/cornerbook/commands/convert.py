"""`cornerbook convert`: make a copy spelled for another program."""

from .files import copied


def add(commands):
    """Add the command to the parser's."""
    from ..book.formula.targets import TARGETS

    convert = commands.add_parser(
        "convert", help="make a copy with the formulas spelled for another program"
    )
    convert.add_argument("file", metavar="IN.xlsx", help="the workbook, which is only read")
    convert.add_argument("copy", metavar="OUT.xlsx", help="the copy to make")
    convert.add_argument(
        "--for", dest="target", choices=TARGETS, required=True,
        help="the spreadsheet program that the copy is for",
    )  # fmt: skip
    convert.add_argument("--force", action="store_true", help="replace the copy if it exists")
    convert.set_defaults(run=_convert)


def _convert(options):
    from ..book.formula.convert import convert

    content = copied(options, lambda: convert(options.file, options.target))
    return f"{content} is made for {options.target}."
