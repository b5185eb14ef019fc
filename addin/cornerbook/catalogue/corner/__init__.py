"""Formulas for one corner: plain numbers first, then angles, places and movement at a pose."""
