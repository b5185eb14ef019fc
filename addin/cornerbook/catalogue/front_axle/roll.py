"""Formulas for both wheels on a level road under a body that rolls and heaves."""

from ...cells.arguments import CORNER, POSE, RACK
from ...cells.block import key_of
from ...cells.declare import FORMULAS, Argument, formula
from ...cells.mend import Mend, shown
from ...cells.quantity import quantity_key
from ...cells.reach import both_shown, closes, limit, limit_of_travel
from ...geometry.corner import instant
from ...geometry.front_axle import road
from ..corner.pose import GROUP as OF_A_POSE
from .axle import hold_left

GROUP = "Both wheels in roll"

ROLL = Argument(
    "roll", "number", "Roll angle of the body, positive when its left side rises.",
    unit="angle", above=-45.0, below=45.0,
)  # fmt: skip
HEAVE = Argument(
    "heave", "number", "How far the body has risen over the road as drawn; 0 if left out.",
    unit="length", default=0.0,
)  # fmt: skip
SIDE = Argument("side", "text", "Which wheel: left or right.", choices=("left", "right"))

IN_ROLL = (CORNER, ROLL, HEAVE, RACK)
"""Arguments of a formula of both wheels."""

ONE_WHEEL = (CORNER, SIDE, ROLL, HEAVE, RACK)

BEYOND = "no solution was found on the road at this roll, heave and rack"
NO_CROSSING = BEYOND + ", or the lines of both wheels are parallel and do not cross"


class _Standing:
    """A wheel on the road, in the place of a corner at a pose."""

    def __init__(self, pose):
        self._pose = pose

    def pose(self, travel, rack):
        return self._pose


def place_of(side, roll, rack):
    """Roll and rack at which the left-hand corner is this side's wheel, mirrored if right."""
    return (roll, rack) if side == "left" else (-roll, -rack)


def wheel_on_road(corner, side, roll, heave, rack):
    """The `Pose` of a wheel on the road, as a left-hand corner; `Mend` without a linkage."""
    corner.hold_linkage()
    hold_left(corner)
    roll, rack = place_of(side, roll, rack)
    return corner.on_road(roll, heave, rack)


def _both(corner, roll, heave, rack):
    left = wheel_on_road(corner, "left", roll, heave, rack)
    return road.BothWheels(left, wheel_on_road(corner, "right", roll, heave, rack))


def _crossing(slope, corner, roll, heave, rack):
    """(height, lateral) where both wheels' lines of this slope cross."""
    corner.hold_linkage()
    hold_left(corner)
    poses, slopes = [], []
    for side in ("left", "right"):
        at = place_of(side, roll, rack)
        pose = corner.on_road(at[0], heave, at[1])
        poses.append(pose)
        slopes.append(slope(corner.on_road_motion(at[0], heave, at[1]), pose))
    return road.BothWheels(*poses).crossing(*slopes)


def reaches(corner, side, roll, heave, rack):
    """Whether a wheel can stand on the road there."""
    try:
        pose = wheel_on_road(corner, side, roll, heave, rack)
    except (ZeroDivisionError, OverflowError):
        return False
    return pose.wheel_centre.z == pose.wheel_centre.z


