"""Formulas that give a place from what is wanted, and stay live as the wish changes.

A formula reads one block and gives a place; a second block may take it. A block that takes
the place it gives itself goes in a circle, which spreadsheets refuse.
"""
