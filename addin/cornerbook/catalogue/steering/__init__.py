"""Formulas from forces at the tyres to the hands: moments, column, both wheels steered in roll."""
