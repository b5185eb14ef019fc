"""One corner: its points, how it moves with travel and rack, and what it measures at a pose."""
