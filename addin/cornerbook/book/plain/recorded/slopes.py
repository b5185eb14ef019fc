"""Derivatives of recorded steps by the steps that they are made of, as steps again.

The steps are gone through from the whole to its parts, and each hands on to its parts what it
counts for, by the chain rule. So one pass gives the derivatives by all the coordinates of a
drawing at once (automatic differentiation in reverse mode: A. Griewank and A. Walther,
*Evaluating Derivatives*, 2008, chapter 3; from memory), where a dual number needs a pass each.

A condition counts as it stands; what is not chosen by it must have a value all the same.
"""

from .steps import parts_first


def slopes(recorder, counted, by):
    """The derivatives of a sum of steps by each of some steps: {step: its derivative}.

    counted: (step, factor) for each term, of which the factors, steps or floats, are taken as
    fixed. by: steps; what they are made of themselves is not looked at. A step on which nothing
    depends has 0.0, as all others a step of the recorder.
    """
    by = dict.fromkeys(by)
    order = made_of([step for step, _ in counted], by)
    moved, found = set(), {}
    for step in order:
        if step in by or any(part in moved for part in _weighed(step)):
            moved.add(step)

    def count(step, factor):
        if step in moved:
            factor = recorder.step(factor)
            found[step] = recorder.add(found[step], factor) if step in found else factor

    for step, factor in counted:
        count(step, factor)
    for step in reversed(order):
        if step in found and step not in by:
            for part, factor in _handed_on(recorder, step, found[step]):
                count(part, factor)
    for step, factor in found.items():
        if step.label and factor.label is None and factor.parts:
            factor.label = ("Change per unit of an earlier step", f"by {step.label[1]}")
    return {step: found.get(step, recorder.step(0.0)) for step in by}


def made_of(wholes, until=()):
    """All steps that some steps' values follow, parts before wholes, the steps themselves last.

    until: steps; what these are made of is not looked at.
    """
    return parts_first(wholes, lambda step: () if step in until else _weighed(step))


def _weighed(step):
    """The parts whose values a step's value follows: not the condition of a choice."""
    return step.parts[1:] if step.kind == "IF" else step.parts


def _handed_on(recorder, step, factor):
    """(part, what it counts for) for each part of a step that counts for a factor."""
    kind, parts = step.kind, step.parts
    if kind == "+":
        return [(part, factor) for part in parts]
    if kind == "-":
        return [(parts[0], factor), (parts[1], recorder.subtract(0.0, factor))]
    if kind == "*":
        a, b = parts
        return [(a, recorder.multiply(factor, b)), (b, recorder.multiply(factor, a))]
    if kind == "/":
        share = recorder.divide(factor, parts[1])
        return [(parts[0], share),
                (parts[1], recorder.subtract(0.0, recorder.multiply(share, step)))]  # fmt: skip
    if kind == "^":
        base, power = parts
        if power.kind != "constant" or power.what != 2.0:
            raise NotImplementedError("the derivative of a power other than the square")
        return [(base, recorder.multiply(factor, recorder.multiply(2.0, base)))]
    if kind == "IF":
        condition, if_true, if_false = parts
        return [(if_true, recorder.where(condition, factor, 0.0)),
                (if_false, recorder.where(condition, 0.0, factor))]  # fmt: skip
    if kind == "MAX":
        below = parts[0] < parts[1]
        return [(parts[0], recorder.where(below, 0.0, factor)),
                (parts[1], recorder.where(below, factor, 0.0))]  # fmt: skip
    if kind == "ATAN2":
        x, y = parts
        share = recorder.divide(factor, x * x + y * y)
        return [(y, recorder.multiply(share, x)),
                (x, recorder.subtract(0.0, recorder.multiply(share, y)))]  # fmt: skip
    return [(parts[0], _OF_ONE[kind](recorder, step, parts[0], factor))]


_OF_ONE = {
    "minus": lambda r, step, x, factor: r.subtract(0.0, factor),
    "SQRT": lambda r, step, x, factor: r.divide(factor, r.multiply(2.0, step)),
    "SIN": lambda r, step, x, factor: r.multiply(factor, r.cos(x)),
    "COS": lambda r, step, x, factor: r.subtract(0.0, r.multiply(factor, r.sin(x))),
    "TAN": lambda r, step, x, factor: r.multiply(factor, 1.0 + step * step),
    "ABS": lambda r, step, x, factor: r.where(x < 0.0, r.subtract(0.0, factor), factor),
    "DEGREES": lambda r, step, x, factor: r.make("DEGREES", factor),
    "RADIANS": lambda r, step, x, factor: r.make("RADIANS", factor),
}
"""What its one part counts for, of a step that counts for a factor, by its kind."""
