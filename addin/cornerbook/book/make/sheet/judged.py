"""Results that are judged by a wish, and where each stands, for what shows them elsewhere."""

from ...file.address import cell_name
from ...formula.rewrite import quoted


class Judged:
    """A result beside its band and its verdict.

    sheet: the `Sheet`. row: its row there. value, low, high, verdict: the columns of these.
    label, kind, unit: as it is shown there; a label that begins with = is a formula, where the
    words are the user's and may be blank. said: those that stand there now, if others.
    """

    def __init__(self, sheet, row, value, low, high, verdict, label, kind, unit, said=None):
        self.sheet = sheet
        self.row = row
        self.value = value
        self.low = low
        self.high = high
        self.verdict = verdict
        self.label = label
        self.kind = kind
        self.unit = unit
        self.said = label if said is None else said

    def cell(self, what):
        """The cell of its "value", "low", "high" or "verdict", as any sheet's formula has it."""
        return f"{quoted(self.sheet.name)}!{cell_name(self.row, getattr(self, what), True)}"


def verdict(value, low, high, blank=False):
    """The formula that judges a cell by the cells of a band; a blank end is no limit.

    An end that holds a text is none that is known. blank: whether an empty text in the cell is
    nothing to judge.
    """
    inside = f'AND(OR({low}="",{value}>={low}),OR({high}="",{value}<={high}))'
    both = f"AND(ISNUMBER({low}),ISNUMBER({high}))"
    known = f'AND(ISNUMBER({value}),OR({low}="",ISNUMBER({low})),OR({high}="",ISNUMBER({high})))'
    nothing = f'AND({low}="",{high}="")'
    if blank:
        nothing = f'OR({value}="",{nothing})'
    return (
        f'=IF({nothing},"",IF(IF({both},{low}>{high},FALSE),"{SWAPPED}",'
        f'IF({known},IF({inside},"{WITHIN}","{OUTSIDE}"),"{UNKNOWN}")))'
    )


WITHIN, OUTSIDE, UNKNOWN, SWAPPED = "pass", "look here", "not known", "from is above to"
"""What a verdict says; nothing where there is no wish."""
