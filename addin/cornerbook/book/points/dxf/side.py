"""One side of the car in a drawing."""

from itertools import pairwise

from .marks import RIGHT

# Layers and their colours by the format's own index, on which all programs agree.
LAYERS = {
    "POINTS": 7, "LABELS": 7, "ARMS": 5, "TIE ROD": 3, "AXIS": 1, "WHEEL": 8, "GROUND": 9,
    "SPRING": 6,
}  # fmt: skip


class Side:
    """Draws one corner: the left-hand one as it is, the right-hand one mirrored, each on
    layers of its own.

    doc: the drawing. is_left: which. height: of a text.
    """

    def __init__(self, doc, is_left, height):
        self.doc = doc
        self.space = doc.modelspace()
        self.is_left = is_left
        self.height = height

    def layer(self, name):
        """The attributes that put an entity on a layer, which is made if it is not there."""
        layer = name if self.is_left else name + RIGHT
        if layer not in self.doc.layers:
            self.doc.layers.add(layer, color=LAYERS[name])
        return {"layer": layer}

    def at(self, point):
        """A place in the drawing, of a `Vec` or of x, y, z of the left-hand corner."""
        x, y, z = (point.x, point.y, point.z) if hasattr(point, "x") else point
        return (x, y if self.is_left else -1.0 * y, z)

    def line(self, layer, *points):
        """Lines from point to point; none between points in one place."""
        places = [self.at(point) for point in points]
        for start, end in pairwise(places):
            if start != end:
                self.space.add_line(start, end, dxfattribs=layer)

    def text(self, text, place):
        """A text on the layer of labels, at a place in the drawing; the entity."""
        attributes = {**self.layer("LABELS"), "insert": place}
        return self.space.add_text(text, height=self.height, dxfattribs=attributes)
