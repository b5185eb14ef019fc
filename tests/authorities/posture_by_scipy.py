"""Bones closed by `scipy.optimize`, a person as rigid bodies that SciPy turns into their places.

Tables of people are written down here a second time: Drillis and Contini (1966) as heights above
the floor, of which lengths are differences (`lengths_by_winter.py` has the figure's own; elbow,
wrist and fingertip are so placed that the arm's lengths are the figure's); de Leva (1996), table 4,
and from memory the ends that stand in its upper part where those differ, and the lengths of his
two mean bodies, which turn the one into the other.
"""

import numpy as np
from scipy.optimize import brentq, minimize_scalar, root
from scipy.spatial.transform import Rotation

HEIGHTS = {
    "top": 1.0, "eye": 0.936, "neck": 0.860, "shoulder": 0.818, "elbow": 0.632, "wrist": 0.486,
    "fingertip": 0.378, "hip": 0.530, "knee": 0.285, "ankle": 0.039,
}  # fmt: skip
"""Above the floor in shares of the stature, a person who stands; breadths and foot apart."""

LENGTHS = {
    "head": ("neck", "top"), "neck": ("hip", "neck"), "trunk": ("hip", "shoulder"),
    "upper arm": ("elbow", "shoulder"), "forearm": ("wrist", "elbow"),
    "hand": ("fingertip", "wrist"), "thigh": ("knee", "hip"), "shank": ("ankle", "knee"),
    "eye": ("neck", "eye"),
}  # fmt: skip
GIVEN = {
    "foot": 0.152, "ankle height": 0.039, "shoulder breadth": 0.259, "hip breadth": 0.191,
}  # fmt: skip

MASSES = {
    "woman": dict(zip(("head", "trunk", "upper arm", "forearm", "hand", "thigh", "shank", "foot"),
                      (6.68, 42.57, 2.55, 1.38, 0.56, 14.78, 4.81, 1.29), strict=True)),
    "man": dict(zip(("head", "trunk", "upper arm", "forearm", "hand", "thigh", "shank", "foot"),
                    (6.94, 43.46, 2.71, 1.62, 0.61, 14.16, 4.33, 1.37), strict=True)),
}  # fmt: skip
PAIRED = ("upper arm", "forearm", "hand", "thigh", "shank", "foot")

CENTRES = {
    "woman": {"head": 0.4841, "trunk": 0.4964, "upper arm": 0.5754, "forearm": 0.4559,
              "hand": 0.3427, "thigh": 0.3612, "shank": 0.4352, "foot": 0.4014},
    "man": {"head": 0.5002, "trunk": 0.5138, "upper arm": 0.5772, "forearm": 0.4574,
            "hand": 0.3624, "thigh": 0.4095, "shank": 0.4395, "foot": 0.4415},
}  # fmt: skip
RADII = {
    "woman": {"head": (0.271, 0.295, 0.261), "trunk": (0.307, 0.292, 0.147),
              "upper arm": (0.278, 0.260, 0.148), "forearm": (0.261, 0.257, 0.094),
              "hand": (0.244, 0.208, 0.154), "thigh": (0.369, 0.364, 0.162),
              "shank": (0.267, 0.263, 0.092), "foot": (0.299, 0.279, 0.139)},
    "man": {"head": (0.303, 0.315, 0.261), "trunk": (0.328, 0.306, 0.169),
            "upper arm": (0.285, 0.269, 0.158), "forearm": (0.276, 0.265, 0.121),
            "hand": (0.288, 0.235, 0.184), "thigh": (0.329, 0.329, 0.149),
            "shank": (0.251, 0.246, 0.102), "foot": (0.257, 0.245, 0.124)},
}  # fmt: skip

OTHER_ENDS = {
    ("woman", "trunk"): (529.3, 614.8, (0.357, 0.339, 0.171)),
    ("woman", "head"): (200.2, 243.7, (0.330, 0.359, 0.318)),
    ("woman", "shank"): (432.3, 438.6, (0.271, 0.267, 0.093)),
    ("man", "trunk"): (531.9, 603.3, (0.372, 0.347, 0.191)),
    ("man", "head"): (203.3, 242.9, (0.362, 0.376, 0.312)),
    ("man", "shank"): (434.0, 440.3, (0.255, 0.249, 0.103)),
}
"""Length between the ends of his upper table, between ours, in mm, and the radii there."""


def length(name, stature):
    """A length as the difference of two heights."""
    if name in GIVEN:
        return stature * GIVEN[name]
    low, high = LENGTHS[name]
    return stature * (HEIGHTS[high] - HEIGHTS[low])


