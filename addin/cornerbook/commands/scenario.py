"""`cornerbook scenario`: what is typed in a workbook, as a scenario."""


def add(commands):
    """Add the command to the parser's."""
    scenario = commands.add_parser(
        "scenario",
        help="write the yellow cells of a workbook as a scenario, a text file",
        description="cornerbook new --scenario makes the same workbook of it again, with --unit "
        "in for one in inches and the same --chapters for one with fewer.",
    )
    scenario.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    scenario.add_argument("text", metavar="CAR.toml", help="the scenario to write")
    scenario.add_argument(
        "--template", default="car",
        help="the template it was made from: a name or a .toml file (car)",
    )  # fmt: skip
    scenario.add_argument("--force", action="store_true", help="replace the text if it exists")
    scenario.set_defaults(run=_scenario)


def _scenario(options):
    from ..book.file.save import hold_ending, save
    from ..book.study.typed.run import scenario_of

    hold_ending(options.text, ".toml")
    made = scenario_of(options.file, options.text, options.template)
    save(options.text, made.text.encode("utf-8"), options.force)
    done = f"{options.text} is made, with lengths in {made.taken.unit}."
    return "\n".join([*made.messages, done])
