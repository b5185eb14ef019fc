"""Few numbers of many cars, as a builder has them at first: plausible and wide. In mm.

What is given besides the main dimensions stands about where small cars have it (common practice,
no source). None of it asks the package anything.
"""

import numpy as np

KINDS = ("bare", "bare", "caster", "rack", "lock", "ball joint", "frame", "wishes")
"""What is given besides wheelbase, front track and tyre radius."""


def few_cars(seed, n):
    """n tuples of a kind and a scenario's content."""
    generator = np.random.default_rng(seed)
    return [_few(generator, KINDS[generator.integers(len(KINDS))]) for _ in range(n)]


def _few(generator, kind):
    def between(low, high, digits=0):
        value = float(generator.uniform(low, high))
        return round(value, digits) if digits else float(round(value))

    radius, track = between(200, 340), between(700, 1500)
    content = {
        "car": {"wheelbase": between(1100, 2600), "front_track": track},
        "corner": {"front": {"Tyre radius": radius}},
    }
    rows = content["corner"]["front"]
    half = 0.5 * track
    if kind == "caster":
        content["wanted"] = {"caster": between(3, 10, 1)}
    elif kind == "rack":
        # Behind the axle line, at the height of the hub or below it.
        rows["Tie rod inner"] = [
            -between(0.2 * radius, 0.4 * radius),
            between(0.3 * half, 0.42 * half),
            between(0.65 * radius, 0.85 * radius),
        ]
    elif kind == "lock":
        content["range"] = {"lock": between(38, 55)}
    elif kind == "ball joint":
        # Inboard of the rim, whose half width is about a tenth of the radius.
        inboard = 0.107 * radius + between(15, 25)
        rows["Lower ball joint"] = [
            between(0, 10),
            float(round(half - inboard)),
            between(0.5 * radius, 0.65 * radius),
        ]
    elif kind == "frame":
        y, z = between(0.34 * half, 0.42 * half), between(0.55 * radius, 0.65 * radius)
        rows["Lower front pickup"] = [between(0.4 * radius, 0.5 * radius), y, z]
        rows["Lower rear pickup"] = [-between(0.5 * radius, 0.6 * radius), y, z]
    elif kind == "wishes":
        aim = between(0.06, 0.1, 3) * radius
        content["target"] = {"trail": [round(0.7 * aim, 1), round(1.4 * aim, 1)]}
        content["wanted"] = {"inclination": between(7, 11, 1), "roll_centre": between(25, 60)}
    return kind, content


def as_text(content, title="Few", unit="mm"):
    """The scenario's text."""
    lines = [f'title = "{title}"', f'unit = "{unit}"']
    for table, inside in content.items():
        tables = {table: inside}
        if table == "corner":
            tables = {f"corner.{name}": rows for name, rows in inside.items()}
        for name, rows in tables.items():
            lines += [f"[{name}]", *(f'"{key}" = {_value(value)}' for key, value in rows.items())]
    return "\n".join(lines) + "\n"


def _value(value):
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {_value(part)}" for key, part in value.items()) + " }"
    return repr(value)
