"""`cornerbook loads`: the forces on the frame in every load case, as a CSV file."""

from .show import show


def add(commands):
    """Add the command to the parser's."""
    loads = commands.add_parser(
        "loads",
        help="write the forces that the corner puts on the frame in every load case as a CSV file",
        description="Writes a line for each point of the frame in each case of the sheet Loads: "
        "case, point, x, y, z, Fx, Fy, Fz, and Mx, My, Mz of the couple on the rocker's bearing. "
        "Forces under stated assumptions, and no check of strength.",
    )
    loads.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    loads.add_argument("out", metavar="OUT.csv", help="the file to write")
    loads.add_argument(
        "--block", default="Front", metavar="NAME", help="the corner's block (Front)"
    )
    loads.add_argument(
        "--cases", default="LoadCases", metavar="NAME",
        help="the name or address of the rows of cases (LoadCases)",
    )  # fmt: skip
    loads.add_argument(
        "--unit", choices=("mm", "cm", "m", "in"),
        help="the workbook's unit of length, if it does not say",
    )  # fmt: skip
    loads.add_argument("--force", action="store_true", help="replace the file if it exists")
    loads.set_defaults(run=_loads)


def _loads(options):
    from ..book.file.save import hold_ending, hold_free, hold_other, save
    from ..book.points.frame_forces import frame_forces

    hold_ending(options.out, ".csv")
    hold_other(options.file, options.out)
    content, messages = frame_forces(options.file, options.block, options.cases, options.unit)
    hold_free(options.out, options.force)
    save(options.out, content, options.force)
    for message in messages:
        show(message)
    return (
        f"{options.out} is written, from the cases {options.cases} and the block {options.block}."
    )
