"""How each spreadsheet program wants our formulas spelled in a file."""

TARGETS = ("calc",)


def spelled(formula, target):
    """A formula as it is stored for a target program.

    Calc stores an add-in's call under its programmatic name, which is the name that our
    formulas carry, so nothing changes there. Others join here.
    """
    if target not in TARGETS:
        raise ValueError("no spelling is known for %s" % target)
    return formula
