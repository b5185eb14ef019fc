"""Formulas that look at others: sweeps, two-way tables, sensitivities, checks, pictures."""
