"""Main dimensions that are given as options of a command, in place of a scenario or beside one."""

import re

from ...make.texts import units
from ...make.texts.given import Given
from .keys import known_keys
from .sound import out_of_limits

OPTIONS = {
    "--wheelbase": "car.wheelbase",
    "--front-track": "car.front_track",
    "--rear-track": "car.rear_track",
    "--tyre-radius": "corner.front.Tyre radius",
}
"""The key of a scenario for each option."""


def given_by(options, unit, title):
    """A `Given` of {option: text}, None where all texts are None.

    unit: of the lengths. title: the car's name. Each text that is no number, or none for such a
    length, has its sentence in `Given.wrong`.
    """
    numbers, wrong = {}, []
    for option, text in options.items():
        if text is None:
            continue
        key = known_keys()[OPTIONS[option]]
        number = _number(text)
        if number is None:
            wrong.append(f'{option}: "{text}" is no number; {_example(text, unit)}')
            continue
        said = out_of_limits(units.converted(number, "length", unit, "mm"), key, unit)
        if said:
            wrong.append(f"{option}: {said}")
            continue
        numbers[OPTIONS[option]] = int(number) if number.is_integer() else number
    return Given(title, unit, numbers, wrong) if numbers or wrong else None


def _number(text):
    """The number of a text, None where it is none; nan and infinity are none."""
    plain = re.fullmatch(r"\s*[+-]?(\d+\.?\d*|\.\d+)\s*", text)
    return float(text) if plain and len(text) < 40 else None


def _example(text, unit):
    if re.fullmatch(r"\s*[+-]?\d+,\d+\s*", text):
        return f"with a decimal point it is {text.strip().replace(',', '.')}"
    return f"a length in {unit} was expected, such as {'1600' if unit == 'mm' else '63'}"
