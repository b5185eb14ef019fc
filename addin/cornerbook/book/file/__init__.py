"""A spreadsheet file: its parts, sheets, cells, styles and names; read, changed in place, saved."""
