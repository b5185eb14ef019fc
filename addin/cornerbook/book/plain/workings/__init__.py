"""Tables of plain formulas: a column a step, a row what is asked for.

`all_tables.py` has those of a workbook, `block.py` those of one corner's block: its
`points.py`, its `poses.py` with the `measures.py` taken there, and the `call_tables.py` of
formulas that need more, `fetching.py` what they use of poses. Each is a `Table` of `tables.py`:
filled first, then settled (`folding.py` decides what has a column, `layout.py` where it
stands), computed (`row_values.py`) and written (`table_cells.py`, `formula_text.py`).
"""
