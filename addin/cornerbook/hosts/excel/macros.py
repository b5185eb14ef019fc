"""Gives a workbook the macros of xlwings' template, and our two pages."""

from . import pages
from .trouble import InstallError
from .workbook import PLAIN, WITH_MACROS, Workbook

SETTINGS = "xlwings.conf"
"""The page that xlwings' macros look for."""

_TEMPLATE = "xlwings' template"


def with_macros(template, content, called, buttons, settings):
    """The bytes of a macro workbook with our two pages.

    template: the bytes of xlwings' own. content: those of the workbook that gets its macros,
    or None for a workbook of our pages alone. called: its name in sentences. buttons: those
    beside the one that imports. settings: (interpreter, modules, xlwings' version). Raises
    InstallError.
    """
    interpreter, modules, version = settings
    buttons_page = pages.buttons_page(buttons, version)
    settings_page = pages.settings_page(interpreter, modules)
    if content is None:
        return _alone(template, buttons_page, settings_page).to_bytes()
    book = Workbook(content, called)
    _hold_without_macros(book, called)
    book.add_macros(Workbook(template, _TEMPLATE).macros())
    name, number = pages.IMPORT[0], 1
    while name.lower() in (known.lower() for known in book.names):
        number += 1
        name = f"{pages.IMPORT[0]} {number}"
    rows, widths, drawing = buttons_page
    book.put_sheet(name, rows, widths, "Sheet1", drawing)
    book.put_sheet(SETTINGS, *settings_page, "Sheet2")
    return book.to_bytes()


def _alone(template, buttons_page, settings_page):
    """The template itself, our pages in the place of its two."""
    book = Workbook(template, _TEMPLATE)
    book.forget_where_it_lay()
    first, second = book.names
    rows, widths, drawing = buttons_page
    book.put_sheet(pages.IMPORT[0], rows, widths, "Sheet1", drawing, instead=first)
    book.put_sheet(SETTINGS, *settings_page, "Sheet2", instead=second)
    return book


def _hold_without_macros(book, called):
    """Raise InstallError for a workbook that cannot be given macros."""
    if book.macros() is not None or book.kind == WITH_MACROS:
        raise InstallError(
            f"{called} holds macros already, which this would replace; give the workbook without "
            "macros, an .xlsx"
        )
    if book.kind != PLAIN:
        raise InstallError(f"{called} is no plain .xlsx workbook; save it as one first")
    if SETTINGS in book.names:
        raise InstallError(f"{called} has a page {SETTINGS} already; delete it first")
