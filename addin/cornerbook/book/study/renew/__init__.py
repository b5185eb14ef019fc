"""A workbook made anew by this version, with what was typed in it and the user's own sheets."""
