"""From forces at the tyres to the hands: moments, shafts, and the friction of a standing tyre."""
