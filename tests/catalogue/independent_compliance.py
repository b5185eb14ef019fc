"""The independent values of the formulas for what gives; `independent.py` says how to use them."""

from tests.authorities.compliance_by_springs import Springs
from tests.catalogue.independent import authority
from tests.catalogue.independent_loads import bodies


@authority
def compliance(
    corner, quantity, stiffness, longitudinal, lateral, vertical, travel, rack, acts, trail
):  # fmt: skip
    found = bodies(corner, travel, rack)
    applied = found.load(acts, longitudinal, lateral, vertical)
    # A force to the left that acts so far behind turns to the right, seen from above.
    applied[5] -= lateral * trail
    by_name = {name.lower(): value for name, value in stiffness}
    return Springs(found, by_name).changes(applied)[quantity]
