"""Every formula, declared once. `FORMULAS` lists them, `call` runs one for a host.

A module below declares its formulas when it is imported; the order here is the order
in which lists show them. `sweep` and `check` come last: they look at the others.
"""

from .corner import layout, pose, rates, movement  # noqa: F401, I001
from .springing import springs, stops, actuation  # noqa: F401
from .front_axle import axle, roll  # noqa: F401
from .car import turn, tip, rear, torsion  # noqa: F401
from .front_axle import turning  # noqa: F401
from .car import locked  # noqa: F401
from .front_axle import beam  # noqa: F401
from .corner import joints  # noqa: F401
from .steering import shafts, moments, hands, in_roll  # noqa: F401
from .forces import loads, bearings, compliance  # noqa: F401
from .car import tyre, feel, pitch, ride, understeer  # noqa: F401
from .study import outline  # noqa: F401
from .placing import axis, arms, tie_rod, steered  # noqa: F401
from .set_up import alignment, scales  # noqa: F401
from .car import masses, brakes, drive  # noqa: F401
from .driver import person, posture, cockpit, body  # noqa: F401
from .study import sweep  # noqa: F401
from .steering import as_built  # noqa: F401
from .study import sensitivity, two_way  # noqa: F401
from .set_up import adjust, steps, learned, lengths, survey  # noqa: F401
from .study import check  # noqa: F401
from ..cells.call import call  # noqa: F401
from ..cells.declare import FORMULAS, Argument, Formula  # noqa: F401
