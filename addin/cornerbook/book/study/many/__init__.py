"""The cells of a workbook for many cars at once."""
