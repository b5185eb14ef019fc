"""`cornerbook calc`: the formulas in LibreOffice Calc."""

from ..book.file.trouble import Trouble


def add(commands):
    """Add the command to the parser's."""
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
    from ..hosts.calc.install import InstallError, install

    try:
        return install()
    except InstallError as error:
        raise Trouble(str(error)) from error


def _calc_remove(options):
    from ..hosts.calc.install import InstallError, remove

    try:
        return remove()
    except InstallError as error:
        raise Trouble(str(error)) from error


def _calc_extension(options):
    from ..book.file.save import hold_ending, save
    from ..hosts.calc.extension import build_extension

    hold_ending(options.file, ".oxt")
    save(options.file, build_extension(), options.force)
    return (
        f"{options.file} is written. Double-click it, or open it with LibreOffice's Extension "
        "Manager; then start Calc anew."
    )
