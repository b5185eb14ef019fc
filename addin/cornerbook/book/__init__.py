"""A workbook: made from text, read, copied, studied, drawn; each wing with one part of that."""
