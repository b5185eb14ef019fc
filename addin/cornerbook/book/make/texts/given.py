"""Numbers of a car that are given beside a scenario's file, or in place of one."""

from . import units
from .toml_text import quoted_text
from .tree import at, put


class Given:
    """Numbers in one unit.

    title: the car's name; unit: "mm" or "in"; numbers: {key with dots: a
    number in it}; wrong: sentences on those that are not good.
    """

    def __init__(self, title, unit, numbers, wrong=()):
        self.wrong = list(wrong)
        self.title = title
        self.unit = unit
        self.numbers = numbers

    def text(self):
        """A scenario of these numbers alone, as text."""
        tables: dict = {}
        for key, number in self.numbers.items():
            *table, name = key.split(".")
            tables.setdefault(".".join(table), []).append(f"{quoted_text(name)} = {number!r}")
        lines = [f"title = {quoted_text(self.title)}", f'unit = "{self.unit}"']
        for table, rows in tables.items():
            lines += [f"[{table}]", *rows]
        return "\n".join(lines) + "\n"

    def add_to(self, scenario, mistakes):
        """Add them to a `Scenario`; one that it has is a mistake, for which of both is meant?"""
        for key, number in self.numbers.items():
            path = key.split(".")
            found, value = at(scenario.file.content, path)
            if found:
                said = f"{key} stands here as {value} and is given as an option too; leave one out"
                mistakes.take(scenario.wrong(said, key))
            elif self._has_table(scenario, path):
                put(scenario.file.content, path, self._in(number, scenario.unit))

    @staticmethod
    def _has_table(scenario, path):
        """Whether there is room: no table on the way is something else."""
        inside = scenario.file.content
        for name in path[:-1]:
            inside = inside.get(name, {})
            if not isinstance(inside, dict):
                return False
        return True

    def _in(self, number, unit):
        return units.converted(number, "length", self.unit, unit)
