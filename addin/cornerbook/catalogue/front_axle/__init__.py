"""Formulas for both front wheels: steered, in roll, turning at a crawl; a beam axle."""
