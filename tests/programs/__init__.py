"""A copy without an add-in in several spreadsheet programs, held to each other."""
