"""What a drawing shows of a corner besides its points, for the eye."""

from ....cells.block import POINTS
from ....cells.corner import has_rocker
from ....cells.mend import Mend
from .marks import library


class Pieces:
    """Arms, tie rod, steering axis, wheel, ground and spring, each on a layer of its own.

    block, corner: the `Block` and the `Corner`. size: about that of the wheel.
    """

    def __init__(self, block, corner, size):
        self.block = block
        self.corner = corner
        self.size = size

    def draw(self, side):
        """Draw those that the block has rows for; returns sentences on what could not be."""
        messages = []
        for layer, needed, piece in (
            ("ARMS", POINTS[1:7], self._arms),
            ("TIE ROD", POINTS[7:9], self._tie_rod),
            ("AXIS", (*POINTS[0:2], POINTS[4], "tyre radius"), self._axis),
            ("WHEEL", (POINTS[0], "tyre radius"), self._wheel),
            ("GROUND", (POINTS[0], "tyre radius"), self._ground),
            ("SPRING", ("rod outer", "spring frame"), self._spring),
        ):
            if not all(self.block.has(label) for label in needed):
                continue
            try:
                piece(side, side.layer(layer))
            except Mend as mend:
                messages.append(f"{layer}: not drawn, because {mend}.")
        return messages

    def _arms(self, side, layer):
        for arm in ("lower", "upper"):
            ball = self.block.point(arm + " ball joint")
            for end in ("front", "rear"):
                side.line(layer, self.block.point(f"{arm} {end} pickup"), ball)

    def _tie_rod(self, side, layer):
        side.line(layer, self.block.point("tie rod inner"), self.block.point("tie rod outer"))

    def _axis(self, side, layer):
        drawn = self.corner.drawn
        side.line(layer, drawn.upper, drawn.lower, drawn.axis_at_ground())

    def _wheel(self, side, layer):
        drawn = self.corner.drawn
        normal = side.at(drawn.spindle)
        # A circle's centre is given in the axes that its extrusion spans.
        centre = library().math.OCS(normal).from_wcs(side.at(drawn.wheel_centre))
        side.space.add_circle(centre, drawn.radius, dxfattribs={**layer, "extrusion": normal})

    def _ground(self, side, layer):
        x, y, z = side.at(self.corner.drawn.contact_centre())
        half, short = self.size, side.height
        corners = [(x + a * half, y + b * half, z) for a, b in ((1, 1), (-1, 1), (-1, -1), (1, -1))]
        side.space.add_polyline3d(corners, close=True, dxfattribs=layer)
        side.space.add_line((x - short, y, z), (x + short, y, z), dxfattribs=layer)
        side.space.add_line((x, y - short, z), (x, y + short, z), dxfattribs=layer)

    def _spring(self, side, layer):
        point = self.block.point
        if not has_rocker(self.block):
            side.line(layer, point("rod outer"), point("spring frame"))
            return
        side.line(layer, point("rod outer"), point("rod inner"), point("rocker pivot"),
                  point("spring rocker"), point("spring frame"))  # fmt: skip
        side.line(layer, point("rocker pivot"), point("rocker axis"))
