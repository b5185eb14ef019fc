"""Tables of plain formulas: a column a step, a row what is asked for.

`all_tables.py` has those of a workbook, `block.py` those of one corner's block: its
`points.py`, its `poses.py` with the `measures.py` taken there, and the `call_tables.py` of
formulas of one subject that need more, `fetching.py` what they use of poses, `slopes.py`
derivatives by the block's coordinates, `ranking.py` and `leeway.py` what is made of these,
`changed.py` a corner that is drawn otherwise; `cells_table.py` has formulas of ranges of
numbers, `rows.py` those of a range of rows, of which `range_table.py` has a row for each. Each is
a `Table` of `tables.py`: filled first, then settled (`folding.py` decides what has cells), laid out
(`layout.py`), computed (`row_values.py`) and written (`table_cells.py`, `formula_text.py`).

What the workbook shows is wanted, and from there on what that is made of: no other cell is
written; nor one that would only say that a number typed in a call is none (`unsaid.py`). A step
that several rows have in common (`sharing.py`) has its cell in the first of them, a pose in the row
that asks for no more than it is solved for (`poses_table.py`),
and arguments that are the same for all that may be typed (`amount.py`) share a row; so a pose that
another sheet asks for as well costs nothing. A test holds the copy to its size; what to fold is set
by the numbers in `folding.py`.

Late trials of the linkage's solver divide one rounding error by another, so intermediate slopes
may differ between programs; results do not.
"""
