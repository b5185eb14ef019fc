"""cornerbook: what the wheels of a small home-built car do when it steers and bumps."""

__version__ = "0.1.0"
