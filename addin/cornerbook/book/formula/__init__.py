"""A formula's text: taken apart, worked out, and spelled for a program."""
