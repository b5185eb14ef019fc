"""A block of any kind as it is, of which another one changes something."""

from .block import Block


class SeenBlock(Block):
    """All of another block: what is changed, one made of this says in its own way."""

    def __init__(self, block):
        self._block = block

    def has(self, label):
        return self._block.has(label)

    def has_rocker(self):
        return self._block.has_rocker()

    def word(self, label, choices):
        return self._block.word(label, choices)

    def value(self, label):
        return self._block.value(label)

    def point(self, label):
        return self._block.point(label)
