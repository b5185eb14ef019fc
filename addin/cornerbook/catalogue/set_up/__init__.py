"""Formulas for whoever builds and sets up: lengths, measures of the finished car, adjusters."""
