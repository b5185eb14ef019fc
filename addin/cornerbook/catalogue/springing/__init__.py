"""Formulas for springs, stops, and the rod and rocker between wheel and spring."""
