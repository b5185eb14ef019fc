"""Formulas for a driver's posture: legs to the pedals, arms to the steering wheel."""

from ...cells.declare import Argument, formula
from ...cells.mend import shown
from ...geometry.driver import posture
from ...geometry.numbers import where
from ...geometry.vec import Vec
from ..car.masses import COORDINATE

GROUP = "Driver: posture"


def _length(name, words):
    return Argument(name, "number", words, unit="length", above=0.0)


def places(name, of, axes="xyz"):
    """The arguments for some coordinates of a point."""
    said = {"x": "x forward", "y": "y to the left", "z": "z up"}
    return tuple(
        Argument(f"{name}_{axis}", "number", f"{of}: {said[axis]}.", unit="length") for axis in axes
    )


def _angle(name, words):
    return Argument(name, "number", words, unit="angle", above=0.0, below=180.0)


LEG_POINT = Argument(
    "leg_point", "text", "Which point: knee, ankle or toe.", choices=("knee", "ankle", "toe")
)
LEG_JOINT = Argument(
    "leg_joint", "text", "Which joint: hip, knee or ankle.", choices=("hip", "knee", "ankle")
)
LEG_AXIS = COORDINATE.but(
    name="leg_axis", help="Which coordinate: x or z; a leg stays in its own upright plane.",
    choices=("x", "z"),
)  # fmt: skip
BACK = Argument(
    "back_angle", "number", "How far the back leans rearward from upright.", unit="angle",
    above=-45.0, below=90.0,
)  # fmt: skip
LEG = (
    _length("thigh", "From hip to knee joint."),
    _length("shank", "From knee to ankle joint."),
    _length("foot", "Length of the foot, in its shoe if that is worn."),
    _length("ankle_height", "Ankle joint above the sole."),
    *places("hip", "Hip joint", "xz"),
    *places("heel", "Where the heel rests", "xz"),
    *places("pedal", "Where the sole meets the pedal", "xz"),
)
UPPER_ARM = _length("upper_arm", "From shoulder to elbow joint.")
FOREARM = _length("forearm", "From the elbow joint to what the hand holds.")
SHOULDER = places("shoulder", "Left shoulder joint")
HAND = places("hand", "What the left hand holds")
WHEEL = places("wheel", "Centre of the steering wheel")
TILT = Argument(
    "tilt", "number", "How far the steering wheel's top leans forward from upright.",
    unit="angle", above=-90.0, below=90.0,
)  # fmt: skip
WHEEL_RADIUS = _length("wheel_radius", "Radius of the steering wheel, to the middle of its rim.")
HOLD = Argument(
    "hold", "number", "Where the left hand holds the rim: angle from its top to the left.",
    unit="angle",
)  # fmt: skip
ELBOW_OUT = Argument(
    "elbow_out", "number", "By how much the left elbow is raised outward from where it hangs "
    "lowest; 0 if left out.",
    unit="angle", default=0.0,
)  # fmt: skip

CLOSED = "Closure of the linkage of bones: a triangle of two lengths and a distance."
ANKLE = "Ankle a quarter of the foot ahead of the heel's end: common practice, no source."


def leg_of(thigh, shank, foot, ankle_height, hip_x, hip_z, heel_x, heel_z, pedal_x, pedal_z):
    """A `Leg` of plain numbers."""
    return posture.Leg(
        thigh, shank, foot, ankle_height,
        Vec(hip_x, 0.0, hip_z), Vec(heel_x, 0.0, heel_z), Vec(pedal_x, 0.0, pedal_z),
    )  # fmt: skip


def _why_leg(*leg):
    spare = leg_of(*leg).spare()
    if spare < 0.0:
        return (
            f"pedal_x: the leg is {shown(-spare)} too short for this pedal; bring it nearer, or "
            "the hip forward"
        )
    return "pedal_x: the foot is so near the hip that the knee cannot bend so far; move it away"


_BEYOND_LEG = "the leg does not reach this pedal, or the pedal is too near the hip"


