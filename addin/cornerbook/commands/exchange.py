"""`cornerbook export` and `cornerbook import`: points out into a file, and in from one."""

from ..book.file.trouble import Trouble
from .files import copied
from .show import show


def add(commands):
    """Add `export` and `import`."""
    _add_export(commands)
    _add_import(commands)


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
    from ..book.file.save import hold_free, hold_other, save
    from ..book.points.exchange import export, kind_of

    if kind_of(options.out) == "csv" and options.axle:
        raise Trouble("--axle is for drawings; a CSV file holds the left-hand corner only")
    hold_other(options.file, options.out)
    content, messages = export(options.file, options.out, options.block, options.unit, options.axle)
    hold_free(options.out, options.force)
    for message in messages:
        show(message)
    save(options.out, content, options.force)
    return f"{options.out} is written, from the block {options.block}."


def _import(options):
    from ..book.points.exchange import kind_of, take_in

    kind_of(options.points)
    copy = copied(
        options, lambda: take_in(options.file, options.points, options.block, options.unit)
    )
    return f"{copy} is made, with the points of {options.points} in the block {options.block}."
