"""Formulas for what members and the frame carry under a load, and what gives."""
