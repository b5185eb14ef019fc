"""`cornerbook new`: make a workbook from a template and a scenario."""


def add(commands):
    """Add the command to the parser's."""
    from ..book.formula.targets import TARGETS
    from ..book.make.units import SYSTEMS

    new = commands.add_parser("new", help="make a workbook from a template and a scenario")
    new.add_argument("file", metavar="FILE.xlsx", help="the workbook to make")
    new.add_argument("--template", default="car", help="a template's name or a .toml file (car)")
    new.add_argument(
        "--scenario", default="lapwing", help="a scenario's name or a .toml file (lapwing)"
    )
    new.add_argument(
        "--chapters", metavar="A,B",
        help="fewer chapters, and what they need; cornerbook chapters lists them (all)",
    )  # fmt: skip
    new.add_argument("--unit", choices=SYSTEMS, default="mm", help="unit of length (mm)")
    new.add_argument(
        "--for", dest="target", choices=TARGETS, default="calc",
        help="the spreadsheet program that it is for (calc)",
    )  # fmt: skip
    new.add_argument("--force", action="store_true", help="replace the file if it exists")
    new.set_defaults(run=_new)


def _new(options):
    from ..book.file.save import hold_ending, hold_free, save
    from ..book.make.new import make

    hold_ending(options.file, ".xlsx")
    hold_free(options.file, options.force)
    notes: list = []
    chapters = options.chapters and [name.strip() for name in options.chapters.split(",")]
    content = make(
        options.template, options.scenario, options.unit, options.target, notes, chapters
    )
    save(options.file, content, options.force)
    made = f"{options.file} is made. Change a yellow cell and look at what moves."
    return "\n".join([made, *(f"Note: {note}." for note in notes)])
