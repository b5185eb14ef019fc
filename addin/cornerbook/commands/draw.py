"""`cornerbook draw`: draw the corner or the axle of a workbook as a picture."""

from ..book.file.trouble import Trouble
from .numbers import number


def add(commands):
    """Add the command to the parser's."""
    draw = commands.add_parser(
        "draw", help="draw the corner or the axle of a workbook as a picture, PNG or SVG"
    )
    draw.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    draw.add_argument("picture", metavar="OUT.png|OUT.svg", help="the picture to make")
    draw.add_argument(
        "--view", choices=("front", "side", "plan", "all"), default="all",
        help="which view; all three to one scale if left out",
    )  # fmt: skip
    draw.add_argument("--block", default="Front", help="name of the corner's block (Front)")
    draw.add_argument(
        "--travel", type=number, default=0.0, help="how far the wheels have risen (0)"
    )
    draw.add_argument(
        "--rack", type=number, default=0.0, help="how far the rack has moved to the left (0)"
    )
    draw.add_argument(
        "--roll", type=number, default=0.0,
        help="roll of the body in degrees, left side up positive, with the wheels on the road (0)",
    )  # fmt: skip
    draw.add_argument(
        "--case", metavar="NAME",
        help="the forces of this load case of the sheet Loads, at its travel and rack: pull and "
        "push in two colours, thicker for more",
    )  # fmt: skip
    draw.add_argument("--axle", action="store_true", help="both wheels, not the left one alone")
    draw.add_argument("--force", action="store_true", help="replace the picture if it exists")
    draw.set_defaults(run=_draw)


def _draw(options):
    from ..book.file.save import hold_free, hold_other, save
    from ..book.picture.drawing import draw
    from ..book.picture.scene import Picture, read_corner

    kind = options.picture.lower()[-4:]
    if kind not in (".png", ".svg"):
        raise Trouble(f"{options.picture}: a name that ends in .png or .svg was expected")
    hold_other(options.file, options.picture)
    hold_free(options.picture, options.force)
    corner = read_corner(options.file, options.block)
    if options.case is None:
        picture = Picture(
            corner, options.travel, options.rack, options.roll, options.axle, options.block
        )
    else:
        picture = _loaded(options, corner)
    save(options.picture, draw(picture, options.view, kind[1:]), options.force)
    return f"{options.picture} is drawn."


def _loaded(options, corner):
    """The picture of a corner under a load case of the workbook."""
    from ..book.file.package import Package
    from ..book.formula.load_cases import case_named, cases_of
    from ..book.formula.values import Values
    from ..book.picture.forces import Forces
    from ..book.picture.scene import Picture

    if options.axle or options.travel or options.rack or options.roll:
        raise Trouble(
            "--case draws the left-hand corner at the travel and rack of the case; leave out "
            "--axle, --travel, --rack and --roll"
        )
    package = Package.read(options.file)
    case = case_named(cases_of(package, Values(package)), options.case)
    picture = Picture(corner, case.travel, case.rack, name=options.block)
    picture.forces = Forces(corner, case)
    return picture
