"""From chapters and a scenario, both text, to a new workbook."""
