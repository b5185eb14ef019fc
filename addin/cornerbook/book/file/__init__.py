"""A spreadsheet file: read, changed in place, and saved.

`package.py` is what others use: a file by its sheets and cells. Below it, from whole to part:
`workbook.py` (the list of sheets and names), `sheet.py` (one worksheet), whose cells stand in
`grid.py`, whose formulas are in `formulas.py` and `arrays.py`, and what one cell holds is in
`values.py`. All of them change XML of `parts.py`, which keeps a file's parts with their
`content_types.py` and `relations.py`; the parts come from `unpack.py`. `new_sheet.py` writes
the XML of a sheet that is added. `trouble.py` is what the user is told, in all rooms.
"""
