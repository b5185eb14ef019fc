"""A workbook's calls of our formulas as plain formulas: the copy without an add-in.

`share.py` makes the copy. The calls are found and their arguments read in `reading/`; what
stands in place of a call is chosen in `forms/`, by the formula that is called; the tables of
plain formulas that results are taken from are kept in `workings/`, made of calculations
`recorded/` from the geometry itself. Each of these imports only from those named after it.
Beside `share.py` stand what else it adds to a copy or keeps in it: the sheets of the workings,
the check page, and numbers of formulas that have no plain form.
"""