@formula(
    name="LEG_POINT",
    group=GROUP,
    arguments=(LEG_POINT, LEG_AXIS, *LEG),
    unit="length",
    positive="it lies forward of the front axle line or above the ground",
    help="A coordinate of the knee, the ankle or the toe of a leg whose sole lies from the heel's "
    "place to the pedal.",
    source=f"{CLOSED} {ANKLE}",
    example='=CORNER.LEG_POINT("knee", "z", 431, 433, 268, 69, -900, 170, -150, 90, -80, 230)',
    check=415.398082454,
    why=lambda point, axis, *leg: _why_leg(*leg),
    beyond=_BEYOND_LEG,
)
def leg_point(
    point, axis, thigh, shank, foot, ankle_height, hip_x, hip_z, heel_x, heel_z, pedal_x, pedal_z
):  # fmt: skip
    leg = leg_of(thigh, shank, foot, ankle_height, hip_x, hip_z, heel_x, heel_z, pedal_x, pedal_z)
    return getattr(getattr(leg, point), axis)


@formula(
    name="LEG_ANGLE",
    group=GROUP,
    arguments=(LEG_JOINT, *LEG, BACK),
    unit="degrees",
    positive="it has a value",
    help="Angle of a leg's joint: hip between trunk and thigh; knee between thigh and shank, 180 "
    "being straight; ankle between shank and sole.",
    source=f"{CLOSED} {ANKLE}",
    example='=CORNER.LEG_ANGLE("knee", 431, 433, 268, 69, -900, 170, -150, 90, -80, 230, 30)',
    check=112.485245286,
    why=lambda joint, *leg_and_back: _why_leg(*leg_and_back[:-1]),
    beyond=_BEYOND_LEG,
)
def leg_angle(
    joint, thigh, shank, foot, ankle_height, hip_x, hip_z, heel_x, heel_z, pedal_x, pedal_z,
    back_angle,
):  # fmt: skip
    leg = leg_of(thigh, shank, foot, ankle_height, hip_x, hip_z, heel_x, heel_z, pedal_x, pedal_z)
    if joint == "hip":
        return leg.hip_angle(back_angle)
    return leg.knee_angle() if joint == "knee" else leg.ankle_angle()


@formula(
    name="LEG_SPARE",
    group=GROUP,
    arguments=LEG,
    unit="length",
    positive="the leg reaches",
    help="How much longer thigh and shank are than the way from the hip to the ankle; below 0 it "
    "is the gap that is left.",
    source=f"{CLOSED} {ANKLE}",
    example="=CORNER.LEG_SPARE(431, 433, 268, 69, -900, 170, -150, 90, -80, 230)",
    check=145.671207247,
)
def leg_spare(thigh, shank, foot, ankle_height, hip_x, hip_z, heel_x, heel_z, pedal_x, pedal_z):
    leg = leg_of(thigh, shank, foot, ankle_height, hip_x, hip_z, heel_x, heel_z, pedal_x, pedal_z)
    return leg.spare()


END = Argument(
    "which_end", "text", "Which end of where heel and pedals may be: least or most.",
    choices=("least", "most"),
)  # fmt: skip


@formula(
    name="PEDAL_BOX_END",
    group=GROUP,
    arguments=(
        END, *LEG, *places("pressed", "Where the sole meets the pressed pedal", "xz"), BACK,
        _angle("hip_limit", "Limit of the hip's angle: the smallest for least, else the largest."),
        _angle("knee_limit", "The same of the knee's angle."),
        _angle("ankle_limit", "The same of the ankle's angle."),
    ),
    unit="length",
    positive="heel and pedals go forward",
    help="How far heel and pedals may go together, from where they are, before an angle of hip, "
    "knee or ankle is beyond a limit, the pedal at rest or pressed: all three grow as they go "
    "forward.",
    source=f"{CLOSED} {ANKLE}",
    example='=CORNER.PEDAL_BOX_END("most", 431, 433, 268, 69, -900, 170, -150, 90, -80, 230, '
    "-40, 215, 30, 120, 135, 115)",
    check=55.6114505708,
    why=lambda *given: (
        "hip_z, heel_z: the heel is so far above or below the hip that the leg does not reach it"
    ),
    beyond="the heel is so far above or below the hip that the leg does not reach it",
)  # fmt: skip
def pedal_box_end(
    which_end, thigh, shank, foot, ankle_height, hip_x, hip_z, heel_x, heel_z, pedal_x, pedal_z,
    pressed_x, pressed_z, back_angle, hip_limit, knee_limit, ankle_limit,
):  # fmt: skip
    bones = thigh, shank, foot, ankle_height, hip_x, hip_z, heel_x, heel_z
    shifts = []
    for pedal in ((pedal_x, pedal_z), (pressed_x, pressed_z)):
        found = leg_of(*bones, *pedal)
        shifts += [
            found.shift_for_hip(hip_limit, back_angle),
            found.shift_for_knee(knee_limit),
            found.shift_for_ankle(ankle_limit),
        ]
    return posture.farthest(shifts) if which_end == "least" else posture.nearest(shifts)


