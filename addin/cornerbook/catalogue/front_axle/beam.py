"""Formulas for a front beam axle with kingpins.

Its corner is a block with the wheel centre, tyre radius, static camber and toe, and the
kingpin's two ends as lower and upper ball joint: TRAIL, SCRUB, CASTER and KPI work on that.
"""

from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...geometry.front_axle import beam
from ...geometry.numbers import absolute

GROUP = "Beam axle"

TRACK = Argument(
    "track", "number", "Distance between the two wheel centres, along the beam.",
    unit="length", above=0.0,
)  # fmt: skip
TILT = "A rigid beam turns about the car's length by an angle whose sine is rise / track"


@formula(
    name="BEAM_CAMBER_GAIN",
    group=GROUP,
    arguments=(TRACK,),
    unit="degrees per length of travel",
    positive="the top of the raised wheel moves away from the car; on a beam it never does",
    help="Change of camber with the rise of one wheel of a beam axle, the other held, whose "
    "camber changes as much the other way; with both rising alike it is 0.",
    source=TILT + "; the slope of that at no rise.",
    example="=CORNER.BEAM_CAMBER_GAIN(1120)",
    check=-0.0511569459938,
)
def beam_camber_gain(track):
    return beam.camber_gain(track)


@formula(
    name="BEAM_CAMBER_IN_BUMP",
    group=GROUP,
    arguments=(
        TRACK,
        Argument(
            "rise", "number",
            "How much higher this wheel stands than the other one, lower negative; 0 with both "
            "raised alike.",
            unit="length",
        ),
    ),
    unit="degrees",
    positive="the top of this wheel moves away from the car",
    help="Change of camber of one wheel of a beam axle that stands higher than the other, as on "
    "a kerb, in exact form.",
    source=TILT + ", both wheels upright as drawn.",
    example="=CORNER.BEAM_CAMBER_IN_BUMP(1120, 60)",
    check=-3.07088681107,
)  # fmt: skip
def beam_camber_in_bump(track, rise):
    hold(
        absolute(rise) < track,
        "rise: %s given, less than the track of %s to either side was expected",
        rise,
        track,
    )
    return beam.camber_in_bump(track, rise)
