"""What a drawing of ours is known by, when it is written and when it is read.

The drawing's axes are the block's: x forward, y to the left, z up. A POINT carries its
row's name in its extended data and has a label beside it; single numbers and words are
labels such as "Static camber = -1.0 deg". What is drawn besides (arms, wheel, ground) is
for the eye and is not read back.
"""

import logging

from ...file.trouble import Trouble

APPLICATION = "CORNERBOOK"
"""The name under which extended data of ours stands."""

RIGHT = " RIGHT"
"""What the right-hand corner's layers have after their name."""

# $INSUNITS of the DXF reference.
INSUNITS = {"in": 1, "mm": 4, "cm": 5, "m": 6}

BESIDE = 0.6
"""How far a label stands from its point along x and y, in its own height."""


def library():
    """The package ezdxf, which is imported only here; raises `Trouble` where it is missing."""
    try:
        import ezdxf
        import ezdxf.math
        import ezdxf.recover
    except ImportError as error:
        raise Trouble("drawings need the package ezdxf; install it: pip install ezdxf") from error
    # What it mends in a drawing it would say on standard error, in words of its own.
    said = logging.getLogger("ezdxf")
    if not said.handlers:
        said.addHandler(logging.NullHandler())
    return ezdxf
