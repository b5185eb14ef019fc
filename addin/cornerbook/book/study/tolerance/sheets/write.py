"""The workbook of a tolerance study."""

import io

import xlsxwriter

from ..... import __version__
from ....file.appearance import CAUTION
from ....make.written.write import CREATED
from .histograms import add_histograms
from .results import add_results
from .shares import add_shares
from .sheet import Looks
from .tolerances import add_tolerances


def to_xlsx(outcome):
    """The bytes of the workbook; the same outcome gives the same bytes."""
    output = io.BytesIO()
    book = xlsxwriter.Workbook(
        output,
        {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False,
         "nan_inf_to_errors": True},
    )  # fmt: skip
    book.set_properties(
        {
            "title": f"Tolerances of {outcome.study.name}",
            "comments": f"Made by cornerbook {__version__}. {CAUTION}",
            "created": CREATED,
        }
    )
    looks = Looks(book)
    for add in (add_results, add_shares, add_tolerances, add_histograms):
        add(book, looks, outcome)
    book.close()
    return output.getvalue()
