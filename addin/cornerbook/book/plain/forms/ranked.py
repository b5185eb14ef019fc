"""The plain form of SENSITIVITIES: exact slopes by every coordinate, ranked by the first."""

from ....catalogue.study.sensitivity import NOTHING, numbers_of
from ....cells.mend import Mend
from ....cells.quantity import chosen, name_of, of_axle
from ..workings.formula_text import constant_text
from ..workings.ranking import Ranking
from ..workings.spread import Spread
from .given import ZERO, guards_of
from .places import Place, Range


class RankedForm:
    """SENSITIVITIES: the slopes as SENSITIVITY has them, and a table that ranks them.

    workings: the `Workings`.
    """

    def __init__(self, workings):
        self._workings = workings

    def place(self, given):
        """The `Range` of a call; see `OrdinaryForm.place`."""
        quantities, corner = given["quantities"], given["corner"]
        key = ("SENSITIVITIES", *(one and one.identity for one in given.values()))
        spreads = self._workings.spreads
        if key not in spreads:
            wanted = chosen("quantities", quantities.names())
            block = self._workings.block(corner)
            asked = [self._asked(entry, given) for entry in wanted]
            rows, wrong = [], []
            for coordinate in numbers_of(block.points.block):
                row = [
                    self._slope(block, entry, numbers, coordinate)
                    for entry, numbers in zip(wanted, asked, strict=True)
                ]
                if any(place is not None for place in row):
                    rows.append((coordinate.name, [place and place.cell for place in row]))
            if not rows:
                raise Mend(NOTHING)
            for entry, numbers in zip(wanted, asked, strict=True):
                table = block.slopes(entry)
                wrong.append(Place(table, table.call_row(numbers), table.wrong(entry)).cell)
            if given["wheelbase"] is not None and not any(map(of_axle, wanted)):
                said = spreads[key, "wheelbase"] = _wheelbase_said(block.name, given["wheelbase"])
                wrong.append(Place(said, 0, list(said.shown)[-1]).cell)
            ranking = Ranking(block.name, [name_of(entry) for entry in wanted], rows, wrong)
            spreads[key, "work"], spreads[key] = ranking.work, ranking.shown
        return Range(spreads[key], guards_of(quantities))

    @staticmethod
    def _asked(entry, given):
        """The numbers of a pose, as `Asked` by name."""
        asked = {name: (given[name] or ZERO).asked() for name in ("travel", "rack")}
        if of_axle(entry):
            if given["wheelbase"] is None:
                raise Mend(f"wheelbase is missing; {name_of(entry)} needs it")
            asked["wheelbase"] = given["wheelbase"].asked()
        return asked

    @staticmethod
    def _slope(block, entry, asked, coordinate):
        """The `Place` of a slope; None where the quantity has nothing to do with it."""
        table = block.slopes(entry)
        step = table.slope(entry, coordinate)
        if not table.depends(entry, coordinate):
            return None
        return Place(table, table.call_row(asked), step)


def _wheelbase_said(name, given):
    """A `Spread` of a wheelbase that no quantity asks for, and is given all the same, and of what
    is wrong with it: an empty text for nothing."""
    named, wanted = '# wheelbase: "', '" given, a number was expected'
    spread = Spread(f"CORNER.SENSITIVITIES of {name}: what is given", ["wheelbase", "wrong"])

    def text():
        cell = spread.layout.reference(next(iter(spread.shown)), 0)
        said = "&".join((constant_text(named), cell, constant_text(wanted)))
        said = f'IF(LEFT({cell},2)="# ",{cell},{said})'
        return f'=IF(OR({cell}="",ISNUMBER({cell})),"",{said})'

    def value():
        now = given.value
        if now is None or now == "" or isinstance(now, (int, float)):
            return ""
        return now if str(now)[:2] == "# " else f"{named}{now}{wanted}"

    spread.add([(lambda: "=" + given.text, lambda: given.value), (text, value)])
    return spread
