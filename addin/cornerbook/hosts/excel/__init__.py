"""The formulas in Excel, by the two ways that xlwings has."""
