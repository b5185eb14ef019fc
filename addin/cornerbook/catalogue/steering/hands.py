"""Formulas from the moments about the steering axes to the hands on the steering wheel.

Forces in any one unit, lengths in any one; moments and torques are force x length.
"""

from ...cells.arguments import CORNER, RACK, TRAVEL
from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative, shown
from ...cells.reach import closes, why_not
from ...geometry.steering import hands, patch
from .moments import DEAD, DEAD_THERE, hold_rod

GROUP = "From the wheels to the hands"

PINION_RADIUS = Argument(
    "pinion_radius", "number",
    "Pitch radius of the pinion: rack moved for each radian of the steering wheel; that of "
    "DROP_LINK_LEVER for a lever on the column.",
    unit="length", above=0.0,
)  # fmt: skip
DROP_LINK = (
    Argument(
        "angle", "number",
        "Turn of the column from where the link is square to the lever, positive as the lever "
        "pushes the link.",
        unit="angle", above=-180.0, below=180.0,
    ),
    Argument(
        "lever_length", "number", "Length of the lever, column to link joint.",
        unit="length", above=0.0,
    ),
    Argument("link_length", "number", "Length of the link.", unit="length", above=0.0),
)  # fmt: skip


def _moment(side):
    return Argument(
        "moment_" + side,
        "number",
        f"Moment about the {side} wheel's steering axis, toward toe-in positive, as "
        "STEERING_MOMENT "
        f"gives it{'' if side == 'left' else ' at the opposite rack'}.",
        unit="moment",
    )


MOMENT_LEFT, MOMENT_RIGHT = _moment("left"), _moment("right")


def _why_axle(corner, travel, rack):
    if not closes(corner, travel, rack):
        return why_not(corner, travel, rack)
    if not closes(corner, travel, -rack):
        return why_not(corner, travel, rack, opposite=True)
    return DEAD_THERE


@formula(
    name="RACK_FORCE",
    group=GROUP,
    arguments=(CORNER, MOMENT_LEFT, MOMENT_RIGHT, TRAVEL, RACK),
    unit="force",
    positive="the wheels push the rack to the left",
    help="Force of both wheels along the rack, through the tie rods as they lie at the pose.",
    source="Statics: each moment over its RACK_LEVER; the right-hand wheel is the mirrored "
    "corner at the opposite rack.",
    example="=CORNER.RACK_FORCE(Example, 16000, -9000, 25, 10)",
    check=259.915887442,
    why=lambda corner, left, right, travel, rack: _why_axle(corner, travel, rack),
    beyond="no solution was found at this travel and rack, or " + DEAD,
)
def rack_force(corner, moment_left, moment_right, travel, rack):
    corner.hold_linkage()
    hold_rod(corner)
    left, right = corner.pose(travel, rack), corner.opposite(travel, rack)
    return hands.rack_force(left, right, moment_left, moment_right)


@formula(
    name="STEERING_RATIO",
    group=GROUP,
    arguments=(CORNER, PINION_RADIUS, RACK, TRAVEL),
    unit="degrees per degree",
    positive="it has a value",
    help="Degrees of steering wheel for each degree of steer, the mean of both wheels, at the "
    "pose.",
    source="Overall steering ratio of ISO 8855:2011, from exact rates; steering wheel and "
    "pinion turn alike.",
    example="=CORNER.STEERING_RATIO(Example, 7, 10, 25)",
    check=13.878351636,
    why=lambda corner, radius, rack, travel: _why_axle(corner, travel, rack),
    beyond="no solution was found at this travel and rack, or " + DEAD,
)
def steering_ratio(corner, pinion_radius, rack, travel):
    corner.hold_linkage()
    hold_rod(corner)
    return hands.steering_ratio(
        corner.pose(travel, rack), corner.opposite(travel, rack),
        corner.motion(travel, rack), corner.motion(travel, -rack), pinion_radius,
    )  # fmt: skip


@formula(
    name="PINION_TORQUE",
    group=GROUP,
    arguments=(
        Argument(
            "rack_force", "number", "Force along the rack, as RACK_FORCE gives it.", unit="force"
        ),
        PINION_RADIUS,
        Argument(
            "efficiency", "number",
            "Share of the work at the pinion that reaches the rack, at most 1; 1 if left out.",
            unit="share", default=1.0, above=0.0,
        ),
    ),
    unit="force x length",
    positive="the force on the rack is",
    help="Torque at the pinion that moves the rack against a force.",
    source="Statics: force times pitch radius, over the efficiency of the rack and pinion.",
    example="=CORNER.PINION_TORQUE(350, 7, 0.9)",
    check=2722.22222222,
)  # fmt: skip
def pinion_torque(rack_force, pinion_radius, efficiency):
    hold(efficiency <= 1.0, "efficiency: %s given, a share of at most 1 was expected", efficiency)
    return rack_force * pinion_radius / efficiency


@formula(
    name="PINION_RADIUS_FROM_TRAVEL",
    group=GROUP,
    arguments=(
        Argument(
            "rack_per_turn", "number", "Rack moved in one turn of the steering wheel.",
            unit="length", above=0.0,
        ),
    ),
    unit="length",
    positive="it has a value",
    help="Pitch radius of a pinion from how far it moves the rack in one turn.",
    source="Geometry of rolling: the rack moves by the pitch circle's circumference.",
    example="=CORNER.PINION_RADIUS_FROM_TRAVEL(44)",
    check=7.00281749604,
)  # fmt: skip
def pinion_radius_from_travel(rack_per_turn):
    return hands.pinion_radius(rack_per_turn)


