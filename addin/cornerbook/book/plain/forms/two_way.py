"""The plain form of part of a TWO_WAY table: where first, middle and last row and column cross.

Each cell takes some 120 cells of workings, for a corner that is drawn otherwise is solved anew.
Nine tell how the result lies; 11 x 11 would be a third of a whole copy.
"""

from ....catalogue.study.two_way import input_named
from ....cells.changed import MOVEMENTS
from ....cells.mend import Mend
from ....cells.quantity import chosen, of_axle
from ..workings.asked import Asked
from .given import ZERO, guards_of
from .places import Place


class TwoWayForm:
    """TWO_WAY in part: what of it is live. workings: the `Workings`."""

    def __init__(self, workings):
        self._workings = workings

    def places(self, given):
        """{(row, column) from 0, the row and the column of the inputs' values being the first:
        a function for the cell's formula, without '='}; nothing where the call is wrong.

        given: {argument's name: `Given`, or None where it is left out}.
        """
        try:
            return self._places(given)
        except (Mend, NotImplementedError, TypeError, ValueError):
            return {}

    def _places(self, given):
        texts = [given[name] for name in ("quantity", "over_rows", "over_columns")]
        (entry,) = chosen("quantity", (str(texts[0].value).strip(),))
        over = [input_named("over", str(one.value).strip()) for one in texts[1:]]
        counts = [given["rows"], given["columns"]]
        if not all(one.literal for one in counts) or over[0] == over[1]:
            return {}
        rows, columns = (int(one.value) for one in counts)
        block = self._workings.block(given["corner"])
        drawn = [one for one in over if one not in MOVEMENTS]
        table = block.changed(entry, drawn)
        steps = [_steps(given, "rows", rows), _steps(given, "columns", columns)]
        fixed = {name: (given[name] or ZERO).asked() for name in MOVEMENTS}
        if of_axle(entry):
            fixed["wheelbase"] = given["wheelbase"].asked()
        guards = guards_of(*texts)
        found = {(i + 1, 0): _of(one) for i, one in enumerate(steps[0])}
        found |= {(0, j + 1): _of(one) for j, one in enumerate(steps[1])}
        for i in _ends(rows):
            for j in _ends(columns):
                asked = dict(fixed)
                for one, number in zip(over, (steps[0][i], steps[1][j]), strict=True):
                    asked[one if one in MOVEMENTS else one.name] = number
                place = Place(table, table.call_row(asked), table.result, guards)
                found[i + 1, j + 1] = place.text
        return found


def _ends(count):
    return sorted({0, (count - 1) // 2, count - 1})


def _of(asked):
    return lambda: asked.formula()[1:]


def _steps(given, side, count):
    """An `Asked` for each of the values of one input."""
    start, end = given[side + "_from"], given[side + "_to"]
    whole = end.identity.minus(start.identity)
    return [
        Asked(
            lambda i=i: f"={start.text}+(({end.text})-({start.text}))*{i}/{count - 1}",
            float(start.value) + (float(end.value) - float(start.value)) * i / (count - 1),
            start.identity.plus(whole.times(i / (count - 1))),
        )
        for i in range(count)
    ]
