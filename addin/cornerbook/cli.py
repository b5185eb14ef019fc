"""The command `cornerbook`."""

import argparse
import sys

from . import __version__
from .book.file.trouble import Trouble


def main(arguments=None):
    """Run the command; returns the exit status: 0 done, 1 not done, 2 asked wrongly.

    What went wrong is said in one sentence on standard error.
    """
    options = _parser().parse_args(arguments)
    try:
        print(options.run(options))
    except Trouble as trouble:
        print(f"cornerbook: {trouble}", file=sys.stderr)
        return 1
    return 0


def _parser():
    parser = argparse.ArgumentParser(
        prog="cornerbook",
        description="Spreadsheet formulas for the steering and suspension of a small "
        "home-built car, and the workbook that uses them.",
    )
    parser.add_argument("--version", action="version", version="cornerbook " + __version__)
    commands = parser.add_subparsers(metavar="COMMAND", required=True)
    _add_new(commands)
    _add_share(commands)
    _add_convert(commands)
    _add_tolerance(commands)
    _add_solve(commands)
    _add_export(commands)
    _add_import(commands)
    _add_draw(commands)
    _add_calc(commands)
    _add_excel(commands)
    return parser


def _add_new(commands):
    from .book.formula.targets import TARGETS
    from .book.make.units import SYSTEMS

    new = commands.add_parser("new", help="make a workbook from a template and a scenario")
    new.add_argument("file", metavar="FILE.xlsx", help="the workbook to make")
    new.add_argument(
        "--template", default="starter", help="a template's name or a .toml file (starter)"
    )
    new.add_argument(
        "--scenario", default="lapwing", help="a scenario's name or a .toml file (lapwing)"
    )
    new.add_argument("--unit", choices=SYSTEMS, default="mm", help="unit of length (mm)")
    new.add_argument(
        "--for", dest="target", choices=TARGETS, default="calc",
        help="the spreadsheet program that it is for (calc)",
    )  # fmt: skip
    new.add_argument("--force", action="store_true", help="replace the file if it exists")
    new.set_defaults(run=_new)


def _new(options):
    from .book.file.save import hold_free, save
    from .book.make.new import make

    if not options.file.lower().endswith(".xlsx"):
        raise Trouble(f"{options.file}: a name that ends in .xlsx was expected")
    hold_free(options.file, options.force)
    content = make(options.template, options.scenario, options.unit, options.target)
    save(options.file, content, options.force)
    return f"{options.file} is made. Change a yellow cell and look at what moves."


def _add_share(commands):
    share = commands.add_parser(
        "share", help="make a copy that is live in any spreadsheet program, with no add-in"
    )
    share.add_argument("file", metavar="IN.xlsx", help="the workbook, which is only read")
    share.add_argument("copy", metavar="OUT.xlsx", help="the copy to make")
    share.add_argument(
        "--values", action="store_true", help="numbers only: a frozen copy, with no formulas"
    )
    share.add_argument("--force", action="store_true", help="replace the copy if it exists")
    share.set_defaults(run=_share)


def _share(options):
    from .book.plain.share import share

    copy = _copied(options, lambda: share(options.file, options.values))
    kind = "frozen: numbers only" if options.values else "live in any spreadsheet program"
    return f"{copy} is made, {kind}."


def _add_convert(commands):
    from .book.formula.targets import TARGETS

    convert = commands.add_parser(
        "convert", help="make a copy with the formulas spelled for another program"
    )
    convert.add_argument("file", metavar="IN.xlsx", help="the workbook, which is only read")
    convert.add_argument("copy", metavar="OUT.xlsx", help="the copy to make")
    convert.add_argument(
        "--for", dest="target", choices=TARGETS, required=True,
        help="the spreadsheet program that the copy is for",
    )  # fmt: skip
    convert.add_argument("--force", action="store_true", help="replace the copy if it exists")
    convert.set_defaults(run=_convert)


def _convert(options):
    from .book.formula.convert import convert

    content = _copied(options, lambda: convert(options.file, options.target))
    return f"{content} is made for {options.target}."


def _add_export(commands):
    export = commands.add_parser(
        "export", help="write the points of a block as a CSV file or a DXF drawing"
    )
    export.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    export.add_argument(
        "out", metavar="OUT.csv|OUT.dxf", help="the file to write; its name says which kind"
    )
    export.add_argument(
        "--axle", action="store_true", help="draw the right-hand corner too (DXF only)"
    )
    _add_block(export)
    export.add_argument("--force", action="store_true", help="replace the file if it exists")
    export.set_defaults(run=_export)