def share_of_mass(segment, sex):
    """One segment's share in the whole body's."""
    whole = sum(m * (1 + (name in PAIRED)) for name, m in MASSES[sex].items())
    return MASSES[sex][segment] / whole


class Body:
    """A person in a posture as fourteen rigid bodies. points: ten rows of (name, x, y, z)."""

    def __init__(self, points, mass, sex):
        top, neck, shoulder, elbow, grip, hip, knee, ankle, heel, toe = (
            np.array(row[1:4], float) for row in points
        )
        middle = np.array([1.0, 0.0, 1.0])
        # The hand is held by its middle.
        wrist = elbow + (grip - elbow) * 0.146 / (0.146 + 0.054)
        tip = elbow + (grip - elbow) * (0.146 + 0.108) / (0.146 + 0.054)
        ends = {
            "head": (top * middle, neck * middle), "trunk": (neck * middle, hip * middle),
            "upper arm": (shoulder, elbow), "forearm": (elbow, wrist), "hand": (wrist, tip),
            "thigh": (hip, knee), "shank": (knee, ankle), "foot": (heel, toe),
        }  # fmt: skip
        self.bodies = []
        for name, (upper, lower) in ends.items():
            for side in (1, -1) if name in PAIRED else (1,):
                flip = np.array([1.0, side, 1.0])
                self._add(name, upper * flip, lower * flip, mass, sex)
        self.mass = sum(m for m, _, _ in self.bodies)
        self.centre = sum(m * at for m, at, _ in self.bodies) / self.mass
        self.inertia = sum(
            own + m * (np.dot(at - self.centre, at - self.centre) * np.eye(3)
                       - np.outer(at - self.centre, at - self.centre))
            for m, at, own in self.bodies
        )  # fmt: skip

    def _add(self, name, upper, lower, mass, sex):
        along = lower - upper
        long = np.linalg.norm(along)
        weighs = mass * share_of_mass(name, sex)
        sagittal, transverse, lengthwise = RADII[sex][name]
        if name in PAIRED:
            sagittal = transverse = np.sqrt((sagittal**2 + transverse**2) / 2)
        # Drawn hanging down, its sagittal axis forward and its transverse one to the left, then
        # turned: the down to its length, the left as near to the left as that lets it.
        own = weighs * long**2 * np.diag(np.square([sagittal, transverse, lengthwise]))
        turned, _ = Rotation.align_vectors(
            [along / long, [0.0, 1.0, 0.0]], [[0.0, 0.0, -1.0], [0.0, 1.0, 0.0]],
            weights=[np.inf, 1.0],
        )  # fmt: skip
        matrix = turned.as_matrix()
        self.bodies.append(
            (weighs, upper + CENTRES[sex][name] * along, matrix @ own @ matrix.T)
        )  # fmt: skip


def between(one, other):
    """Angle between two vectors in degrees."""
    cosine = np.dot(one, other) / np.linalg.norm(one) / np.linalg.norm(other)
    return float(np.degrees(np.arccos(cosine)))


class Leg:
    """A leg, its knee found by `root` on both bones' lengths from a guess above the middle."""

    def __init__(self, thigh, shank, foot, ankle_height, *places):
        self.hip, self.heel, pedal = (np.array(places[i : i + 2], float) for i in (0, 2, 4))
        self.bones = thigh, shank
        way = pedal - self.heel
        sole = Rotation.from_euler("y", -np.degrees(np.arctan2(way[1], way[0])), degrees=True)
        foot_points = sole.apply([[foot / 4, 0.0, ankle_height], [foot, 0.0, 0.0]])
        self.ankle, self.toe = (self.heel + foot_points[:, [0, 2]]).tolist()
        self.ankle, self.toe = np.array(self.ankle), np.array(self.toe)

        def off(knee):
            return [
                np.linalg.norm(knee - self.hip) - thigh,
                np.linalg.norm(knee - self.ankle) - shank,
            ]

        guess = (self.hip + self.ankle) / 2 + [0.0, 0.6 * thigh]
        found = root(off, guess, tol=1e-13)
        self.closed = bool(np.max(np.abs(off(found.x))) < 1e-7)
        self.knee = found.x

    def angle(self, joint, back_angle=0.0):
        """Angle of a joint in degrees."""
        lean = np.radians(back_angle)
        back = np.array([-np.sin(lean), np.cos(lean)])
        return {
            "hip": lambda: between(back, self.knee - self.hip),
            "knee": lambda: between(self.hip - self.knee, self.ankle - self.knee),
            "ankle": lambda: between(self.knee - self.ankle, self.toe - self.heel),
        }[joint]()


