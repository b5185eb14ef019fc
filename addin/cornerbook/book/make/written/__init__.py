"""A workbook in memory to a file: looks, paper, and what XlsxWriter is told."""