def why_wheel(corner, side, roll, heave, rack):
    """Why a wheel cannot stand on the road there."""
    at = f"roll {shown(roll)}, heave {shown(heave)}"
    if rack and reaches(corner, side, roll, heave, 0.0):
        most = limit(lambda distance: reaches(corner, side, roll, heave, distance), rack)
        asked, end = both_shown(rack, most)
        return f"rack {asked} is past the lock of the {side} wheel at {at}: it goes only to {end}"
    own_roll, own_rack = place_of(side, roll, rack)
    stance = road.Stance(own_roll, heave, corner.drawn.contact_centre().z)
    travel = road.travel_guess(corner.drawn, stance)
    if travel and not closes(corner, travel, own_rack):
        most = limit_of_travel(corner, travel, own_rack)
        if most is not None:
            held = f" at rack {shown(rack)}" if rack else ""
            return (
                f"{at} cannot be reached: the {side} wheel would have to travel some "
                f"{shown(round(travel, 1))}, the arms end at {both_shown(travel, most)[1]}{held}"
            )
    if roll and reaches(corner, side, 0.0, heave, rack):
        most = limit(lambda angle: reaches(corner, side, angle, heave, rack), roll)
        end = both_shown(roll, most)[1]
        return f"{at} cannot be reached by the {side} wheel: the roll ends at {end} there"
    if heave and reaches(corner, side, 0.0, 0.0, rack):
        most = limit(lambda rise: reaches(corner, side, 0.0, rise, rack), heave)
        end = both_shown(heave, most)[1]
        return f"{at} cannot be reached by the {side} wheel: without roll the heave ends at {end}"
    return f"no solution was found for the {side} wheel at {at}, rack {shown(rack)}"


def why_both(corner, roll, heave, rack):
    """Why both wheels cannot stand there, or have no crossing, in a sentence."""
    for side in ("left", "right"):
        if not reaches(corner, side, roll, heave, rack):
            return why_wheel(corner, side, roll, heave, rack)
    return (
        "the lines whose crossing is the roll centre are parallel there, as between parallel "
        "arms: there is none"
    )


@formula(
    name="WHEEL_TRAVEL_IN_ROLL",
    group=GROUP,
    arguments=ONE_WHEEL,
    unit="length",
    positive="the wheel has risen against the body (bump)",
    help="Travel that keeps a wheel on a level road while the body rolls and heaves.",
    source="The linkage solved with the disc's lowest point on the road; roll of ISO 8855:2011.",
    example='=CORNER.WHEEL_TRAVEL_IN_ROLL(Example, "right", 2, -5, 10)',
    check=24.3307643482,
    why=why_wheel,
    beyond=BEYOND,
)
def wheel_travel_in_roll(corner, side, roll, heave, rack):
    pose = wheel_on_road(corner, side, roll, heave, rack)
    own_roll, _ = place_of(side, roll, rack)
    return road.travel_of(pose, corner.drawn, own_roll, heave)


@formula(
    name="TRACK_IN_ROLL",
    group=GROUP,
    arguments=IN_ROLL,
    unit="length",
    positive="the left wheel stands to the left of the right one, as it should",
    help="Track between both contact centres while the body rolls and heaves.",
    source="Track of ISO 8855:2011, across the road, between the discs' lowest points.",
    example="=CORNER.TRACK_IN_ROLL(Example, 2, -5, 10)",
    check=1108.89800822,
    why=why_both,
    beyond=BEYOND,
)
def track_in_roll(corner, roll, heave, rack):
    return _both(corner, roll, heave, rack).track()


@formula(
    name="ROLL_CENTRE_HEIGHT_IN_ROLL",
    group=GROUP,
    arguments=IN_ROLL,
    unit="length",
    positive="above the road",
    help="Height of the roll centre in roll, where the lines from both contact centres to their "
    "front-view instant centres cross.",
    source="Kinematic roll centre (Reimpell et al., The Automotive Chassis, chapter on wheel "
    "suspensions), by plane geometry in the road's axes.",
    example="=CORNER.ROLL_CENTRE_HEIGHT_IN_ROLL(Example, 2, -5, 10)",
    check=61.6203843359,
    why=why_both,
    beyond=NO_CROSSING,
)
def roll_centre_height_in_roll(corner, roll, heave, rack):
    return _crossing(road.slope_by_centre, corner, roll, heave, rack)[0]


