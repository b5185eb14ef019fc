"""What makes the formulas appear in a spreadsheet program."""
