"""Which ranges of a workbook are taken as blocks, such as the points of a corner."""

from ....catalogue import FORMULAS
from ...file.trouble import Trouble
from ...formula.parse import nodes


def blocks_behind(trees, cells):
    """Ranges that formulas take as blocks on the way to these cells, in order, once each.

    trees: the `Trees` of the workbook. cells: [(sheet, address)].
    """
    found, seen, waiting = {}, set(), list(reversed(cells))
    while waiting:
        cell = waiting.pop()
        if cell in seen:
            continue
        seen.add(cell)
        for reference, is_block in _references(trees, cell):
            try:
                place = trees.place(reference, trees.at(cell))
            except Trouble:
                continue
            if is_block:
                found[place] = None
            else:
                waiting.extend(trees.filled(place))
    return list(found)


def _references(trees, cell):
    """(text, whether it is given as a block) of every reference in a cell's formula."""
    first = trees.first_of_array(cell) or cell
    content = trees.content(first)
    if content is None or content.formula is None:
        return
    try:
        found = list(nodes(trees.tree(first)))
    except Trouble:
        return
    blocks = set()
    for node in found:
        for argument in _blocks_of(node):
            blocks.update(id(n) for n in nodes(argument) if n[0] == "reference")
    # From the right, as the points come that a seed's deviations are dealt to one after another.
    for node in reversed(found):
        if node[0] == "reference":
            yield node[1], id(node) in blocks


def _blocks_of(node):
    """The arguments of a call of ours that are blocks."""
    if node[0] != "call" or not node[1].startswith("CORNER."):
        return
    entry = FORMULAS.get(node[1][len("CORNER.") :])
    for described, argument in zip(entry.arguments if entry else (), node[2], strict=False):
        if described.kind == "block" and argument is not None:
            yield argument