def _add_import(commands):
    taken = commands.add_parser(
        "import", help="make a copy of a workbook with the points of a CSV or DXF file in a block"
    )
    taken.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    taken.add_argument("points", metavar="IN.csv|IN.dxf", help="the file with the points")
    taken.add_argument(
        "--out", dest="copy", metavar="FILE.xlsx", required=True, help="the copy to make"
    )
    _add_block(taken)
    taken.add_argument("--force", action="store_true", help="replace the copy if it exists")
    taken.set_defaults(run=_import)


def _add_block(command):
    command.add_argument(
        "--block", default="Front", metavar="NAME", help="the block's name or address (Front)"
    )
    command.add_argument(
        "--unit", choices=("mm", "cm", "m", "in"),
        help="the workbook's unit of length, if it does not say (it does in its call of CHECK "
        "or in the cells beside the points)",
    )  # fmt: skip


def _export(options):
    from .book.file.save import hold_free, hold_other, save
    from .book.points.exchange import export, kind_of

    if kind_of(options.out) == "csv" and options.axle:
        raise Trouble("--axle is for drawings; a CSV file holds the left-hand corner only")
    hold_other(options.file, options.out)
    hold_free(options.out, options.force)
    content, messages = export(options.file, options.out, options.block, options.unit, options.axle)
    for message in messages:
        print(message)
    save(options.out, content, options.force)
    return f"{options.out} is written, from the block {options.block}."


def _import(options):
    from .book.points.exchange import kind_of, take_in

    kind_of(options.points)
    copy = _copied(
        options, lambda: take_in(options.file, options.points, options.block, options.unit)
    )
    return f"{copy} is made, with the points of {options.points} in the block {options.block}."


def _add_solve(commands):
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


def _beside(options, ending):
    """The workbook to make: the one asked for, or one beside the user's; `Trouble` if taken."""
    from pathlib import Path

    from .book.file.save import hold_free, hold_other

    book = Path(options.file)
    out = options.out or str(book.with_name(book.stem + ending))
    if not out.lower().endswith(".xlsx"):
        raise Trouble(f"{out}: a name that ends in .xlsx was expected")
    hold_other(options.file, out)
    hold_free(out, options.force)
    return out


def _solve(options):
    from .book.file.save import save
    from .book.study.solve import report, solve

    out = _beside(options, "-solved.xlsx")
    solution = solve(options.file, options.change, options.make, options.within)
    print(report(solution))
    if not solution.met:
        raise Trouble(
            "the targets cannot all be met, as far as was found; the nearest is shown, and no "
            "workbook was made. Change a target, widen a limit, or let another input move"
        )
    save(out, solution.content, options.force)
    return f"\n{out} is made."


def _copied(options, make):
    """Write the copy that `make` gives, say its messages, and return its name."""
    from .book.file.save import hold_free, hold_other, save

    if not options.copy.lower().endswith(".xlsx"):
        raise Trouble(f"{options.copy}: a name that ends in .xlsx was expected")
    hold_other(options.file, options.copy)
    hold_free(options.copy, options.force)
    content, messages = make()
    for message in messages:
        print(message)
    save(options.copy, content, options.force)
    return options.copy


def _add_draw(commands):
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
    draw.add_argument("--travel", type=float, default=0.0, help="how far the wheels have risen (0)")
    draw.add_argument(
        "--rack", type=float, default=0.0, help="how far the rack has moved to the left (0)"
    )
    draw.add_argument(
        "--roll", type=float, default=0.0,
        help="roll of the body in degrees, left side up positive, with the wheels on the road (0)",
    )  # fmt: skip
    draw.add_argument("--axle", action="store_true", help="both wheels, not the left one alone")
    draw.add_argument("--force", action="store_true", help="replace the picture if it exists")
    draw.set_defaults(run=_draw)


def _draw(options):
    from .book.file.save import hold_free, hold_other, save
    from .book.picture.drawing import draw
    from .book.picture.scene import Picture, read_corner

    kind = options.picture.lower()[-4:]
    if kind not in (".png", ".svg"):
        raise Trouble(f"{options.picture}: a name that ends in .png or .svg was expected")
    hold_other(options.file, options.picture)
    hold_free(options.picture, options.force)
    corner = read_corner(options.file, options.block)
    picture = Picture(
        corner, options.travel, options.rack, options.roll, options.axle, options.block
    )
    save(options.picture, draw(picture, options.view, kind[1:]), options.force)
    return f"{options.picture} is drawn."


