"""Straight lines fitted by least squares to many results at once."""

import numpy as np


class Lines:
    """One line for each result over the same deviations, of which cars come some at a time.

    Kept are the sums of the normal equations, each result's over the cars that have it.
    """

    def __init__(self, results, amounts):
        size = amounts + 1
        self._squares = np.zeros((results, size, size))
        self._products = np.zeros((results, size))

    def add(self, deviations, changes):
        """Add some cars. deviations: (amounts, cars); changes: (results, cars), NaN for none."""
        terms = np.vstack([np.ones(deviations.shape[1]), deviations])
        known = np.isfinite(changes)
        whole = known.all(axis=1)
        self._squares[whole] += _sums(terms, terms)
        self._products[whole] += _sums(changes[whole], terms)
        for i in np.flatnonzero(~whole):
            part = terms[:, known[i]]
            self._squares[i] += _sums(part, part)
            self._products[i] += _sums(changes[i : i + 1, known[i]], part)[0]

    def slopes(self):
        """The slopes by each deviation, (results, amounts); 0 with fewer than two cars."""
        found = np.zeros((len(self._products), self._products.shape[1] - 1))
        # The first sum is that of ones: how many cars there are.
        for i in np.flatnonzero(self._squares[:, 0, 0] > 1):
            found[i] = np.linalg.lstsq(self._squares[i], self._products[i], rcond=None)[0][1:]
        return found


def _sums(one, other):
    """Sums over the cars of each row times each row of another: a matrix product.

    Not through BLAS, whose several threads cost more than they save on so little, and whose
    last digits are those of its number of threads.
    """
    return np.einsum("ik,jk->ij", one, other)
