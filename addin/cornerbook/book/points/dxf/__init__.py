"""A block's points as a DXF drawing in three dimensions, written and read."""
