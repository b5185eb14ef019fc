"""How builds of a car differ when every point is a little off."""
