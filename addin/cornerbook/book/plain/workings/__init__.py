"""Tables of plain formulas: a column a step, a row what is asked for.

`all_tables.py` has those of a workbook, `block.py` those of one corner's block: its
`points.py`, its `poses.py` with the `measures.py` taken there, and the `call_tables.py` of
formulas that need more, `fetching.py` what they use of poses, `slopes.py` derivatives by the
block's coordinates; `cells_table.py` has formulas of ranges of numbers. Each is a `Table` of
`tables.py`: filled first, then settled (`folding.py` decides what has a column, `layout.py` where
it stands), computed (`row_values.py`) and written (`table_cells.py`, `formula_text.py`).

A measure is worked out for every row of its table, asked for there or not, so the size of a copy
grows with measures times poses. Arguments that are the same cell, or cells that only refer to
one or to its opposite, share a pose: that is what `like` in a chapter is for. A test holds the
copy to its size; what to fold is set by the numbers in `folding.py`.

Late trials of the linkage's solver divide one rounding error by another, so intermediate slopes
may differ between programs; results do not.
"""
