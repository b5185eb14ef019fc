"""`cornerbook tolerance`: spread the points and count the cars within their bands."""

from .files import beside
from .numbers import length, whole


def add(commands):
    """Add the command to the parser's."""
    tolerance = commands.add_parser(
        "tolerance",
        help="spread the points of a workbook's corners and count the cars within their bands",
        description="Works out every named result of the workbook for many cars whose points "
        "are a little off, and writes a new workbook with what became of them. By the normal "
        "law a tolerance is 3 standard deviations, by the uniform one the end of the range.",
    )
    tolerance.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    how_far = tolerance.add_mutually_exclusive_group()
    how_far.add_argument(
        "--within", type=length, metavar="LENGTH",
        help="how far each coordinate of each point may be off, in the workbook's unit "
        "(about 1 mm)",
    )  # fmt: skip
    how_far.add_argument(
        "--tolerance", metavar="FILE.toml", help="a file with tolerances by point and by jig"
    )
    tolerance.add_argument(
        "--spread", choices=("normal", "uniform"), default="normal",
        help="the law of the deviations (normal)",
    )  # fmt: skip
    tolerance.add_argument(
        "--cars", type=whole, default=100_000, metavar="N", help="how many cars (100000)"
    )
    tolerance.add_argument(
        "--seed", type=whole, default=1, metavar="S", help="the same seed gives the same cars (1)"
    )
    tolerance.add_argument(
        "--out", metavar="FILE.xlsx", help="the workbook to make (BOOK-tolerance.xlsx)"
    )
    tolerance.add_argument("--force", action="store_true", help="replace the file if it exists")
    tolerance.set_defaults(run=_tolerance)


def _tolerance(options):
    from ..book.file.save import hold_free, save
    from ..book.study.tolerance.run import Task

    out = beside(options, "-tolerance.xlsx")
    task = Task(
        options.file, options.within, options.tolerance, options.spread, options.cars, options.seed
    )
    hold_free(out, options.force)
    content, said = task.run()
    save(out, content, options.force)
    return f"{out} is made: {said}."