def _why_arm(upper_arm, forearm, distance):
    if distance > upper_arm + forearm:
        return (
            f"upper_arm, forearm: the arm is {shown(distance - upper_arm - forearm)} too short; "
            "bring the steering wheel nearer"
        )
    return (
        "upper_arm, forearm: the hand is so near the shoulder that the elbow cannot bend so far; "
        "move the steering wheel away"
    )


def _why_in_space(upper_arm, forearm, *places):
    far = (Vec(*places[3:6]) - Vec(*places[:3])).length()
    return _why_arm(upper_arm, forearm, far)


_BEYOND_ARM = "the arm does not reach, or the hand is too near the shoulder"


@formula(
    name="ELBOW_POINT",
    group=GROUP,
    arguments=(COORDINATE, UPPER_ARM, FOREARM, *SHOULDER, *HAND, ELBOW_OUT),
    unit="length",
    positive="it lies forward, to the left or up",
    help="A coordinate of the left elbow, which hangs as low as shoulder and hand let it, or is "
    "raised outward.",
    source="Closure in space: the circle on which both bones' lengths put the elbow.",
    example='=CORNER.ELBOW_POINT("z", 327, 352, -1150, 180, 610, -650, 130, 500)',
    check=342.30223561,
    why=lambda coordinate, *given: _why_in_space(*given),
    beyond=_BEYOND_ARM,
)
def elbow_point(
    coordinate, upper_arm, forearm, shoulder_x, shoulder_y, shoulder_z, hand_x, hand_y, hand_z,
    elbow_out,
):  # fmt: skip
    shoulder, hand = Vec(shoulder_x, shoulder_y, shoulder_z), Vec(hand_x, hand_y, hand_z)
    at = posture.elbow(upper_arm, forearm, shoulder, hand, elbow_out)
    return tuple(at)[COORDINATE.choices.index(coordinate)]


@formula(
    name="SHOULDER_ANGLE",
    group=GROUP,
    arguments=(UPPER_ARM, FOREARM, *SHOULDER, *HAND, BACK, ELBOW_OUT),
    unit="degrees",
    positive="it has a value",
    help="Angle in space between the upper arm and the line from the shoulder down along the back.",
    source="Closure in space: the circle on which both bones' lengths put the elbow.",
    example="=CORNER.SHOULDER_ANGLE(327, 352, -1150, 180, 610, -650, 130, 500, 30)",
    check=5.90566513218,
    why=_why_in_space,
    beyond=_BEYOND_ARM,
)
def shoulder_angle(
    upper_arm, forearm, shoulder_x, shoulder_y, shoulder_z, hand_x, hand_y, hand_z,
    back_angle, elbow_out,
):  # fmt: skip
    shoulder, hand = Vec(shoulder_x, shoulder_y, shoulder_z), Vec(hand_x, hand_y, hand_z)
    at = posture.elbow(upper_arm, forearm, shoulder, hand, elbow_out)
    return posture.between(-posture.trunk(back_angle), at - shoulder)