@formula(
    name="ROLL_CENTRE_LATERAL_IN_ROLL",
    group=GROUP,
    arguments=IN_ROLL,
    unit="length",
    positive="to the left of the car's middle as drawn",
    help="Lateral place of the roll centre in roll, where the lines from both contact centres to "
    "their front-view instant centres cross; it wanders far where they are nearly parallel.",
    source="Kinematic roll centre (Reimpell et al., The Automotive Chassis, chapter on wheel "
    "suspensions), by plane geometry in the road's axes.",
    example="=CORNER.ROLL_CENTRE_LATERAL_IN_ROLL(Example, 2, -5, 10)",
    check=68.2553779184,
    why=why_both,
    beyond=NO_CROSSING,
)
def roll_centre_lateral_in_roll(corner, roll, heave, rack):
    return _crossing(road.slope_by_centre, corner, roll, heave, rack)[1]


@formula(
    name="ROLL_CENTRE_BY_FORCE_IN_ROLL",
    group=GROUP,
    arguments=IN_ROLL,
    unit="length",
    positive="above the road",
    help="Height of the roll centre in roll by the lateral forces of wheels free to roll, where "
    "the lines cross along which they pass by the springs.",
    source="Virtual work of forces across the headings at the contact centres (Milliken & "
    "Milliken 1995, suspension geometry, force-based view), by plane geometry in the road's "
    "axes.",
    example="=CORNER.ROLL_CENTRE_BY_FORCE_IN_ROLL(Example, 2, -5, 10)",
    check=62.2123077406,
    why=why_both,
    beyond=NO_CROSSING,
)
def roll_centre_by_force_in_roll(corner, roll, heave, rack):
    return _crossing(instant.slope_by_force, corner, roll, heave, rack)[0]


def quantities():
    """What IN_ROLL can show, by its name as `key_of` compares it.

    Each is (its name, a function of corner, side, roll, heave and rack): those of one wheel
    that need its pose alone, then those of this module.
    """
    found = {}
    for entry in FORMULAS.values():
        if entry.group == OF_A_POSE and entry.arguments is POSE:
            found[entry.name] = _measured_on_road(entry)
    found["WHEEL_TRAVEL"] = wheel_travel_in_roll
    for entry in FORMULAS.values():
        if entry.arguments is IN_ROLL:
            found[entry.name[: -len("_IN_ROLL")]] = _of_both(entry)
    named = [(name.lower().replace("_", " "), show) for name, show in found.items()]
    return {key_of(name): (name, show) for name, show in named}


def _measured_on_road(entry):
    def show(corner, side, roll, heave, rack):
        pose = wheel_on_road(corner, side, roll, heave, rack)
        return entry.function(_Standing(pose), 0.0, 0.0)

    return show


def _of_both(entry):
    return lambda corner, side, roll, heave, rack: entry.function(corner, roll, heave, rack)


@formula(
    name="IN_ROLL",
    group=GROUP,
    arguments=(
        CORNER,
        Argument(
            "quantity", "text",
            "What to show: camber, toe, caster, kpi, trail, scrub, wheel travel, track, roll "
            "centre height, roll centre lateral or roll centre by force.",
        ),
        SIDE.but(help="Which wheel: left or right; of no matter for the track and roll centre."),
        ROLL,
        HEAVE,
        RACK,
    ),
    help="One quantity by its name with the body rolled and heaved, measured to the road, for "
    "tables whose headings say what they show; #N/A where the linkage cannot reach.",
    source="The formula of the quantity, the pose being taken in the road's axes.",
    example='=CORNER.IN_ROLL(Example, "camber", "right", 2, -5, 10)',
    check=0.772994697081,
)  # fmt: skip
def in_roll(corner, quantity, side, roll, heave, rack):
    known = quantities()
    key = key_of(quantity)
    if key not in known:
        key = quantity_key(quantity)
    if key not in known:
        raise Mend(
            f"quantity: {shown(quantity)} is not known; one of these was expected: "
            f"{', '.join((name for name, _ in known.values()))}"
        )
    _, show = known[key]
    try:
        value = show(corner, side, roll, heave, rack)
    except (ZeroDivisionError, OverflowError):
        return None
    return None if isinstance(value, float) and value != value else value