def _add_tolerance(commands):
    tolerance = commands.add_parser(
        "tolerance",
        help="spread the points of a workbook's corners and see how many cars come out right",
        description="Works out every named result of the workbook for many cars whose points "
        "are a little off, and writes a new workbook with what became of them. By the normal "
        "law a tolerance is 3 standard deviations, by the uniform one the end of the range.",
    )
    tolerance.add_argument("file", metavar="BOOK.xlsx", help="the workbook, which is only read")
    how_far = tolerance.add_mutually_exclusive_group()
    how_far.add_argument(
        "--within", type=float, metavar="LENGTH",
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
        "--cars", type=int, default=100_000, metavar="N", help="how many cars (100000)"
    )
    tolerance.add_argument(
        "--seed", type=int, default=1, metavar="S", help="the same seed gives the same cars (1)"
    )
    tolerance.add_argument(
        "--out", metavar="FILE.xlsx", help="the workbook to make (BOOK-tolerance.xlsx)"
    )
    tolerance.add_argument("--force", action="store_true", help="replace the file if it exists")
    tolerance.set_defaults(run=_tolerance)


def _tolerance(options):
    from .book.file.save import save
    from .book.study.tolerance.run import tolerance

    out = _beside(options, "-tolerance.xlsx")
    content, said = tolerance(
        options.file, options.within, options.tolerance, options.spread, options.cars, options.seed
    )
    save(out, content, options.force)
    return f"{out} is made: {said}."


def _add_calc(commands):
    calc = commands.add_parser("calc", help="the formulas in LibreOffice Calc")
    actions = calc.add_subparsers(metavar="ACTION", required=True)
    install = actions.add_parser("install", help="install the extension for this user")
    install.set_defaults(run=_calc_install)
    remove = actions.add_parser("remove", help="remove the extension")
    remove.set_defaults(run=_calc_remove)
    extension = actions.add_parser("extension", help="write the extension as a file to hand on")
    extension.add_argument("file", metavar="FILE.oxt", help="the file to write")
    extension.add_argument("--force", action="store_true", help="replace the file if it exists")
    extension.set_defaults(run=_calc_extension)


def _calc_install(options):
    from .hosts.calc.install import InstallError, install

    try:
        return install()
    except InstallError as error:
        raise Trouble(str(error)) from error


def _calc_remove(options):
    from .hosts.calc.install import InstallError, remove

    try:
        return remove()
    except InstallError as error:
        raise Trouble(str(error)) from error


def _calc_extension(options):
    from .book.file.save import save
    from .hosts.calc.extension import build_extension

    save(options.file, build_extension(), options.force)
    return (
        f"{options.file} is written. Double-click it, or open it with LibreOffice's Extension "
        "Manager; "
        "then start Calc anew."
    )


def _add_excel(commands):
    excel = commands.add_parser("excel", help="the formulas in Excel")
    actions = excel.add_subparsers(metavar="ACTION", required=True)
    lite = actions.add_parser(
        "lite", help="show the two texts for xlwings Lite, which runs inside Excel"
    )
    lite.set_defaults(run=_excel_lite)
    install = actions.add_parser(
        "install", help="make a macro workbook for Excel on Windows with a Python beside it"
    )
    install.add_argument("file", metavar="FILE.xlsm", help="the macro workbook to make")
    install.add_argument(
        "--workbook", metavar="BOOK.xlsx",
        help="the workbook whose sheets it gets; a new starter if left out",
    )  # fmt: skip
    install.add_argument("--force", action="store_true", help="replace the file if it exists")
    install.set_defaults(run=_excel_install)


def _excel_lite(options):
    from .hosts.excel.texts import main_py, requirements_txt

    return f"requirements.txt:\n\n{requirements_txt()}\nmain.py:\n\n{main_py()}"


def _excel_install(options):
    from .book.file.save import hold_free, save
    from .hosts.calc.install import InstallError
    from .hosts.excel.install import instructions, prepare_macro_workbook
    from .scripts import buttons

    if not options.file.lower().endswith(".xlsm"):
        raise Trouble(f"{options.file}: a name that ends in .xlsm was expected")
    hold_free(options.file, options.force)
    source = _for_classic(options.workbook)
    try:
        content = prepare_macro_workbook(
            source, buttons(), called=options.workbook or "the starter"
        )
    except InstallError as error:
        raise Trouble(str(error)) from error
    save(options.file, content, options.force)
    return instructions(options.file)


def _for_classic(workbook):
    """The bytes of a workbook spelled for macro functions; a new starter if None."""
    if workbook is None:
        from .book.make.new import make

        return make(target="excel-classic")
    from .book.formula.convert import convert

    return convert(workbook, "excel-classic")[0]


if __name__ == "__main__":
    sys.exit(main())
