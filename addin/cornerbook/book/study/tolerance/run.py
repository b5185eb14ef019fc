"""The command's study of how builds differ: from a workbook to the workbook of results."""

from ...file.trouble import Trouble
from .parts import SHOWN
from .sheets.write import to_xlsx
from .study import Study

SPREADS = ("normal", "uniform")
FEWEST, MOST = 1000, 1_000_000


class Task:
    """A study that is asked of a workbook, read and found good; nothing is built yet.

    within: a tolerance for every coordinate. file: a tolerance file. Raises `Trouble` for what
    cannot be asked.
    """

    def __init__(
        self, path, within=None, file=None, spread="normal", cars=100_000, seed=1
    ):  # fmt: skip
        _hold(cars, seed)
        self._study = Study(path)
        self._amounts = self._study.amounts(within, file)
        self._how = (spread, cars, seed)

    def run(self, bar=True):
        """The new workbook's bytes, and one sentence on it.

        bar: show progress on standard error, where that is a terminal.
        """
        with _Bar(self._how[1] if bar else None) as progress:
            outcome = self._study.run(self._amounts, *self._how, progress)
        return to_xlsx(outcome), " ".join([said(outcome), *self._study.values.doubts()])


def tolerance(path, within=None, file=None, spread="normal", cars=100_000, seed=1, bar=True):
    """What a `Task` comes to; see there for what each argument is."""
    return Task(path, within, file, spread, cars, seed).run(bar)


def _hold(cars, seed):
    if not FEWEST <= cars <= MOST:
        raise Trouble(f"--cars: {cars} given, from {FEWEST} to {MOST} were expected")
    if seed < 0:
        raise Trouble(f"--seed: {seed} given, a whole number of 0 or more was expected")


def said(outcome):
    """One sentence on what came out: first what is wrong with the drawing itself."""
    words = ""
    if outcome.failing:
        names = ", ".join(
            f"{result.shown} ({result.drawn:.4g}, wanted {result.band})"
            for result in outcome.failing
        )
        words = f"the drawing itself is outside what is wanted: {names}; of the rest, "
    words += f"{outcome.cars} cars"
    if outcome.banded:
        words += f", {100.0 * outcome.passing:.1f} % within all bands"
    best = [outcome.parts[i] for i in outcome.ranking[:SHOWN]]
    if best:
        words += "; most worth a better jig: " + "; ".join(best)
    return words


class _Bar:
    """A progress bar on standard error, where that is a terminal and tqdm is installed."""

    def __init__(self, cars):
        self.cars = cars
        self.bar = None

    def __enter__(self):
        if self.cars is None:
            return None
        try:
            from tqdm import tqdm
        except ImportError:
            return None
        self.bar = tqdm(total=self.cars, unit=" cars", disable=None, leave=False)
        return self.bar.update

    def __exit__(self, *_):
        if self.bar is not None:
            self.bar.close()
