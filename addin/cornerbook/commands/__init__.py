"""The commands, one file each: what they take, and whom they call."""
