"""Benchmarks: scripts that print what they measure. pytest does not collect them."""
