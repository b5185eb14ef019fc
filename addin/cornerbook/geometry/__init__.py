"""The mathematics of a corner and of a steered axle.

No spreadsheet, no files, nothing but the standard library. Axes are those of
ISO 8855 (x forward, y left, z up), every corner is a left-hand one, angles are
degrees at the surface of a module and radians inside, lengths are in any one unit.
"""
