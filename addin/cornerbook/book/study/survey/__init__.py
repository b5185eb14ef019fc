"""A car that was measured with a tape: where its points are, how surely, and what was misread."""
