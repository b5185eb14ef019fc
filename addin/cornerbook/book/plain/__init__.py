"""The geometry recorded as cell formulas: the copy that needs no add-in."""
