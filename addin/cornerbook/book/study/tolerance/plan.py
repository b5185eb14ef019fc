"""How far each point of a workbook's corners may be off: from one length, or from a file.

A tolerance file (TOML) has lengths in the workbook's unit:

    within = 1.0                        # every point of every corner, unless said below

    [Front]                             # a block by its name
    within = 0.8                        # its points, unless said
    "upper ball joint" = 0.3            # one point, all three coordinates
    "tie rod inner" = [0.5, 0.5, 1.0]   # its x, y and z

    [[jig]]                             # points that move together
    name = "front bulkhead"
    block = "Front"                     # may be left out where there is one block
    points = ["lower front pickup", "upper front pickup"]
    within = [0.5, 0.5, 0.5]

A point of a jig moves with it, and on its own besides only by what is written for it by name.
"""

from ....cells.block import key_of
from ...file.trouble import Trouble
from ...make.texts.text_files import LARGEST_NUMBER, TextFile, kind_name, nearest, number_said

AXES = "xyz"


class Point:
    """A row of a block that is spread: its name as typed and its cells (sheet, address)."""

    def __init__(self, name, cells):
        self.name = name
        self.cells = tuple(cells)


class SpreadBlock:
    """A block of the workbook with its points."""

    def __init__(self, name, points):
        self.name = name
        self.points = tuple(points)


class Amount:
    """One random amount: what it moves, and by how much at most, its tolerance.

    name: as shown. part: what a better jig would hold, a coordinate's own name or that of
    the whole jig. cells: the coordinates that it is added to.
    """

    def __init__(self, name, part, cells, within):
        self.name = name
        self.part = part
        self.cells = tuple(cells)
        self.within = within


PICKUP = key_of("lower front pickup")
"""A block with this row is a corner that is welded."""


def welded(blocks):
    """The blocks that are spread unless a file says otherwise: corners with their pickups.

    Others, such as a beam axle to compare with or a steering column, are spread only where a
    file names them. Where no block has pickups, all are.
    """
    corners = [b for b in blocks if any(key_of(p.name) == PICKUP for p in b.points)]
    return corners or list(blocks)


def same_for_all(blocks, within):
    """The amounts where every coordinate of every welded corner has one tolerance."""
    _hold_length(within, "within")
    return [amount for block in welded(blocks) for point in block.points
            for amount in _of_point(block, point, (within,) * 3)]  # fmt: skip


def from_file(path, blocks, within):
    """The amounts as a tolerance file has them; within: where it says nothing."""
    return _Reader(TextFile(path), blocks, within).amounts()


def _of_point(block, point, within):
    for axis, cell, length in zip(AXES, point.cells, within, strict=True):
        if length > 0.0:
            name = f"{block.name}: {point.name}, {axis}"
            yield Amount(name, name, (cell,), length)


def _hold_length(length, said):
    if isinstance(length, bool) or not isinstance(length, (int, float)):
        raise Trouble(f"{said}: {kind_name(length)} given, a length was expected")
    if not 0.0 <= length <= LARGEST_NUMBER:
        wanted = f"a length of 0 or more, at most {LARGEST_NUMBER:.0f}, was expected"
        raise Trouble(f"{said}: {number_said(length)} given, {wanted}")


class _Reader:
    """A tolerance file made into amounts, held to the blocks that it may name."""

    def __init__(self, file, blocks, within):
        self.file = file
        self.blocks = {block.name.lower(): block for block in blocks}
        self.within = within

    def amounts(self):
        content = dict(self.file.content)
        overall = self._lengths(content.pop("within", self.within), "within")
        jigs = content.pop("jig", [])
        if not isinstance(jigs, list) or not all(isinstance(jig, dict) for jig in jigs):
            raise self.file.trouble("a jig begins with a line [[jig]]", "jig")
        asked = {}
        for name, table in content.items():
            block = self._block(name)
            if not isinstance(table, dict):
                raise self.file.trouble(
                    (
                        f"{name} is {kind_name(table)}; a line [{name}] with its points below "
                        "was expected"
                    ),
                    name,
                )
            asked[block.name] = self._of_block(block, dict(table), overall)
        held, together = set(), []
        for number, jig in enumerate(jigs, 1):
            together += self._jig(jig, number, asked, overall, held)
        found = []
        unasked = (0.0,) * 3
        corners = [block.name for block in welded(self.blocks.values())]
        for block in self.blocks.values():
            otherwise = overall if block.name in corners else unasked
            default, own = asked.get(block.name, (otherwise, {}))
            for point in block.points:
                within = own.get(key_of(point.name))
                if within is None:
                    # A jig holds its points, unless the file gives one its own besides.
                    within = (0.0,) * 3 if (block.name, point.name) in held else default
                found += _of_point(block, point, within)
        return found + together

    def _of_block(self, block, table, overall):
        default = self._lengths(table.pop("within", overall), "within")
        own = {}
        for name, value in table.items():
            own[key_of(self._point(block, name).name)] = self._lengths(value, name)
        return default, own

    def _jig(self, jig, number, asked, overall, held):
        known = ("name", "block", "points", "within")
        for key in jig:
            if key not in known:
                raise self.file.trouble(f'a jig has no "{key}"; {nearest(key, known)}', key)
        name = jig.get("name", f"jig {number}")
        if not isinstance(name, str):
            raise self.file.trouble("the name of a jig is a text in quotation marks", "name")
        if "block" not in jig and len(self.blocks) != 1:
            raise self.file.trouble(
                (
                    f'the jig "{name}" must say its block, one of: '
                    f"{', '.join((block.name for block in self.blocks.values()))}"
                ),
                "jig",
            )
        block = self._block(jig["block"]) if "block" in jig else next(iter(self.blocks.values()))
        names = jig.get("points")
        if not isinstance(names, list) or not names:
            raise self.file.trouble(
                f'the jig "{name}" needs points = [...], the points that it moves', "jig"
            )
        default, _ = asked.get(block.name, (overall, {}))
        within = self._lengths(jig.get("within", default), "within")
        points = list({point.name: point for point in
                       (self._point(block, one) for one in names)}.values())  # fmt: skip
        held.update((block.name, point.name) for point in points)
        part = f"{block.name}: {name} (jig)"
        return [
            Amount(f"{part}, {axis}", part, [point.cells[i] for point in points], within[i])
            for i, axis in enumerate(AXES)
            if within[i] > 0.0
        ]

    def _block(self, name):
        found = self.blocks.get(str(name).lower())
        if found is None:
            known = [block.name for block in self.blocks.values()]
            raise self.file.trouble(
                (
                    f"{name} is no block that a result of the workbook needs; "
                    f"{nearest(str(name), known)}"
                ),
                str(name),
            )
        return found

    def _point(self, block, name):
        for point in block.points:
            if isinstance(name, str) and key_of(point.name) == key_of(name):
                return point
        known = [point.name for point in block.points]
        raise self.file.trouble(
            f'"{name}" is no point of {block.name}; {nearest(str(name), known)}',
            str(name),
        )

    def _lengths(self, value, word):
        if isinstance(value, tuple):
            return value
        values = value if isinstance(value, list) else [value] * 3
        try:
            if len(values) != 3:
                raise Trouble(f"{word}: {len(values)} lengths given, x, y and z were expected")
            for one in values:
                _hold_length(one, word)
        except Trouble as trouble:
            raise self.file.trouble(str(trouble), word) from None
        return tuple(float(one) for one in values)
