"""`cornerbook new`: make a workbook from a template and a scenario, or from few numbers."""

from pathlib import Path

_HELP = {
    "--wheelbase": "front axle line to rear axle line",
    "--front-track": "between the front contact centres",
    "--rear-track": "between the rear contact centres",
    "--tyre-radius": "loaded radius, wheel centre to ground",
}


def add(commands):
    """Add the command to the parser's."""
    from ..book.formula.targets import TARGETS
    from ..book.make.texts.units import SYSTEMS

    new = commands.add_parser(
        "new",
        help="make a workbook from a template and a scenario, or from few numbers",
        description="What a scenario leaves out is taken in proportion from the demonstration's, "
        "then the points of the front corner are solved for what is wanted.",
    )
    new.add_argument("file", metavar="FILE.xlsx", help="the workbook to make")
    new.add_argument("--template", default="car", help="a template's name or a .toml file (car)")
    new.add_argument(
        "--scenario", help="a scenario's name or a .toml file (lapwing, unless a length is given)"
    )
    new.add_argument(
        "--chapters", metavar="A,B",
        help="fewer chapters, and what they need; cornerbook chapters lists them (all)",
    )  # fmt: skip
    new.add_argument("--unit", choices=SYSTEMS, default="mm", help="unit of length (mm)")
    for option, help_ in _HELP.items():
        new.add_argument(option, metavar="LENGTH", help=f"{help_}, in the unit of length")
    new.add_argument(
        "--for", dest="target", choices=TARGETS, default="calc",
        help="the spreadsheet program that it is for (calc)",
    )  # fmt: skip
    new.add_argument("--force", action="store_true", help="replace the file if it exists")
    new.set_defaults(run=_new)


def _new(options):
    from ..book.file.save import hold_ending, hold_free, save
    from ..book.make.new import made
    from ..book.study.begin.options import given_by
    from ..book.study.begin.run import begin

    hold_ending(options.file, ".xlsx")
    asked = {option: getattr(options, option[2:].replace("-", "_")) for option in _HELP}
    given = given_by(asked, options.unit, Path(options.file).stem)
    scenario = options.scenario or (None if given else "lapwing")
    chapters = options.chapters and [name.strip() for name in options.chapters.split(",")]
    done = made(
        options.template, scenario, options.unit, options.target, begin, given, chapters,
        ready=lambda: hold_free(options.file, options.force),
    )  # fmt: skip
    save(options.file, done.content, options.force)
    lines = [f"{options.file} is made. Change a yellow cell and look at what moves."]
    lines += [f"Note: {note}." for note in done.notes]
    if done.story is not None:
        lines += done.story.report(done.shows, done.looks)
    return "\n".join(lines)
