"""A person: lengths by stature; mass, centre and inertia of each segment; the whole in a posture.

Lengths are in any one unit, masses in any one, an inertia is mass times length squared. Axes as
everywhere: x forward, y left, z up. A person is alike on both sides: only the left one is given.
"""

from ..numbers import sqrt
from ..vec import Vec

LENGTHS = {
    "head": 0.140, "neck": 0.330, "trunk": 0.288, "upper arm": 0.186, "forearm": 0.146,
    "hand": 0.108, "thigh": 0.245, "shank": 0.246, "foot": 0.152, "ankle height": 0.039,
    "eye": 0.076, "shoulder breadth": 0.259, "hip breadth": 0.191,
}  # fmt: skip
"""Shares of the stature, by Drillis and Contini (1966), as Winter's book draws them
(*Biomechanics and Motor Control of Human Movement*, figure 4.1), but for the base of the neck.

neck: from the hip joints up to the base of the neck, at 0.860 of the stature (de Leva's vertex to
the seventh neck vertebra is 0.140 of it), and head from there to the top. trunk: from hip to
shoulder joint. eye: above the base of the neck.
"""

SEGMENTS = ("head", "trunk", "upper arm", "forearm", "hand", "thigh", "shank", "foot")
SEXES = ("woman", "man")
AXES = ("sagittal", "transverse", "longitudinal")

_PAIRED = SEGMENTS[2:]

_TABLE = {
    "woman": {
        "head": (6.68, 0.4841, 0.271, 0.295, 0.261),
        "trunk": (42.57, 0.4964, 0.307, 0.292, 0.147),
        "upper arm": (2.55, 0.5754, 0.278, 0.260, 0.148),
        "forearm": (1.38, 0.4559, 0.261, 0.257, 0.094),
        "hand": (0.56, 0.3427, 0.244, 0.208, 0.154),
        "thigh": (14.78, 0.3612, 0.369, 0.364, 0.162),
        "shank": (4.81, 0.4352, 0.267, 0.263, 0.092),
        "foot": (1.29, 0.4014, 0.299, 0.279, 0.139),
    },
    "man": {
        "head": (6.94, 0.5002, 0.303, 0.315, 0.261),
        "trunk": (43.46, 0.5138, 0.328, 0.306, 0.169),
        "upper arm": (2.71, 0.5772, 0.285, 0.269, 0.158),
        "forearm": (1.62, 0.4574, 0.276, 0.265, 0.121),
        "hand": (0.61, 0.3624, 0.288, 0.235, 0.184),
        "thigh": (14.16, 0.4095, 0.329, 0.329, 0.149),
        "shank": (4.33, 0.4395, 0.251, 0.246, 0.102),
        "foot": (1.37, 0.4415, 0.257, 0.245, 0.124),
    },
}
"""Mass in percent of the body's, place of the centre from the upper end (of the foot from the
heel), radii of gyration, both in shares of the segment's length: de Leva (1996), table 4, held to
the public files data/BSPfemale_ZdeLeva.txt and BSPmale_ZdeLeva.txt of the repository BMClab/BMC;
of the ends there the head from the vertex to the seventh neck vertebra, the trunk from
that to between the hips, the shank to the ankle joint, the hand to the third finger's tip."""

FIGURE = (
    "top of head", "base of neck", "shoulder", "elbow", "grip", "hip", "knee", "ankle", "heel",
    "toe",
)  # fmt: skip
"""The points of a figure, in order: those of the left side where there are two."""

GRIP = 0.5
"""Where in the hand the rim is held, from the wrist: common practice, no source."""


def length(segment, stature):
    """A length by stature."""
    return LENGTHS[segment] * stature


def mass_share(segment, sex):
    """Share of a segment in the body's mass, one of two where it is paired; all make 1."""
    shares = _TABLE[sex]
    whole = sum(shares[name][0] * (2.0 if name in _PAIRED else 1.0) for name in SEGMENTS)
    return shares[segment][0] / whole


def centre_share(segment, sex):
    """Where a segment's centre is, from its upper end, in shares of its length."""
    return _TABLE[sex][segment][1]


def gyration_share(segment, axis, sex):
    """A segment's radius of gyration about an axis through its centre, over its length."""
    return _TABLE[sex][segment][2 + AXES.index(axis)]


def _segments(points):
    """(name, upper end, lower end, whether it has a partner on the right side) of a figure."""
    top, neck, shoulder, elbow, grip, hip, knee, ankle, heel, toe = points
    # The wrist divides what is from elbow to grip as the lengths by stature do.
    hand = LENGTHS["hand"]
    reach = LENGTHS["forearm"] + GRIP * hand
    along = grip - elbow
    wrist = elbow + along * (LENGTHS["forearm"] / reach)
    tip = elbow + along * ((LENGTHS["forearm"] + hand) / reach)
    middle = Vec(hip.x, 0.0, hip.z)
    return (
        ("head", Vec(top.x, 0.0, top.z), Vec(neck.x, 0.0, neck.z), False),
        ("trunk", Vec(neck.x, 0.0, neck.z), middle, False),
        ("upper arm", shoulder, elbow, True),
        ("forearm", elbow, wrist, True),
        ("hand", wrist, tip, True),
        ("thigh", hip, knee, True),
        ("shank", knee, ankle, True),
        ("foot", heel, toe, True),
    )


def _placed(points, mass, sex):
    """(mass of all of that name, centre of the left one, whole vector, name) of each segment."""
    found = []
    for name, upper, lower, paired in _segments(points):
        whole = lower - upper
        weighs = mass * mass_share(name, sex) * (2.0 if paired else 1.0)
        found.append((weighs, upper + whole * centre_share(name, sex), whole, name))
    return found


def centre(points, mass, sex):
    """`Vec` to the centre of a person. points: a `Vec` for each of `FIGURE`, in its order."""
    x = z = 0.0
    for weighs, at, _, _ in _placed(points, mass, sex):
        x = x + weighs * at.x
        z = z + weighs * at.z
    return Vec(x / mass, 0.0, z / mass)


def inertia(points, mass, sex):
    """`Vec` of roll, pitch and yaw inertia of a person about the own centre.

    Head and trunk stand in the middle plane, so that their transverse axis is y. Of a limb the
    mean of the sagittal and the transverse radius, squared, stands for both.
    """
    middle = centre(points, mass, sex)
    roll = pitch = yaw = 0.0
    for weighs, at, whole, name in _placed(points, mass, sex):
        sagittal, transverse, lengthwise = (gyration_share(name, axis, sex) ** 2 for axis in AXES)
        if name in _PAIRED:
            sagittal = transverse = 0.5 * (sagittal + transverse)
        xx, yy, zz = (part * part for part in whole)
        dx, dz = at.x - middle.x, at.z - middle.z
        ax, ay, az = dx * dx, at.y * at.y, dz * dz
        roll = roll + weighs * (sagittal * (zz + yy) + lengthwise * xx + ay + az)
        pitch = pitch + weighs * (transverse * (xx + zz) + lengthwise * yy + ax + az)
        yaw = yaw + weighs * (sagittal * (xx + yy) + lengthwise * zz + ax + ay)
    return Vec(roll, pitch, yaw)


def box_side(along, other, third, mass):
    """Side of the solid box of even density that has these inertias about its three axes.

    along: the inertia about the axis of that side; other, third: about the two across it.
    """
    return sqrt(6.0 * (other + third - along) / mass)
