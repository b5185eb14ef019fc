"""A scenario: the numbers of a car, as text that anyone can edit."""

from . import units
from .text_files import TextFile, kind_name, nearest


class Scenario:
    """A scenario file. Numbers are given in its own unit system, `unit` ("mm" or "in").

    Every method takes a key with dots, such as "car.wheelbase", and raises `Trouble` with
    the file and the key where the scenario has no such value or one of the wrong kind.
    """

    def __init__(self, path):
        self.file = TextFile(path)
        self.unit = self._of("unit", str)
        if self.unit not in units.SYSTEMS:
            raise self.file.trouble(f'the unit is "{self.unit}"; "mm" or "in" was expected', "unit")
        self.title = self._of("title", str)

    def value(self, key, kind, system):
        """A number or text of a kind, in the wanted unit system."""
        value = self._of(key, str if kind == "text" else float)
        return units.converted(value, kind, self.unit, system)

    def band(self, key, kind, system):
        """A target band's two ends, in the wanted unit system."""
        ends = self._of(key, list)
        if len(ends) != 2 or not all(_is_number(end) for end in ends) or ends[0] > ends[1]:
            raise self.file.trouble(
                f"{key} is no band; two numbers were expected, the smaller first: [low, high]",
                key.split(".")[-1],
            )
        return [units.converted(float(end), kind, self.unit, system) for end in ends]

    def corner(self, key, system):
        """A corner's rows: tuples of a name, a kind, and one or three numbers or a word."""
        table = self._of(key, dict)
        rows = []
        for label, value in table.items():
            if isinstance(value, str):
                rows.append((label, "text", [value]))
                continue
            numbers = value if isinstance(value, list) else [value]
            if len(numbers) not in (1, 3) or not all(_is_number(n) for n in numbers):
                raise self.file.trouble(
                    (
                        f'{key}: the row "{label}" has no number; [x, y, z], one number or a '
                        "word was expected"
                    ),
                    label,
                )
            kind = "angle" if len(numbers) == 1 and "radius" not in label.lower() else "length"
            rows.append(
                (label, kind, [units.converted(float(n), kind, self.unit, system) for n in numbers])
            )
        return rows

    def adjusters(self, key, system):
        """Tuples of a name, what it moves, and how far for each turn: (dx, dy, dz)."""
        rows = []
        for name, content in self._of(key, dict).items():
            good = isinstance(content, dict) and isinstance(content.get("moves"), str)
            way = content.get("turn") if good else None
            if not isinstance(way, list) or len(way) != 3 or not all(map(_is_number, way)):
                raise self.file.trouble(
                    f'{key}: "{name}" needs moves = "..." and turn = [dx, dy, dz]', name
                )
            turn = [units.converted(float(n), "length", self.unit, system) for n in way]
            rows.append((name, content["moves"], turn))
        return rows

    def _of(self, key, wanted):
        value = self.file.content
        for part in key.split("."):
            if not isinstance(value, dict) or part not in value:
                known = value if isinstance(value, dict) else {}
                raise self.file.trouble(
                    f'the key "{key}" is missing{"; " + nearest(part, known) if known else ""}'
                )
            value = value[part]
        if wanted is float and _is_number(value):
            return float(value)
        if wanted is not float and isinstance(value, wanted):
            return value
        expected = {float: "a number", str: "a text", list: "a list", dict: "a table"}[wanted]
        raise self.file.trouble(
            f"{key} is {kind_name(value)}; {expected} was expected", key.split(".")[-1]
        )


def _is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)
