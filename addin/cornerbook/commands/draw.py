"""`cornerbook draw`: draw the corner or the axle of a workbook as a picture."""

from ..book.file.trouble import Trouble
from .numbers import number


def add(commands):
    """Add the command to the parser's."""
    draw = commands.add_parser(
        "draw", help="draw the corner or the axle of a workbook: a picture, or a sheet to print"
    )
    draw.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    draw.add_argument("picture", metavar="OUT.png|OUT.svg|OUT.pdf", help="the picture to make")
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
    draw.add_argument(
        "--sheet", choices=("A3", "A4"),
        help="a drawing sheet of that size to print: three views as drawn, to a scale that it "
        "names, with numbered points and dimensions from the datum",
    )  # fmt: skip
    draw.add_argument(
        "--datum", nargs=3, type=number, metavar=("X", "Y", "Z"),
        help="where the dimensions of a sheet run from (0 0 0)",
    )  # fmt: skip
    draw.add_argument(
        "--unit", choices=("mm", "cm", "m", "in"),
        help="the workbook's unit of length, for a sheet's scale, if the workbook does not say",
    )  # fmt: skip
    draw.add_argument("--axle", action="store_true", help="both wheels, not the left one alone")
    draw.add_argument("--force", action="store_true", help="replace the picture if it exists")
    draw.set_defaults(run=_draw)


def _draw(options):
    from ..book.file.save import hold_free, hold_other, save
    from ..book.picture.drawing import KINDS, draw
    from ..book.picture.scene import Picture, read_corner

    kind = options.picture.lower()[-3:]
    if kind not in KINDS or options.picture[-4:-3] != ".":
        raise Trouble(f"{options.picture}: a name that ends in .png, .svg or .pdf was expected")
    hold_other(options.file, options.picture)
    corner = read_corner(options.file, options.block)
    if options.sheet is not None:
        save(options.picture, _sheet(options, corner, kind), options.force)
        return f"{options.picture} is drawn; print it at 100 %, not fitted to the page."
    if options.datum is not None:
        raise Trouble("--datum is for --sheet, which has dimensions")
    if options.case is None:
        picture = Picture(
            corner, options.travel, options.rack, options.roll, options.axle, options.block
        )
    else:
        picture = _loaded(options, corner)
    hold_free(options.picture, options.force)
    save(options.picture, draw(picture, options.view, kind), options.force)
    return f"{options.picture} is drawn."


def _sheet(options, corner, kind):
    """The drawing sheet of a corner as drawn."""
    from ..book.file.package import Package
    from ..book.file.save import hold_free
    from ..book.picture.drawing import draw_sheet
    from ..book.picture.scene import Picture
    from ..book.points.block import PointBlock
    from ..book.points.row import MM

    if options.case or options.travel or options.rack or options.roll or options.view != "all":
        raise Trouble(
            "--sheet draws all views of the car as drawn; leave out --view, --travel, --rack, "
            "--roll and --case"
        )
    unit = PointBlock(Package.read(options.file), options.block, options.unit).unit
    if unit not in MM:
        raise Trouble("the workbook does not say its unit of length; give --unit")
    picture = Picture(corner, both=options.axle, name=options.block)
    datum = tuple(options.datum or (0.0, 0.0, 0.0))
    hold_free(options.picture, options.force)
    return draw_sheet(picture, options.sheet, kind, MM[unit], datum)


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
