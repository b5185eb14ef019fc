"""The driver: segments, posture, what he sees and clears, and the body around him."""
