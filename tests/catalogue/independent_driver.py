"""Outside values of the formulas for a driver: bones closed by SciPy, a person of rigid bodies.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import numpy as np
from scipy.optimize import brentq, least_squares

from tests.authorities import posture_by_scipy as by_scipy
from tests.catalogue.independent import authority


@authority
def person_length(length_of, stature):
    return by_scipy.length(length_of, stature)


@authority
def person_mass(segment, body_mass, sex):
    return body_mass * by_scipy.share_of_mass(segment, sex)


@authority
def person_centre(segment, sex):
    return by_scipy.CENTRES[sex][segment]


@authority
def person_gyration(segment, gyration_axis, sex):
    place = ("sagittal", "transverse", "longitudinal").index(gyration_axis)
    return by_scipy.RADII[sex][segment][place]


@authority
def figure_centre(coordinate, figure, body_mass, sex):
    return float(by_scipy.Body(figure, body_mass, sex).centre["xyz".index(coordinate)])


@authority
def figure_inertia(about, figure, body_mass, sex):
    place = ("roll", "pitch", "yaw").index(about)
    return float(by_scipy.Body(figure, body_mass, sex).inertia[place, place])


@authority
def leg_point(point, axis, *leg):
    return float(getattr(by_scipy.Leg(*leg), point)["xz".index(axis)])


@authority
def leg_angle(joint, *leg_and_back):
    *leg, back_angle = leg_and_back
    return by_scipy.Leg(*leg).angle(joint, back_angle)


@authority
def leg_spare(*leg):
    """What the longest leg that still bends is longer than the way: that of a straight one."""
    found = by_scipy.Leg(*leg)
    return float(sum(leg[:2]) - np.linalg.norm(found.ankle - found.hip))


@authority
def pedal_box_end(end, *given):
    *leg, pressed_x, pressed_z, back_angle, hip, knee, ankle = given
    return by_scipy.pedal_box_end(
        end, tuple(leg), (pressed_x, pressed_z), back_angle, (hip, knee, ankle)
    )


@authority
def elbow_point(coordinate, upper_arm, forearm, *given):
    arm = by_scipy.Arm(upper_arm, forearm, given[:3], given[3:6], *given[6:])
    return float(arm.elbow["xyz".index(coordinate)])


@authority
def shoulder_angle(upper_arm, forearm, *given):
    return by_scipy.Arm(upper_arm, forearm, given[:3], given[3:6]).shoulder_angle(given[6])


@authority
def elbow_angle(upper_arm, forearm, hand_distance):
    """A bone each way from the elbow; the angle at which their ends are so far apart."""

    def off(angle):
        ends = upper_arm, forearm * np.exp(1j * np.radians(angle))
        return abs(ends[0] - ends[1]) - hand_distance

    return brentq(off, 0.0, 180.0, xtol=1e-12)


@authority
def rim_distance(rim_end, *given):
    *places, tilt, radius, hold, turned = given
    return by_scipy.rim_distance(rim_end, places[:3], places[3:], tilt, radius, hold, turned)


@authority
def rim_place(coordinate, *given):
    *centre, tilt, radius, hold = given
    return float(by_scipy.rim_point(centre, tilt, radius, hold)["xyz".index(coordinate)])


@authority
def steering_wheel_shift(elbow_wanted, upper_arm, forearm, *given):
    """Moved along its axis until the elbow's angle is the wanted one."""
    *places, tilt = given
    lean = np.radians(tilt)
    toward = np.array([-np.cos(lean), 0.0, np.sin(lean)])
    shoulder, hand = np.array(places[:3]), np.array(places[3:])
    wanted = np.hypot(
        upper_arm - forearm * np.cos(np.radians(elbow_wanted)),
        forearm * np.sin(np.radians(elbow_wanted)),
    )
    return brentq(
        lambda s: np.linalg.norm(hand + s * toward - shoulder) - wanted, -300.0, 300.0, xtol=1e-12
    )


@authority
def road_seen(eye_x, eye_z, cowl_x, cowl_z):
    """Where the line through two points is at no height."""
    line = np.polyfit([eye_z, cowl_z], [eye_x, cowl_x], 1)
    return float(line[1])


@authority
def hoop_clearance(helmet_x, helmet_z, helmet_radius, front_x, front_z, rear_x, rear_z):
    """Height of a triangle: twice its area over its base."""
    rear, front = np.array([rear_x, rear_z]), np.array([front_x, front_z])
    base, up = front - rear, np.array([helmet_x, helmet_z]) - rear
    area = np.linalg.det([up, base])
    return float(area / np.linalg.norm(base) - helmet_radius)


@authority
def knee_clearance(knee_x, knee_y, knee_z, knee_radius, *given):
    *wheel, tilt, radius = given
    return by_scipy.point_to_disc((knee_x, knee_y, knee_z), wheel, tilt, radius) - knee_radius


@authority
def limb_clearance(upper_x, upper_z, lower_x, lower_z, limb_radius, bar_x, bar_z, bar_radius):
    """In space, the bar a line from side to side: SciPy looks for the nearest places of both."""
    ends = np.array([[upper_x, 110.0, upper_z], [lower_x, 110.0, lower_z]])
    bar = np.array([bar_x, 0.0, bar_z])

    def off(shares):
        limb = ends[0] + shares[0] * (ends[1] - ends[0])
        return limb - bar - [0.0, 100.0 * shares[1], 0.0]

    found = least_squares(off, [0.5, 0.5], bounds=([0.0, -1e3], [1.0, 1e3]), xtol=1e-15, ftol=1e-15,
                          gtol=1e-15)  # fmt: skip
    return float(np.linalg.norm(off(found.x))) - limb_radius - bar_radius


@authority
def limb_to_box(
    upper_x, upper_z, lower_x, lower_z, limb_y, limb_radius, box_x, box_y, box_z, *sides
):  # fmt: skip
    """SciPy looks for the nearest places: one on the limb, one anywhere in the box."""
    ends = np.array([[upper_x, limb_y, upper_z], [lower_x, limb_y, lower_z]])
    middle, half = np.array([box_x, box_y, box_z]), np.array(sides) / 2.0

    def off(free):
        return ends[0] + free[0] * (ends[1] - ends[0]) - middle - free[1:] * half

    found = least_squares(off, [0.5, 0.0, 0.0, 0.0], bounds=([0.0, -1.0, -1.0, -1.0], 1.0),
                          xtol=1e-15, ftol=1e-15, gtol=1e-15)  # fmt: skip
    return float(np.linalg.norm(off(found.x))) - limb_radius