def moved(leg, shift):
    """A leg's numbers with heel and pedal further forward."""
    *bones, heel_x, heel_z, pedal_x, pedal_z = leg
    return (*bones, heel_x + shift, heel_z, pedal_x + shift, pedal_z)


def pedal_box_end(end, leg, pressed, back_angle, limits):
    """Where the first of six angles is at its limit, each sought by bisection over the shift."""
    found = []
    for pedal in (leg[-2:], pressed):
        for joint, limit in zip(("hip", "knee", "ankle"), limits, strict=True):

            def off(shift, joint=joint, limit=limit, pedal=pedal):
                return Leg(*moved((*leg[:-2], *pedal), shift)).angle(joint, back_angle) - limit

            as_drawn = Leg(*leg[:-2], *pedal)
            rise = as_drawn.ankle[1] - as_drawn.hip[1]
            straight = np.sqrt(sum(leg[:2]) ** 2 - rise**2)
            most = as_drawn.hip[0] + straight - as_drawn.ankle[0]
            # A limit that the leg does not come to before it is straight.
            late = off(most - 0.02) < 0.0
            found.append(
                most if late else brentq(off, most - 0.5 * straight, most - 0.02, xtol=1e-11)
            )
    return max(found) if end == "least" else min(found)


class Arm:
    """An arm, its elbow the lowest point at both bones' lengths, by a search round a circle."""

    def __init__(self, upper_arm, forearm, shoulder, hand, out=0.0):
        self.shoulder, self.hand = np.array(shoulder, float), np.array(hand, float)
        way = self.hand - self.shoulder
        far = np.linalg.norm(way)
        square = np.cross(way, [0.3, 0.5, 0.9])
        bend = np.arccos((upper_arm**2 + far**2 - forearm**2) / (2 * upper_arm * far))
        first = Rotation.from_rotvec(bend * square / np.linalg.norm(square)).apply(way / far)

        def at(turn):
            return self.shoulder + upper_arm * Rotation.from_rotvec(turn * way / far).apply(first)

        coarse = min(np.linspace(0.0, 2 * np.pi, 33), key=lambda turn: at(turn)[2])
        slope = brentq(
            lambda turn: (at(turn + 1e-4) - at(turn - 1e-4))[2], coarse - 0.3, coarse + 0.3,
            xtol=1e-14,
        )  # fmt: skip
        # Seen from the shoulder the turn outward is the one that takes a left elbow to the left.
        sign = np.sign(at(slope + 0.1)[1] - at(slope - 0.1)[1])
        self.elbow = at(slope + sign * np.radians(out))

    def shoulder_angle(self, back_angle):
        """Between the upper arm and the line down along the back."""
        lean = np.radians(back_angle)
        return between([np.sin(lean), 0.0, -np.cos(lean)], self.elbow - self.shoulder)


def rim_point(centre, tilt, radius, angle):
    """A place on the rim: the upright wheel's, turned about its axis and then leaned forward."""
    on_wheel = Rotation.from_euler("x", -angle, degrees=True).apply([0.0, 0.0, radius])
    return np.array(centre) + Rotation.from_euler("y", tilt, degrees=True).apply(on_wheel)


def rim_distance(end, point, centre, tilt, radius, hold, turned):
    """The least or most distance of a hand from a point, by a search over the turn."""
    sign = 1 if end == "least" else -1
    point = np.array(point)

    def far(turn):
        return sign * np.linalg.norm(rim_point(centre, tilt, radius, hold + turn) - point)

    turns = np.linspace(-turned, turned, 181)
    best = min(turns, key=far)
    step = turns[1] - turns[0]
    low, high = max(best - step, -turned), min(best + step, turned)
    fine = minimize_scalar(far, bounds=(low, high), method="bounded", options={"xatol": 1e-10})
    return float(sign * min(fine.fun, far(low), far(high)))


def point_to_disc(point, centre, tilt, radius):
    """How far a point is from a disc: a search over the disc's own two coordinates."""
    lean = Rotation.from_euler("y", tilt, degrees=True)
    away = lean.inv().apply(np.array(point, float) - np.array(centre, float))

    def gap(out):
        across = away[1:] / np.linalg.norm(away[1:])
        return np.linalg.norm(away - [0.0, *(out * across)])

    best = minimize_scalar(gap, bounds=(0.0, radius), method="bounded", options={"xatol": 1e-11})
    return float(min(best.fun, gap(radius)))
