"""What a button in an open workbook does, on Windows and macOS and, where it can, in Lite.

Each script is one function that takes an xlwings `Book` and returns sentences for the user.
It goes through the same code as the command line. A new one joins by its line in `SCRIPTS`;
the buttons, the entries for xlwings and `run` follow from there.

From a button of your own in Excel:   RunPython "import cornerbook.scripts as s; s.run('share')"
From Python:                          cornerbook.scripts.share(xlwings.Book("mine.xlsx"))
"""

import sys
import tempfile
from pathlib import Path

from .book.file.trouble import Trouble
from .catalogue import call

TITLE = "cornerbook"


def refresh(book):
    """Work out every formula anew."""
    full = _of_windows(book.app, "CalculateFull")
    if full is not None:  # also the cells that Excel takes to be up to date
        full()
    else:
        book.app.calculate()
    return ["Every formula is worked out anew."]


def share(book):
    """Make a copy beside the workbook that is live in any spreadsheet program."""
    from .book.file.save import save
    from .book.plain.share import share as shared

    folder = _folder_of(book)
    copy = _free_path(folder, f"{Path(book.name).stem} shared")
    with tempfile.TemporaryDirectory(prefix="cornerbook-") as beside:
        content, messages = shared(_file_of(book, Path(beside)))
    save(copy, content)
    return [*messages, f"{copy} is made, live in any spreadsheet program."]


def check(book):
    """Read every block and say what is wrong with it."""
    found = _blocks(book)
    if not found:
        raise Trouble(
            "no name of this workbook stands for a block (names in the first column, then "
            "x, y, z); give a block a name, such as Front"
        )
    return [f"{name}: {call('CHECK', rows)}" for name, rows in found.items()]


SCRIPTS = {
    "refresh": ("Refresh all", refresh),
    "share": ("Make a shared copy", share),
    "check": ("Check the blocks", check),
}
"""Every script by its name: what stands on its button, and the function."""


# For scripts of one's own


def frame(book, name="Front"):
    """The block of this name as a DataFrame: names as the index, then x, y, z.

    Empty cells are missing values. Raises `Trouble` where there is no such name.
    """
    import pandas as pd

    rows = _rows(book, name)
    frame = pd.DataFrame([row[1:] for row in rows], index=[row[0] for row in rows])
    frame.columns = ["x", "y", "z", *map(str, range(4, frame.shape[1] + 1))][: frame.shape[1]]
    return frame


def corner(book, name="Front", unit="mm"):
    """The block of this name as a `Corner`, with `at` and `sweep`; see `cornerbook.read`."""
    from .front import read_frame

    return read_frame(frame(book, name), unit)


# How they are started


def run(name, book=None):
    """Run a script and show what it says; what went wrong is shown as well, in a sentence.

    book: the workbook; left out, the one whose button was pressed.
    Returns the text that was shown.
    """
    if name not in SCRIPTS:
        raise Trouble(f"there is no script {name}; there are: {', '.join(SCRIPTS)}")
    if book is None:
        book = _xlwings().Book.caller()
    try:
        text = "\n".join(SCRIPTS[name][1](book))
    except Trouble as trouble:
        text = str(trouble)
    book.app.alert(text, title=TITLE)
    return text


def entry_name(name):
    """How xlwings and VBA know a script, as in `corner_share`."""
    return "corner_" + name


def buttons():
    """(what stands on the button, VBA macro) of each script, for a macro workbook."""
    return [(caption, entry_name(name)) for name, (caption, _) in SCRIPTS.items()]


__all__ = [entry_name(name) for name in SCRIPTS]


def __getattr__(name):
    # Made when first asked for, so that this module can be imported without xlwings.
    for script, (caption, _) in SCRIPTS.items():
        if name == entry_name(script):
            globals()[name] = _entry(_xlwings(), script, caption)
            return globals()[name]
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def __dir__():
    return sorted({*globals(), *__all__})


def _entry(xlwings, script, caption):
    """A function for `xlwings.script`, which makes a VBA macro or an entry of Lite of it."""
    entry, options = _macro(script), {}
    if in_lite():
        entry, options = _of_lite(script, xlwings.Book), {"name": caption}
    entry.__name__ = entry.__qualname__ = entry_name(script)
    entry.__doc__ = SCRIPTS[script][1].__doc__
    return xlwings.script(**options)(entry)


def _macro(script):
    def entry():  # without arguments, or Excel could not start it from a button
        run(script)

    return entry


def _of_lite(script, kind):
    def entry(book):
        run(script, book)

    entry.__annotations__ = {"book": kind}  # by this, Lite hands the workbook over
    return entry


def in_lite():
    """Whether this runs inside Excel, in xlwings Lite, where there are no files."""
    xlwings = sys.modules.get("xlwings")
    return sys.platform == "emscripten" or bool(getattr(xlwings, "on_server", False))


def _xlwings():
    from .hosts.excel.functions import load_xlwings

    return load_xlwings()


# The workbook


def _folder_of(book):
    """The folder of the workbook's file; raises `Trouble` where it has none on this computer."""
    if in_lite():
        raise Trouble(
            "xlwings Lite runs inside Excel and cannot read the workbook's file. Save the "
            "workbook and run, on a computer with Python: cornerbook share mine.xlsx copy.xlsx"
        )
    path = Path(book.fullname)
    if "://" in str(book.fullname) or not path.is_absolute():
        raise Trouble(f"{book.name} is not saved in a folder of this computer; save it there first")
    return path.parent


def _file_of(book, folder):
    """A file with the workbook as it stands, which may be read."""
    copy = _of_windows(book, "SaveCopyAs")
    if copy is None:  # on macOS: as it was last saved
        return Path(book.fullname)
    path = folder / book.name
    copy(str(path))
    return path


def _of_windows(thing, name):
    """A method of Excel for Windows that xlwings has no own for; None elsewhere."""
    try:
        return getattr(thing.api, name, None)
    except (AttributeError, NotImplementedError):
        return None


def _free_path(folder, stem):
    """The first name that is not taken: 'mine shared.xlsx', then 'mine shared 2.xlsx'."""
    path, number = folder / (f"{stem}.xlsx"), 1
    while path.exists():
        number += 1
        path = folder / (f"{stem} {number}.xlsx")
    return path


def _blocks(book):
    """{name: rows} of the names whose cells look like a corner's block."""
    from .cells.block import POINTS, VALUES, key_of

    known = {key_of(label) for label in (*POINTS, *VALUES)}
    found = {}
    for name in book.names:
        try:
            rows = _cells(name.refers_to_range)
        except Exception:  # a name of a constant, of a formula, or of nothing any more
            continue
        labels = [key_of(row[0]) for row in rows if isinstance(row[0], str)]
        if len(rows) > 2 and len(rows[0]) > 1 and known.intersection(labels):
            found[name.name] = rows
    return found


def _rows(book, name):
    for known in book.names:
        # A name that is known on one sheet only has the sheet's before it.
        if known.name.rpartition("!")[2].lower() == name.lower():
            return _cells(known.refers_to_range)
    names = ", ".join(known.name for known in book.names)
    raise Trouble(f"there is no block named {name}; the names are: {names or 'none'}")


def _cells(range):
    from .hosts.excel.cells import READ, rows_of

    return rows_of(range.options(**READ).value)
