"""`cornerbook solve`: change several inputs so that several results come to their targets."""

from ..book.file.trouble import Trouble
from .files import beside
from .show import show


def add(commands):
    """Add the command to the parser's."""
    solve = commands.add_parser(
        "solve",
        help="change several inputs so that several results come to their targets",
        description="Finds the least movement of the input cells that brings every result to "
        "its target, and makes a new workbook with it. A cell is a name (Trail), a point of a "
        "block with its coordinate ('Front: upper ball joint x'), or a sheet and an address "
        "('Front corner!D13').",
        epilog="Example: cornerbook solve car.xlsx --change 'Front: upper ball joint x' "
        "'Front: upper ball joint y' --make Caster=7 Inclination=10",
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
        help="limits of an input, either end may be left out; if not given, what is in "
        "proportion to the corner, and the cell's own data validation",
    )  # fmt: skip
    solve.add_argument(
        "--out", metavar="FILE.xlsx", help="the workbook to make (BOOK-solved.xlsx beside it)"
    )
    solve.add_argument("--force", action="store_true", help="replace that file if it exists")
    solve.set_defaults(run=_solve)


def _solve(options):
    from ..book.file.save import hold_free, save
    from ..book.study.solve.report import report
    from ..book.study.solve.run import Task

    out = beside(options, "-solved.xlsx")
    task = Task(options.file, options.change, options.make, options.within)
    hold_free(out, options.force)
    solution = task.solve()
    show(report(solution))
    if not solution.met:
        raise Trouble(
            "the targets cannot all be met, as far as was found; the nearest is shown, and no "
            "workbook was made. Change a target, widen a limit, or let another input move"
        )
    save(out, solution.content, options.force)
    return f"\n{out} is made."
