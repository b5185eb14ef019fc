"""Inputs of a workbook changed as little as will do for results to come to their targets."""
