"""Formulas for persons, their posture, what they see, and the body around them."""
