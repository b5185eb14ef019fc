"""The formulas in LibreOffice Calc: the extension, and putting it in."""
