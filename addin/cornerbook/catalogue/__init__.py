"""Every formula, declared once. `FORMULAS` lists them, `call` runs one for a host.

A module below declares its formulas when it is imported; the order here is the order
in which lists show them. `sweep` and `check` come last: they look at the others.
"""

from . import layout, pose, rates, movement, springs, stops, actuation, axle  # noqa: F401, I001
from . import roll, turn, tip, rear, torsion  # noqa: F401
from . import turning, locked, beam  # noqa: F401
from . import joints, shafts  # noqa: F401
from . import steering, hands, steer_in_roll, loads, compliance  # noqa: F401
from . import tyre, feel, pitch, ride, understeer  # noqa: F401
from . import outline  # noqa: F401
from . import placing  # noqa: F401
from . import alignment, scales  # noqa: F401
from . import masses, brakes, drive  # noqa: F401
from . import person, posture, cockpit, body  # noqa: F401
from . import sweep  # noqa: F401
from . import as_built  # noqa: F401
from . import sensitivity, two_way, adjust, steps, learned, building, survey  # noqa: F401
from . import check  # noqa: F401
from ..cells.call import call  # noqa: F401
from ..cells.declare import FORMULAS, Argument, Formula  # noqa: F401
