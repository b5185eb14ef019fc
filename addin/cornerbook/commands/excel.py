"""`cornerbook excel`: the formulas in Excel."""

from ..book.file.trouble import Trouble


def add(commands):
    """Add the command to the parser's."""
    excel = commands.add_parser("excel", help="the two ways of the formulas in Excel")
    excel.set_defaults(run=_how)
    actions = excel.add_subparsers(metavar="ACTION")
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
        help="the workbook whose sheets it gets; a new one if left out",
    )  # fmt: skip
    install.add_argument("--force", action="store_true", help="replace the file if it exists")
    install.set_defaults(run=_excel_install)


def _how(options):
    from ..hosts.excel.how import HOW

    return HOW


def _excel_lite(options):
    from ..hosts.excel.texts import main_py, requirements_txt

    return f"requirements.txt:\n\n{requirements_txt()}\nmain.py:\n\n{main_py()}"


def _excel_install(options):
    from ..book.file.save import hold_ending, hold_free, save
    from ..hosts.excel.install import instructions, prepare_macro_workbook
    from ..hosts.excel.trouble import InstallError
    from ..scripts import buttons

    hold_ending(options.file, ".xlsm")
    if options.workbook is None:
        hold_free(options.file, options.force)  # nothing else can be wrong with what was asked
    source = _for_classic(options.workbook)
    try:
        content = prepare_macro_workbook(
            source, buttons(), called=options.workbook or "the new workbook"
        )
    except InstallError as error:
        raise Trouble(str(error)) from error
    save(options.file, content, options.force)
    return instructions(options.file)


def _for_classic(workbook):
    """The bytes of a workbook spelled for macro functions; a new one if None."""
    if workbook is None:
        from ..book.make.new import make

        return make(target="excel-classic")
    from ..book.formula.convert import convert

    return convert(workbook, "excel-classic")[0]
