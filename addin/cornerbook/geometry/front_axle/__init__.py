"""Both front wheels: on one rack, under a body that rolls, on one beam; room to turn."""
