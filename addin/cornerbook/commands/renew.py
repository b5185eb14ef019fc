"""`cornerbook renew`: a workbook made anew by this version, with all that was typed in it."""


def add(commands):
    """Add the command to the parser's."""
    renew = commands.add_parser(
        "renew",
        help="make a workbook anew with this version: what was typed, and sheets of your own",
        description="Every yellow cell is carried over by its name, or by the words of its row; "
        "sheets that you made are copied with their formulas, looks, charts and names. What found "
        "no place is listed. Workbooks of the former templates starter and design are known.",
    )
    renew.add_argument("file", metavar="OLD.xlsx", help="the workbook, which is only read")
    renew.add_argument(
        "--out", dest="copy", metavar="NEW.xlsx", required=True, help="the workbook to make"
    )
    renew.add_argument(
        "--template", default="car",
        help="the template it was made from: a name or a .toml file (car)",
    )  # fmt: skip
    renew.add_argument(
        "--chapters", metavar="A,B",
        help="fewer chapters, and what they need; cornerbook chapters lists them (all)",
    )  # fmt: skip
    renew.add_argument("--force", action="store_true", help="replace the new one if it exists")
    renew.set_defaults(run=_renew)


def _renew(options):
    from ..book.file.save import hold_free
    from ..book.study.renew.run import renew
    from .files import copied

    chapters = options.chapters and [name.strip() for name in options.chapters.split(",")]

    def make():
        done = renew(
            options.file, options.template, chapters,
            ready=lambda: hold_free(options.copy, options.force),
        )  # fmt: skip
        return done.content, done.messages

    return f"{copied(options, make)} is made."
