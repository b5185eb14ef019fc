"""`cornerbook adopt`: make a variant, or what the sheet Placing gives, the points."""

from .files import copied
from .numbers import whole


def add(commands):
    """Add the command to the parser's."""
    adopt = commands.add_parser(
        "adopt",
        help="make a copy of a workbook whose points are those of a variant or of Placing",
        description="Variant-A, Variant-B and so on: the points of that variant of the sheet "
        "What-if. placing: what the sheet Placing gives, step by step in its order: the steering "
        "axis, all four pickups, the tie rod's outer end, its inner end for the least change of "
        "toe over the travel; each step with the points of those before. Only points change.",
    )
    adopt.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    adopt.add_argument("what", metavar="Variant-B|placing", help="what becomes the points")
    adopt.add_argument(
        "--out", dest="copy", metavar="FILE.xlsx", required=True, help="the copy to make"
    )
    adopt.add_argument(
        "--block", default="Front", metavar="NAME", help="the block of the points (Front)"
    )
    adopt.add_argument(
        "--rounds", type=whole, default=1, metavar="N",
        help="how many times all steps of Placing are gone through (1); a later step takes back "
        "a little of an earlier one",
    )  # fmt: skip
    adopt.add_argument("--force", action="store_true", help="replace the copy if it exists")
    adopt.set_defaults(run=_adopt)


def _adopt(options):
    from ..book.points.adopt.run import adopt
    from ..book.points.adopt.story import lines_of

    def make():
        done = adopt(options.file, options.what, options.block, options.rounds)
        return done.content, lines_of(done)

    return f"\n{copied(options, make)} is made."
