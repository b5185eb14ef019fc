"""Points out of a workbook into a file of their own, and in again."""
