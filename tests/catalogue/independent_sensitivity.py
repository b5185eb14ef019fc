"""Independent values of sensitivities, two-way tables and adjusters; see `independent.py`."""

import numpy as np

from tests.authorities.adjusted_by_scipy import Adjusted
from tests.authorities.closure_by_complex_step import derivative
from tests.catalogue.independent import authority, measured
from tests.support.corners import POINTS, VALUES, Corners

MEASURED = {"camber": "camber", "toe": "toe", "caster": "caster", "kpi": "inclination",
            "trail": "trail", "scrub": "scrub"}  # fmt: skip


def changed(block, label, index, number):
    """A block of cells with one number changed."""
    rows = []
    for row in block:
        if row[0].lower() == label:
            row = (*row[: 1 + index], number, *row[2 + index :])
        rows.append(row)
    return tuple(rows)


@authority
def sensitivity(corner, quantity, point, coordinate, travel=0.0, rack=0.0, wheelbase=0.0):
    index = None if coordinate == "value" else "xyz".index(coordinate)
    return derivative(Corners.of_rows(corner).one(0), point, index, quantity, travel, rack)


@authority
def sensitivities(corner, quantities, travel=0.0, rack=0.0, wheelbase=0.0):
    one = Corners.of_rows(corner).one(0)
    rows = []
    names = [(p, i, f"{p} {'xyz'[i]}") for p in POINTS for i in range(3)]
    for point, index, name in [*names, *((v, None, v) for v in VALUES)]:
        slopes = [
            derivative(one, point, index, q.strip(), travel, rack) for q in quantities.split(",")
        ]
        # What the sums of complex numbers leave of a zero is some 1e-19.
        slopes = [0.0 if abs(slope) < 1e-15 else slope for slope in slopes]
        if any(slopes):
            rows.append((name, *slopes))
    # Equal to all digits shown: then in the order of the names.
    return tuple(sorted(rows, key=lambda row: -round(abs(row[1]), 12)))


@authority
def two_way(
    corner, quantity, over_rows, rows_from, rows_to, rows, over_columns, columns_from,
    columns_to, columns, travel=0.0, rack=0.0, wheelbase=0.0,
):  # fmt: skip
    across = np.linspace(columns_from, columns_to, int(columns)).tolist()
    table = [(quantity, *across)]
    for down in np.linspace(rows_from, rows_to, int(rows)).tolist():
        line = [down]
        for along in across:
            block, at = corner, {"travel": travel, "rack": rack}
            for over, value in ((over_rows, down), (over_columns, along)):
                if over in at:
                    at[over] = value
                else:
                    label, _, axis = over.rpartition(" ")
                    block = changed(block, label, "xyz".index(axis), value)
            wheel = measured(block, at["travel"], at["rack"])
            line.append(float(getattr(wheel, MEASURED[quantity])))
        table.append(tuple(line))
    return tuple(table)


@authority
def adjuster_effect(
    corner, quantity, adjuster, dx, dy, dz, turns, travel=0.0, rack=0.0, wheelbase=0.0
):  # fmt: skip
    one = Corners.of_rows(corner).one(0)
    way = np.array([dx, dy, dz]) * turns
    after = Adjusted(one, (adjuster, way)).measured(travel, rack)
    name = MEASURED[quantity]
    return float(getattr(after, name) - getattr(measured(corner, travel, rack), name))


@authority
def adjuster_turns(effects, wanted):
    found = np.linalg.lstsq(np.atleast_2d(effects), np.ravel(wanted), rcond=None)[0]
    return tuple((float(turns),) for turns in found)


def line_of(steps, changes):
    """(slope, its standard deviation) of a line through the origin, by numpy.linalg."""
    pairs = [
        (n, change)
        for n, change in zip(np.ravel(steps).tolist(), np.ravel(changes).tolist(), strict=True)
        if "" not in (n, change)
    ]
    table, read = np.array([[float(n)] for n, _ in pairs]), np.array([float(c) for _, c in pairs])
    slope, left, _, _ = np.linalg.lstsq(table, read, rcond=None)
    covariance = np.linalg.inv(table.T @ table) * left.sum() / (len(pairs) - 1)
    return float(slope[0]), float(np.sqrt(covariance[0, 0]))


@authority
def learned_effect(steps_turned, change_measured):
    steps, changes = (np.array(cells, dtype=object) for cells in (steps_turned, change_measured))
    return line_of(steps, changes)[0]


@authority
def learned_deviation(steps_turned, change_measured):
    steps, changes = (np.array(cells, dtype=object) for cells in (steps_turned, change_measured))
    return line_of(steps, changes)[1]


@authority
def expected_changes(
    corner, adjuster_names, adjusters, dx, dy, dz, log_adjusters, log_quantities, log_steps,
    log_among="",
):  # fmt: skip
    effect = adjuster_effect(corner, log_quantities, adjusters, dx, dy, dz, log_steps)
    return ((effect,),)
