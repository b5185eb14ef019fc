"""Outside values that results are held against: one module a source.

Nothing here imports the package. Each module works from the definitions (ISO 8855 axes:
x forward, y left, z up; left-hand corners; degrees) and a tool or a relation of its own.
"""
