"""Where a command writes: beside the user's workbook, or a copy under another name."""

from pathlib import Path

from ..book.file.save import hold_ending, hold_free, hold_other, save
from ..book.file.trouble import Trouble
from .show import show


def beside(options, ending):
    """The name of the workbook to make: the one asked for, or one beside the user's.

    Whether it is taken is asked by `hold_free`, once what the user asked for is known to be good.
    """
    book = Path(options.file)
    if not book.name:
        raise Trouble(f'"{options.file}" is no name of a workbook; FILE.xlsx was expected')
    out = options.out or str(book.with_name(book.stem + ending))
    hold_ending(out, ".xlsx")
    hold_other(options.file, out)
    return out


def copied(options, make, slow=False):
    """Write the copy that `make` gives, say its messages, and return its name.

    Whether the name is taken is asked once what the user asked for is known to be good; of what
    takes long to make (`slow`), once the workbook is known to be one.
    """
    hold_ending(options.copy, ".xlsx")
    hold_other(options.file, options.copy)
    if slow:
        from ..book.file.unpack import unpacked

        unpacked(options.file)
        hold_free(options.copy, options.force)
    content, messages = make()
    hold_free(options.copy, options.force)
    for message in messages:
        show(message)
    save(options.copy, content, options.force)
    return options.copy