def _why_link(angle, lever_length, link_length):
    along = hands.DropLink(angle, lever_length, link_length).along
    if along == along:
        said = "the lever and the link have passed their toggle, where they lie in one line"
    else:
        said = "the link is too short to reach"
    return f"angle: at {shown(angle)} degrees {said}; a smaller angle or a longer link was expected"


TOGGLE = "the link does not reach this angle, or is past its toggle there"


@formula(
    name="DROP_LINK_LEVER",
    group=GROUP,
    arguments=DROP_LINK,
    unit="length",
    positive="it has a value",
    help="Rack moved for each radian of a column that moves it by a lever and a cross link, in "
    "place of a pinion's radius.",
    source="Slider and crank in the plane across the car, the link along the slide and square "
    "to the lever at angle 0; exact derivative.",
    example="=CORNER.DROP_LINK_LEVER(35, 60, 220)",
    check=47.4496522067,
    why=_why_link,
    beyond=TOGGLE,
)
def drop_link_lever(angle, lever_length, link_length):
    return hands.DropLink(angle, lever_length, link_length).lever


@formula(
    name="DROP_LINK_TRAVEL",
    group=GROUP,
    arguments=DROP_LINK,
    unit="length",
    positive="the lever has pushed the link",
    help="Rack moved by a lever on the column and a cross link, from where the link is square to "
    "the lever.",
    source="Slider and crank in the plane across the car, the link along the slide and square "
    "to the lever at angle 0.",
    example="=CORNER.DROP_LINK_TRAVEL(35, 60, 220)",
    check=34.1468288331,
    why=_why_link,
    beyond=TOGGLE,
)
def drop_link_travel(angle, lever_length, link_length):
    return hands.DropLink(angle, lever_length, link_length).travel


@formula(
    name="PARKING_MOMENT",
    group=GROUP,
    arguments=(
        Argument("load", "number", "Load on the tyre.", unit="force", above=0.0),
        Argument(
            "friction", "number",
            "Coefficient of friction of tyre on road, sliding, 0 or more; rubber has less of it "
            "the more it is pressed and more before it first moves: neither is followed.",
            unit="ratio",
        ),
        Argument(
            "patch_length", "number", "Length of the contact patch, along the wheel's heading.",
            unit="length", above=0.0,
        ),
        Argument(
            "patch_width", "number", "Width of the contact patch, across it.",
            unit="length", above=0.0,
        ),
        Argument(
            "trail", "number",
            "How far ahead of the contact centre the steering axis meets the ground, such as "
            "TRAIL, of a wheel free to roll too; 0 if left out.",
            unit="length", default=0.0,
        ),
        Argument(
            "scrub", "number",
            "How far it meets the ground beside the contact centre, such as SCRUB, for a wheel "
            "held by its brake; 0, for one free to roll, if left out.",
            unit="length", default=0.0,
        ),
        Argument(
            "caster", "number",
            "Caster of the steering axis at that rack, such as CASTER; 0 if left out.",
            unit="angle", default=0.0, above=-60.0, below=60.0,
        ),
        Argument(
            "inclination", "number",
            "Its kingpin inclination at that rack, such as KPI; 0 if left out.",
            unit="angle", default=0.0, above=-60.0, below=60.0,
        ),
    ),
    unit="force x length",
    positive="it has a value",
    help="Moment about the steering axis that turns one wheel on the spot, the car standing still: "
    "friction of an evenly pressed rectangle; a wheel free to roll rolls its scrub away, and its "
    "trail drags it sideways.",
    source="Exact integral of the distance from the axis over the rectangle, and the part of that "
    "upright moment along the axis; Coulomb's friction, without its fall with pressure and speed.",
    example="=CORNER.PARKING_MOMENT(1100, 0.9, 120, 70, 18, 21, 6, 9)",
    check=43086.6722823,
)  # fmt: skip
def parking_moment(
    load, friction, patch_length, patch_width, trail, scrub, caster, inclination
):  # fmt: skip
    hold_not_negative(friction, "friction")
    upright = patch.parking_moment(load, friction, patch_length, patch_width, trail, scrub)
    return upright * patch.upright_part(caster, inclination)


@formula(
    name="RIM_FORCE",
    group=GROUP,
    arguments=(
        Argument("torque", "number", "Torque at the steering wheel.", unit="moment"),
        Argument(
            "wheel_radius", "number", "Radius of the steering wheel's rim.",
            unit="length", above=0.0,
        ),
    ),
    unit="force",
    positive="the torque is",
    help="Force at the steering wheel's rim along it, both hands together.",
    source="Statics: torque over radius.",
    example="=CORNER.RIM_FORCE(2700, 140)",
    check=19.2857142857,
)  # fmt: skip
def rim_force(torque, wheel_radius):
    return torque / wheel_radius


@formula(
    name="TURNS_LOCK_TO_LOCK",
    group=GROUP,
    arguments=(
        Argument(
            "rack_lock", "number", "How far the rack moves from the middle to either lock.",
            unit="length", above=0.0,
        ),
        PINION_RADIUS,
    ),
    unit="turns",
    positive="it has a value",
    help="Turns of the steering wheel from lock to lock.",
    source="Geometry of rolling: the rack moves by the pitch circle's circumference.",
    example="=CORNER.TURNS_LOCK_TO_LOCK(55, 7)",
    check=2.50100624859,
)  # fmt: skip
def turns_lock_to_lock(rack_lock, pinion_radius):
    return hands.turns_lock_to_lock(rack_lock, pinion_radius)
