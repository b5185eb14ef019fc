"""What a survey found, in sentences."""

from .advice import advised
from .measured import DISTANCE

SHOWN = 6
"""How many points or measurements a sentence names."""


def sentences(survey):
    """Sentences on an adjusted `Survey`, the weightiest first."""
    adjusted = survey.adjusted
    count = len(adjusted.measurements)
    yield (
        f"{_many(count, 'measurement')} of {_many(len(survey.used), 'point')}, "
        f"{_many(adjusted.spare, 'one')} more than needed".replace("1 one ", "one ")
        .replace(" ones ", " ")
    )  # fmt: skip
    yield from _misread(survey)
    likelihood = adjusted.likelihood
    if likelihood is None:
        yield (
            "nothing checks anything: a misreading would not show; measure more than is needed, "
            "lengths that cross most of all"
        )
    elif likelihood < 0.001:
        yield (
            "what is left does not agree within how sure it is said to be: the readings are less "
            "sure than said, or more than one is misread"
        )
    elif likelihood > 0.999:
        yield "they agree better than how sure they are said to be: they were surer than said"
    yield from _unfixed(survey)
    if adjusted.afloat:
        yield (
            f"{_many(adjusted.afloat, 'movement')} of the whole, or of parts that nothing ties, "
            "not fixed by any measurement: moved from the drawing as little as can be; heights "
            "and plumbed x and y would fix them"
        )
    unchecked = [
        one.words for one, share in zip(adjusted.measurements, adjusted.redundancy, strict=True)
        if share < 0.05
    ]  # fmt: skip
    if unchecked and adjusted.spare > 0:
        yield "checked by hardly any other: " + _some(unchecked)


def _misread(survey):
    suspects = survey.suspects
    if not suspects:
        return
    if survey.left_out is not None:
        one = survey.left_out
        now = one.of(survey.places_of_used)
        yield (
            f"most likely misread, and left out: {one.words}, {one.value:.1f} as measured, "
            f"{now:.1f} by all the others"
        )
        return
    yield (
        "something is misread, and which of these cannot be told; none is left out, measure them "
        "again: " + _some([one.words for one in suspects])
    )


def _unfixed(survey):
    adjusted = survey.adjusted
    loose = [survey.corner.words(survey.used[i]) for i in range(len(survey.used))
             if adjusted.loose[i]]  # fmt: skip
    if not loose:
        return
    words = "not fixed by what was measured: " + _some(loose)
    more = [
        ("the distance " if one.kind == DISTANCE else one.kind + " of ")
        + " to ".join(survey.corner.words(survey.used[point]) for point in one.points)
        for one in advised(adjusted, len(survey.used))
    ]  # fmt: skip
    yield words + ("; what would: " + _some(more) if more else "")


def _many(count, word):
    return f"{count} {word}" + ("" if count == 1 else "s")


def _some(words):
    rest = len(words) - SHOWN
    return ", ".join(words[:SHOWN]) + (f" and {rest} more" if rest > 0 else "")