@formula(
    name="ELBOW_ANGLE",
    group=GROUP,
    arguments=(UPPER_ARM, FOREARM, _length("hand_distance", "From the shoulder to the hand.")),
    unit="degrees",
    positive="it has a value",
    help="Angle of the elbow for a distance from shoulder to hand: 180 is a straight arm.",
    source="The cosine rule.",
    example="=CORNER.ELBOW_ANGLE(327, 352, 515)",
    check=98.5918866511,
    why=_why_arm,
    beyond=_BEYOND_ARM,
)
def elbow_angle(upper_arm, forearm, hand_distance):
    return posture.opening(upper_arm, forearm, hand_distance)


RIM = (*SHOULDER, *WHEEL, TILT, WHEEL_RADIUS, HOLD)
RIM_END = Argument(
    "rim_end", "text", "Which distance: the least or the most.", choices=("least", "most")
)
WHEEL_TURNED = Argument(
    "wheel_turned", "number",
    "How far the steering wheel turns to either side, the hands holding on; 0 if left out.",
    unit="angle", default=0.0,
)  # fmt: skip


@formula(
    name="RIM_DISTANCE",
    group=GROUP,
    arguments=(RIM_END, *RIM, WHEEL_TURNED),
    unit="length",
    positive="it has a value",
    help="The least or most distance from the left shoulder to a hand that keeps hold of the rim "
    "while the steering wheel turns to either side.",
    source="Distance of a point from an arc of a circle in space.",
    example='=CORNER.RIM_DISTANCE("most", -1150, 180, 610, -650, 0, 500, 20, 130, 90, 120)',
    check=591.634298843,
)
def rim_distance(
    rim_end, shoulder_x, shoulder_y, shoulder_z, wheel_x, wheel_y, wheel_z, tilt, wheel_radius,
    hold, wheel_turned,
):  # fmt: skip
    rim = posture.Rim(Vec(wheel_x, wheel_y, wheel_z), tilt, wheel_radius)
    # A turn to the right is as far as one to the left.
    turned = where(wheel_turned >= 0.0, wheel_turned, -wheel_turned)
    shoulder = Vec(shoulder_x, shoulder_y, shoulder_z)
    return rim.reach(shoulder, hold, turned, rim_end == "most")


@formula(
    name="RIM_PLACE",
    group=GROUP,
    arguments=(COORDINATE, *WHEEL, TILT, WHEEL_RADIUS, HOLD),
    unit="length",
    positive="it lies forward, to the left or up",
    help="A coordinate of a place on the steering wheel's rim, by its angle from the top.",
    source="A circle in space.",
    example='=CORNER.RIM_PLACE("x", -650, 0, 500, 20, 130, 60)',
    check=-627.768690684,
)
def rim_place(coordinate, wheel_x, wheel_y, wheel_z, tilt, wheel_radius, hold):
    at = posture.Rim(Vec(wheel_x, wheel_y, wheel_z), tilt, wheel_radius).at(hold)
    return tuple(at)[COORDINATE.choices.index(coordinate)]


@formula(
    name="STEERING_WHEEL_SHIFT",
    group=GROUP,
    arguments=(
        _angle("elbow_wanted", "Wanted angle of the elbow."),
        UPPER_ARM, FOREARM, *SHOULDER, *HAND, TILT,
    ),
    unit="length",
    positive="the steering wheel comes toward the driver",
    help="How far the steering wheel must be moved along its axis for an angle of the elbow.",
    source="The cosine rule, and a point on a line at a distance from another.",
    example="=CORNER.STEERING_WHEEL_SHIFT(100, 327, 352, -1150, 180, 610, -650, 130, 500, 20)",
    check=-6.08040503095,
    why=lambda *given: (
        "elbow_wanted: at no place along its axis is the steering wheel so near the shoulder; a "
        "larger angle was expected"
    ),
    beyond="at no place along its axis is the steering wheel so near the shoulder",
)  # fmt: skip
def steering_wheel_shift(
    elbow_wanted, upper_arm, forearm, shoulder_x, shoulder_y, shoulder_z, hand_x, hand_y, hand_z,
    tilt,
):  # fmt: skip
    shoulder, hand = Vec(shoulder_x, shoulder_y, shoulder_z), Vec(hand_x, hand_y, hand_z)
    return posture.wheel_shift(posture.span(upper_arm, forearm, elbow_wanted), shoulder, hand, tilt)
