"""The workbook of a tolerance study, a module for each of its sheets."""
