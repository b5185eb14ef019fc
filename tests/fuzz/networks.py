"""Random networks of tapes, each as a corner or an axle might be measured; run it by hand:

    .venv-test/bin/python -m tests.fuzz.networks --cases 2000 --seed 1

Each is adjusted twice: with noise alone, and with one reading off by 100 besides. Prints how
often the test of the whole (chi-square at one in twenty) failed without a misreading, which should
be as often as chance has it; how often a reading was blamed without one; and how often the
misread one was found, alone or among those that cannot be told apart. A fault is a rate that
chance does not explain (once in ten thousand), or a misread one that others check well and that
is not among those named, though the readings do not agree.
"""

import argparse
import collections
import sys

import numpy as np
from cornerbook.book.study.survey.network import Adjusted
from scipy.stats import binom

from tests.book.study.test_survey_network import a_network, misread

CHECKED = 0.2
"""The redundancy from which on a misreading of 100 must show."""


def one(seed, found, faults):
    """A network of the seed, counted."""
    draw, _, drawn, made = a_network(
        seed, points=4 + seed % 5, share=(0.7, 0.85, 1.0)[seed % 3], plumbed=seed % 4 != 0
    )
    misread(draw, made)
    clean = Adjusted(made, drawn)
    if clean.spare < 1:
        found["without redundancy"] += 1
        return
    found["networks"] += 1
    found["whole test fails"] += clean.likelihood < 0.05
    found["readings"] += int((clean.redundancy > 1e-4).sum())
    found["residual outlying"] += int((np.abs(clean.normalised) > 3.29).sum())
    checked = np.flatnonzero(clean.redundancy > CHECKED)
    if not len(checked):
        return
    wrong = int(draw.choice(checked))
    found["planted"] += 1
    made[wrong].value += 100.0 if made[wrong].value < 300.0 else -100.0
    adjusted = Adjusted(made, drawn)
    suspects = adjusted.suspects()
    if suspects[:1] == [wrong]:
        found["found alone" if len(suspects) == 1 else "found first of some"] += 1
    elif wrong in suspects:
        found["found among some"] += 1
    elif adjusted.likelihood is None or adjusted.likelihood > 0.001:
        # Another shape has just these lengths: a folded one, or one no longer pressed flat, of
        # which no reading is spare.
        found["agrees with another shape"] += 1
    else:
        found["not found"] += 1
        faults.append(f"network {seed}: reading {wrong} of {len(made)} misread, {suspects} blamed")


def run(cases, seed):
    """(a Counter of what was found, faults in words)."""
    found, faults = collections.Counter(), []
    for i in range(cases):
        one(100_000 * seed + i, found, faults)
    for what, of, rate in (("whole test fails", "networks", 0.05),
                           ("residual outlying", "readings", 0.001)):  # fmt: skip
        low, high = binom.ppf((5e-5, 1 - 5e-5), found[of], rate)
        # Residuals of one network hang together: allowed twice as far from the middle.
        room = 1.0 if of == "networks" else 2.0
        if not abs(found[what] - rate * found[of]) <= room * 0.5 * (high - low) + 1:
            faults.append(f"{what}: {found[what]} of {found[of]}, {rate} of them expected")
    return found, faults


def main():
    """Run as the command line says; 1 where a fault was found."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.networks")
    parser.add_argument("--cases", type=int, default=2000, help="how many networks (2000)")
    parser.add_argument("--seed", type=int, default=1, help="another set of them (1)")
    options = parser.parse_args()
    found, faults = run(options.cases, options.seed)
    for what, number in found.items():
        print(f"{number:6d}  {what}")
    print("\n".join(faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
