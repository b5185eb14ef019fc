"""What is typed into a workbook, read back as a scenario."""
