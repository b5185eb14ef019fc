"""The command `cornerbook`."""

import argparse
import sys

from . import __version__
from .book.trouble import Trouble


def main(arguments=None):
    """Run the command; returns the exit status: 0 done, 1 not done, 2 asked wrongly.

    What went wrong is said in one sentence on standard error.
    """
    options = _parser().parse_args(arguments)
    try:
        print(options.run(options))
    except Trouble as trouble:
        print("cornerbook: %s" % trouble, file=sys.stderr)
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
    _add_calc(commands)
    _add_excel(commands)
    return parser


def _add_new(commands):
    from .book.targets import TARGETS
    from .book.units import SYSTEMS

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
    from .book.make import make
    from .book.save import hold_free, save

    if not options.file.lower().endswith(".xlsx"):
        raise Trouble("%s: a name that ends in .xlsx was expected" % options.file)
    hold_free(options.file, options.force)
    content = make(options.template, options.scenario, options.unit, options.target)
    save(options.file, content, options.force)
    return "%s is made. Change a yellow cell and look at what moves." % options.file


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
    from .book.share import share

    copy = _copied(options, lambda: share(options.file, options.values))
    kind = "frozen: numbers only" if options.values else "live in any spreadsheet program"
    return "%s is made, %s." % (copy, kind)


def _add_convert(commands):
    from .book.targets import TARGETS

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
    from .book.convert import convert

    content = _copied(options, lambda: convert(options.file, options.target))
    return "%s is made for %s." % (content, options.target)


def _copied(options, make):
    """Write the copy that `make` gives, say its messages, and return its name."""
    from .book.save import hold_free, hold_other, save

    if not options.copy.lower().endswith(".xlsx"):
        raise Trouble("%s: a name that ends in .xlsx was expected" % options.copy)
    hold_other(options.file, options.copy)
    hold_free(options.copy, options.force)
    content, messages = make()
    for message in messages:
        print(message)
    save(options.copy, content, options.force)
    return options.copy


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
    from .book.save import save
    from .hosts.calc.extension import build_extension

    save(options.file, build_extension(), options.force)
    return (
        "%s is written. Double-click it, or open it with LibreOffice's Extension Manager; "
        "then start Calc anew." % options.file
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

    return "requirements.txt:\n\n%s\nmain.py:\n\n%s" % (requirements_txt(), main_py())


def _excel_install(options):
    from .book.save import hold_free, save
    from .hosts.excel.install import InstallError, instructions, prepare_macro_workbook
    from .scripts import buttons

    if not options.file.lower().endswith(".xlsm"):
        raise Trouble("%s: a name that ends in .xlsm was expected" % options.file)
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
        from .book.make import make

        return make(target="excel-classic")
    from .book.convert import convert

    return convert(workbook, "excel-classic")[0]


if __name__ == "__main__":
    sys.exit(main())
