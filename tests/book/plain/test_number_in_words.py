"""A number in a sentence of a copy: its formula and its value are one."""

import pytest
from cornerbook.book.formula.evaluate import Evaluator
from cornerbook.book.formula.parse import parse
from cornerbook.book.plain.recorded.steps import Recorder
from cornerbook.book.plain.recorded.words import text_of
from cornerbook.book.plain.recorded.work import evaluated

NUMBERS = (
    0.0, -0.0, 1.0, -7.0, 0.5, 2.25, 1.005, -3.14159265, 0.000004, -0.000004, 0.1 + 0.2,
    99999.999996, 1e-12, 1234567.123456,
)  # fmt: skip


@pytest.mark.parametrize("number", NUMBERS)
def test_a_number_is_said_as_its_formula_says_it(number):
    recorder = Recorder()
    asked = recorder.input("asked")
    for step in (recorder.in_words(asked), recorder.in_words(asked.rounded(2))):
        shown = evaluated(step, {"asked": number}.get, {})
        inner = "A1" if step.parts[0] is asked else "ROUND(A1,2)"
        formula = text_of(step, inner).replace("A1", f"({number!r})")
        assert shown == Evaluator(None).value(parse("=" + formula), ("S", 0, 0))
        digits = 5 if step.parts[0] is asked else 2
        assert float(shown) == pytest.approx(number, abs=0.5001 * 10**-digits, rel=1e-15)
        assert "." not in shown or not shown.endswith("0")


def test_a_number_that_is_not_reached_has_no_words():
    recorder = Recorder()
    shown = evaluated(recorder.in_words(recorder.input("asked")), lambda _: float("nan"), {})
    assert shown != shown
