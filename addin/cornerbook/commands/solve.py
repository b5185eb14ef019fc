"""`cornerbook solve`: change several inputs so that several results come to their targets."""

from ..book.file.trouble import Trouble
from .files import beside


def add(commands):
    """Add the command to the parser's."""
    solve = commands.add_parser(
        "solve",
        help="change several inputs so that several results come to their targets",
        description="Finds the least movement of the input cells that brings every result to "
        "its target, and makes a new workbook with it. A cell is a name (Trail) or a sheet "
        "and an address ('Front corner!D13').",
        epilog="Example: cornerbook solve car.xlsx --change 'Front corner!B13' "
        "'Front corner!C13' --make Caster=7 Inclination=10",
    )
    solve.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    solve.add_argument(
        "--change", metavar="CELL", nargs="+", action="extend", required=True,
        help="an input cell that may move",
    )  # fmt: skip
    solve.add_argument(
        "--make", metavar="CELL=VALUE", nargs="+", action="extend", required=True,
        help="a result, and what it is to be",
    )  # fmt: skip
    solve.add_argument(
        "--within", metavar="CELL=LOW..HIGH", nargs="+", action="extend", default=[],
        help="limits of an input, either end may be left out; the cell's own data validation "
        "if not given",
    )  # fmt: skip
    solve.add_argument(
        "--out", metavar="FILE.xlsx", help="the workbook to make (BOOK-solved.xlsx beside it)"
    )
    solve.add_argument("--force", action="store_true", help="replace that file if it exists")
    solve.set_defaults(run=_solve)


def _solve(options):
    from ..book.file.save import save
    from ..book.study.solve.report import report
    from ..book.study.solve.run import solve

    out = beside(options, "-solved.xlsx")
    solution = solve(options.file, options.change, options.make, options.within)
    print(report(solution))
    if not solution.met:
        raise Trouble(
            "the targets cannot all be met, as far as was found; the nearest is shown, and no "
            "workbook was made. Change a target, widen a limit, or let another input move"
        )
    save(out, solution.content, options.force)
    return f"\n{out} is made."
