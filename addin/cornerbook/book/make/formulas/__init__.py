"""What is done to the formulas of a book before it is written."""
