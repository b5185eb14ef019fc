"""A workbook as a function of its cells: solved for targets, built many times a little off."""
