"""Where a point of a corner must be for the car to measure what is wanted.

Every function takes the wheel and the other points as drawn and gives a place in closed form,
or by a fixed number of steps.
"""
