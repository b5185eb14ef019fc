"""The texts of a workbook: how one is read, units, a scenario, and what is wrong."""
