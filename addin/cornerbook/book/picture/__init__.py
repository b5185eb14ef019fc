"""Pictures of a corner or an axle."""
