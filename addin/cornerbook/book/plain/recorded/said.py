"""What is wrong with an input, as recorded steps: texts that are empty while all is well."""


class Same:
    """Steps looked for by identity: `==` between steps is recorded, not answered."""

    def __init__(self, steps):
        self.ids = {id(step) for step in steps}

    def __contains__(self, step):
        return id(step) in self.ids


def number_said(recorder, step, name, argument=None):
    """A sentence unless a given value is a number, within the limits of its argument."""
    wrong = recorder.make("&", recorder.make("&", f'# {name}: "', step),
                          '" given, a number was expected')  # fmt: skip
    # Another formula's sentence is passed on as it stands.
    passed_on = recorder.make("=", recorder.make("LEFT", step, 2.0), "# ")
    wrong = recorder.where(passed_on, step, wrong)
    fine = recorder.step("")
    if argument is not None and (argument.above is not None or argument.below is not None):
        outside = recorder.sentence(
            f"{name}: %s given, a number {argument.between} was expected", (step,)
        )
        if argument.below is not None:
            fine = recorder.where(recorder.make("<", step, argument.below), fine, outside)
        if argument.above is not None:
            fine = recorder.where(recorder.make(">", step, argument.above), fine, outside)
    return recorder.where(recorder.make("ISNUMBER", step), fine, wrong)


def listed(recorder, sentences):
    """All sentences that are not empty, each without '# ' and with '; ' behind it."""
    result = recorder.step("")
    for said in sentences:
        part = recorder.make("&", recorder.make("MID", said, 3.0, 300.0), "; ")
        part = recorder.where(recorder.make("=", said, ""), "", part)
        is_first = result.kind == "constant"
        result = part if is_first else recorder.make("&", result, part)
    return result


def closed(recorder, listed, start="# "):
    """A list of sentences with a beginning before it and no '; ' at its end."""
    length = recorder.subtract(recorder.make("LEN", listed), 2.0)
    return recorder.make("&", start, recorder.make("LEFT", listed, length))
