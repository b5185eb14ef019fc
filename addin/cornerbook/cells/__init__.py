"""What a cell gives and shows: a block, an argument, a corner, a sentence on what to mend."""
