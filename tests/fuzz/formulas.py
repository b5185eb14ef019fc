"""Random calls of every formula by Calc's own path; run it by hand for a long one:

    .venv-test/bin/python -m tests.fuzz.formulas --calls 1000000 --seed 1

Whatever is passed, a call must give a finite number, a text, a table of those, or #N/A where the
formula may; it must not raise, and must not take long; asked again it must give the same, with
everything kept from the first time and with nothing kept. One call in ten is a good one that is
then told otherwise, as `relations.py` has it. Prints how many calls there were of each kind, what
they gave, and every fault with the call that shows it.
"""

import argparse
import collections
import math
import re
import signal
import sys
import time

from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.inputs import corner_of
from cornerbook.cells.sloped import sloped

from tests.fuzz.generate import Generator
from tests.fuzz.relations import agree, relations

LONGEST = 30
"""Seconds after which a call counts as one that hangs."""

MAY_BE_NONE = ("AT", "IN_ROLL")

_NOT_FOR_A_CELL = re.compile(r"failed inside|Traceback|\bnan\b|\binf\b|\bNone\b|object at 0x")


def fault_of(name, raw, result):
    """What is wrong with a result, in words; None where nothing is."""
    if result is None:
        return None if name in MAY_BE_NONE else "None where a number or a sentence was expected"
    if isinstance(result, tuple):
        if not result or not all(isinstance(row, tuple) for row in result):
            return "a table without rows"
        cells = [cell for row in result for cell in row]
        return next(
            filter(None, (_fault_of_cell(cell, raw) for cell in cells if cell is not None)), None
        )
    return _fault_of_cell(result, raw)


def _fault_of_cell(cell, raw):
    if isinstance(cell, str):
        found = _NOT_FOR_A_CELL.search(cell)
        # A text of the user's own is shown as it stands.
        return f"{found[0]!r} in a sentence" if found and found[0] not in repr(raw) else None
    if isinstance(cell, bool) or not isinstance(cell, (int, float)):
        return f"a {type(cell).__name__}"
    return None if math.isfinite(cell) else f"the number {cell}"


def forget():
    """Keep nothing of the calls before."""
    corner_of.cache_clear()
    sloped.cache_clear()


def same(one, other):
    """The very same result, a number of no sign (0.0 and -0.0) being one."""
    return one == other and type(one) is type(other)


class Run:
    """Calls from a seed, with what they gave. faults: (name, raw, what is wrong)."""

    def __init__(self, seed):
        self.generator = Generator(seed)
        self.made = collections.Counter()
        self.gave = collections.Counter()
        self.faults = []
        self.slowest = (0.0, None)

    def any_call(self, name):
        """One random call of a formula, or one with its relation, judged."""
        if self.generator.draw.random() < 0.1:
            self.relation(name)
        else:
            self.call(name)

    def relation(self, name, which=None):
        """A good call told otherwise. which: the relation's name; any one if left out."""
        named = self.generator.good_call_of(name)
        known = relations(self.generator.draw)
        which = which or self.generator.one_of(list(known))
        result = call(name, *named.values())
        told = known[which](name, named)
        if told is None:
            return
        self.made[which] += 1
        made, wanted, *other = told
        found = call(*(other or [name]), *made.values())
        if not agree(found, wanted(result)):
            wrong = f"told otherwise ({which}) it gives {found!r}, not {wanted(result)!r}"
            self.faults.append((name, tuple(named.values()), wrong))

    def call(self, name, kind=None):
        """One random call of a formula, judged; now and then again, warm and cold."""
        kind, raw = self.generator.call_of(name, kind)
        self.made[kind] += 1
        began = time.perf_counter()
        try:
            result = call(name, *raw)
        except Exception as error:
            self.faults.append((name, raw, f"raised {error!r}"))
            return
        took = time.perf_counter() - began
        if took > self.slowest[0]:
            self.slowest = (took, name)
        self.gave[_sort(result)] += 1
        wrong = fault_of(name, raw, result)
        if wrong is None and self.generator.draw.random() < 0.1:
            wrong = self._asked_again(name, raw, result)
        if wrong:
            self.faults.append((name, raw, wrong))

    @staticmethod
    def _asked_again(name, raw, result):
        if not same(call(name, *raw), result):
            return "another result when asked again"
        forget()
        return None if same(call(name, *raw), result) else "another result with nothing kept"


def _sort(result):
    if isinstance(result, str):
        return "sentence" if result.startswith("# ") else "text"
    return {tuple: "table", type(None): "#N/A"}.get(type(result), "number")


class _Hangs(Exception):
    pass


def _give_up(*_):
    raise _Hangs(f"took more than {LONGEST} seconds")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--calls", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--formula", help="this one alone")
    options = parser.parse_args()
    names = [options.formula] if options.formula else list(FORMULAS)
    run = Run(options.seed)
    if hasattr(signal, "SIGALRM"):
        signal.signal(signal.SIGALRM, _give_up)
    began = time.monotonic()
    for i in range(options.calls):
        if hasattr(signal, "alarm"):
            signal.alarm(LONGEST)
        run.any_call(names[i % len(names)])
        if (i + 1) % 20_000 == 0:
            print(
                f"{i + 1} calls, {len(run.faults)} faults, {time.monotonic() - began:.0f} s",
                flush=True,
            )
    print("calls:", ", ".join(f"{kind} {count}" for kind, count in run.made.most_common()))
    print("results:", ", ".join(f"{sort} {count}" for sort, count in run.gave.most_common()))
    print(f"slowest: {run.slowest[1]}, {run.slowest[0]:.1f} s")
    for name, raw, wrong in run.faults[:200]:
        print(f"{name}: {wrong}\n    {raw!r}")
    return bool(run.faults)


if __name__ == "__main__":
    sys.exit(main())
