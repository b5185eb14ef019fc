"""Formulas that give a place from what is wanted, and stay live as the wish changes.

A formula reads one block and gives a place; a second block may take it. A block that takes
the place it gives itself goes in a circle, which spreadsheets refuse.
"""

from ..cells.arguments import CORNER, FROM_TRAVEL, RACK_TURNED, TO_TRAVEL, TRAVEL, WHEELBASE
from ..cells.declare import Argument, formula
from ..cells.mend import hold
from ..geometry import placing
from ..geometry.numbers import absolute, where
from ..geometry.vec import Vec
from . import layout
from .axle import hold_left

GROUP = "Placing points"

# A place farther away than this many tyre radii is none.
_FAR = 1000.0

# A tie rod's end farther than so many tyre radii from the car's middle is on no car.
_OFF_CAR = 10.0

# An axis past this angle is none that the other formulas take.
_MOST_ANGLE = 60.0

# A tie rod whose outer end is nearer the steering axis than this part of the tyre's radius has
# next to no lever (our choice, no source).
_LEAST_LEVER = 0.1

COORDINATE = Argument(
    "coordinate", "text",
    "x, y or z for one number; left out, the three stand side by side.",
    default="all", choices=("x", "y", "z", "all"),
)  # fmt: skip
TRAIL = Argument(
    "trail", "number",
    "Mechanical trail that is wanted, positive when the axis meets the ground ahead of the "
    "contact centre.",
    unit="length",
)  # fmt: skip
SCRUB = Argument(
    "scrub", "number",
    "Scrub radius that is wanted, positive when the axis meets the ground inboard of the "
    "contact centre.",
    unit="length",
)  # fmt: skip
HEIGHT = Argument(
    "height", "number", "Height at which the joint shall lie, its z in the block.", unit="length"
)
CAMBER_GAIN = Argument(
    "camber_gain", "number",
    "Change of camber with travel that is wanted as drawn, usually a little below zero.",
    unit="degrees per length",
)  # fmt: skip
ROLL_CENTRE = Argument(
    "roll_centre", "number",
    "Height of the roll centre above ground that is wanted as drawn.", unit="length",
)  # fmt: skip
END = Argument(
    "pickup_end", "text", "front or rear, for which of the upper arm's pickups.",
    choices=("front", "rear"),
)  # fmt: skip
TIE_ROD = Argument(
    "tie_rod", "text",
    "as drawn, if the tie rod stays as it is (so if left out), or no bump steer, if its inner end "
    "is then moved by PLACE_TIE_ROD_INNER.",
    default="as drawn", choices=("as drawn", "no bump steer"),
)  # fmt: skip

AXES = "forward (x), to the left (y), upward (z)"

AXIS = (CORNER, layout.CASTER, layout.INCLINATION, TRAIL, SCRUB, HEIGHT, COORDINATE)


def _shown(place, coordinate):
    return (tuple(place),) if coordinate == "all" else getattr(place, coordinate)


def _hold_place(corner, name, place):
    """Raise `Mend` unless a place is one, above the ground and below the wheel's top."""
    radius = corner.drawn.radius
    far = _FAR * radius
    near = where(absolute(place.y) < far, absolute(place.z) < far, False)
    hold(near, f"there is no place for the {name} that gives this, with the rest as drawn")
    ground = corner.drawn.contact_centre().z
    top = ground + 2.0 * radius
    hold(
        where(place.z > ground, place.z < top, False),
        f"the {name} would lie at a height of %s, where one between the ground at %s and the "
        "wheel's "
        "top at %s was expected; ask for something nearer to what the block has",
        place.z,
        ground,
        top,
    )


def _joint(corner, name, coordinate, *wanted):
    place = placing.on_axis(corner.drawn, *wanted)
    _hold_place(corner, name, place)
    return _shown(place, coordinate)


@formula(
    name="PLACE_LOWER_BALL_JOINT",
    group=GROUP,
    arguments=AXIS,
    unit="length",
    positive=AXES,
    help="Where the lower ball joint must be for a caster, kingpin inclination, trail and scrub "
    "radius as drawn, of which the block need have the wheel alone.",
    source="ISO 8855:2011, castor and kingpin angles and offsets at ground; a straight line.",
    example="=CORNER.PLACE_LOWER_BALL_JOINT(Example, 6, 9, 20, 25, 150)",
    check=((4.14905270655, 505.699160133, 150.0),),
    shape="table",
)
def place_lower_ball_joint(corner, caster, inclination, trail, scrub, height, coordinate):
    return _joint(corner, "lower ball joint", coordinate, caster, inclination, trail, scrub, height)


@formula(
    name="PLACE_UPPER_BALL_JOINT",
    group=GROUP,
    arguments=AXIS,
    unit="length",
    positive=AXES,
    help="Where the upper ball joint must be for a caster, kingpin inclination, trail and scrub "
    "radius as drawn, of which the block need have the wheel alone.",
    source="ISO 8855:2011, castor and kingpin angles and offsets at ground; a straight line.",
    example='=CORNER.PLACE_UPPER_BALL_JOINT(Example, 6, 9, 20, 25, 375, "y")',
    check=470.06266106,
    shape="table",
)
def place_upper_ball_joint(corner, caster, inclination, trail, scrub, height, coordinate):
    return _joint(corner, "upper ball joint", coordinate, caster, inclination, trail, scrub, height)


def _hold_angle(angle, name):
    hold(
        absolute(angle) < _MOST_ANGLE,
        name + " of %s degrees would be needed, where less than %s to either side was expected; "
        "move the hub or ask for less",
        angle, _MOST_ANGLE,
    )  # fmt: skip
    return angle


@formula(
    name="INCLINATION_FOR_SCRUB",
    group=GROUP,
    arguments=(SCRUB, layout.RADIUS, layout.OUTBOARD),
    unit="degrees",
    positive="the steering axis's top leans inward",
    help="Kingpin inclination that gives an upright wheel a scrub radius.",
    source="Front-view geometry, SCRUB_FROM_INCLINATION solved for the angle.",
    example="=CORNER.INCLINATION_FOR_SCRUB(18, 262, 60)",
    check=9.10733431225,
)
def inclination_for_scrub(scrub, radius, hub_outboard):
    angle = placing.inclination_for_scrub(scrub, radius, hub_outboard)
    return _hold_angle(angle, "a kingpin inclination")


@formula(
    name="CASTER_FOR_TRAIL",
    group=GROUP,
    arguments=(TRAIL, layout.RADIUS, layout.AHEAD),
    unit="degrees",
    positive="the steering axis's top leans rearward",
    help="Caster that gives an upright wheel a mechanical trail.",
    source="Side-view geometry, TRAIL_FROM_CASTER solved for the angle.",
    example="=CORNER.CASTER_FOR_TRAIL(22, 262, 5)",
    check=5.88375703644,
)
def caster_for_trail(trail, radius, hub_ahead):
    return _hold_angle(placing.caster_for_trail(trail, radius, hub_ahead), "a caster")


@formula(
    name="HUB_OUTBOARD_FOR_SCRUB",
    group=GROUP,
    arguments=(SCRUB, layout.INCLINATION, layout.RADIUS),
    unit="length",
    positive="the wheel centre is outboard of the steering axis",
    help="Level distance across the car from the steering axis to the wheel centre that gives an "
    "upright wheel a scrub radius.",
    source="Front-view geometry, SCRUB_FROM_INCLINATION solved for the hub's offset.",
    example="=CORNER.HUB_OUTBOARD_FOR_SCRUB(18, 9, 262)",
    check=59.496723365,
)
def hub_outboard_for_scrub(scrub, inclination, radius):
    return placing.hub_outboard_for_scrub(scrub, inclination, radius)


@formula(
    name="HUB_AHEAD_FOR_TRAIL",
    group=GROUP,
    arguments=(TRAIL, layout.CASTER, layout.RADIUS),
    unit="length",
    positive="the wheel centre is ahead of the steering axis",
    help="Level distance along the car from the steering axis to the wheel centre that gives an "
    "upright wheel a mechanical trail.",
    source="Side-view geometry, TRAIL_FROM_CASTER solved for the hub's offset.",
    example="=CORNER.HUB_AHEAD_FOR_TRAIL(22, 6, 262)",
    check=5.53730963961,
)
def hub_ahead_for_trail(trail, caster, radius):
    return placing.hub_ahead_for_trail(trail, caster, radius)


_ENDS = ("front", "rear")


def _pickup(corner, arm, end):
    return corner.block.point(f"{arm} {end} pickup")


def _way(corner, arm):
    ball = corner.drawn.lower if arm == "lower" else corner.drawn.upper
    return placing.way_of(ball, *(_pickup(corner, arm, end) for end in _ENDS))


def _held(tie_rod):
    return "rod" if tie_rod == "as drawn" else "toe"


def _on_arm(corner, arm, end, velocity, coordinate):
    """A pickup's place, x and y kept, on an arm that gives its ball joint this velocity."""
    ball = corner.drawn.lower if arm == "lower" else corner.drawn.upper
    point = _pickup(corner, arm, end)
    name = f"{arm} {end} pickup"
    hold(
        point.y < ball.y,
        f"{name}: y is %s, outboard of the ball joint at %s; an arm that reaches outward from "
        "its "
        "pickups was expected",
        point.y,
        ball.y,
    )
    place = Vec(point.x, point.y, placing.square_height(ball, point, velocity))
    _hold_place(corner, name, place)
    return _shown(place, coordinate)


@formula(
    name="PLACE_PICKUP",
    group=GROUP,
    arguments=(
        CORNER,
        Argument(
            "pickup", "text", "lower front, lower rear, upper front or upper rear.",
            choices=("lower front", "lower rear", "upper front", "upper rear"),
        ),
        CAMBER_GAIN, ROLL_CENTRE, TIE_ROD, COORDINATE,
    ),
    unit="length",
    positive=AXES,
    help="Where a pickup must be, moved up or down alone, for a camber gain and a roll centre "
    "height as drawn once all four are so placed, the side view of the corner kept.",
    source="Arms square to the motion of the upright that is wanted; the turn about the axis "
    "across the car and the slope of the contact's path in side view stay as drawn.",
    example='=CORNER.PLACE_PICKUP(Example, "upper front", -0.03, 45, "no bump steer", "z")',
    check=351.406760263,
    shape="table",
)  # fmt: skip
def place_pickup(corner, pickup, camber_gain, roll_centre, tie_rod, coordinate):
    corner.hold_linkage()
    hold_left(corner)
    motion = placing.wanted_motion(
        corner.drawn, corner.motion(0.0, 0.0), camber_gain, roll_centre, _held(tie_rod)
    )
    arm, end = pickup.split()
    ball = corner.drawn.lower if arm == "lower" else corner.drawn.upper
    velocity = motion.velocity_of(ball)
    hold(
        velocity.z > 0.0,
        f"with this camber gain and roll centre the {arm} ball joint would have to go down as "
        "the "
        "wheel rises; ask for something nearer to what the block has",
    )
    return _on_arm(corner, arm, end, velocity, coordinate)


def _upper(corner, end, missed, tie_rod, coordinate):
    velocity = placing.upper_velocity(
        corner.drawn, _way(corner, "lower"), _way(corner, "upper"), _held(tie_rod), missed
    )
    return _on_arm(corner, "upper", end, velocity, coordinate)


@formula(
    name="PLACE_UPPER_PICKUP_FOR_CAMBER",
    group=GROUP,
    arguments=(CORNER, END, CAMBER_GAIN, TIE_ROD, COORDINATE),
    unit="length",
    positive=AXES,
    help="Where a pickup of the upper arm must be, moved up or down alone, for a camber gain as "
    "drawn once both are so placed, the lower arm and the upper one's slope along the car kept.",
    source="Arms square to the motion of the upright that is wanted; with the lower arm given, "
    "the roll centre follows.",
    example='=CORNER.PLACE_UPPER_PICKUP_FOR_CAMBER(Example, "front", -0.03)',
    check=((90.0, 260.0, 358.733301713),),
    shape="table",
)
def place_upper_pickup_for_camber(corner, end, camber_gain, tie_rod, coordinate):
    corner.hold_linkage()
    missed = placing.camber_missed(corner.drawn, camber_gain)
    return _upper(corner, end, missed, tie_rod, coordinate)


@formula(
    name="PLACE_UPPER_PICKUP_FOR_ROLL",
    group=GROUP,
    arguments=(CORNER, END, ROLL_CENTRE, TIE_ROD, COORDINATE),
    unit="length",
    positive=AXES,
    help="Where a pickup of the upper arm must be, moved up or down alone, for a roll centre "
    "height as drawn once both are so placed, the lower arm and the upper one's slope along the "
    "car kept.",
    source="Arms square to the motion of the upright that is wanted; with the lower arm given, "
    "the camber gain follows.",
    example='=CORNER.PLACE_UPPER_PICKUP_FOR_ROLL(Example, "rear", 45, "as drawn", "z")',
    check=364.804916809,
    shape="table",
)
def place_upper_pickup_for_roll(corner, end, roll_centre, tie_rod, coordinate):
    corner.hold_linkage()
    hold_left(corner)
    missed = placing.roll_centre_missed(corner.drawn, roll_centre)
    return _upper(corner, end, missed, tie_rod, coordinate)


@formula(
    name="PLACE_TIE_ROD_INNER",
    group=GROUP,
    arguments=(CORNER, COORDINATE),
    unit="length",
    positive=AXES,
    help="Where the tie rod's inner end must be, moved up or down alone, for no bump steer as "
    "drawn.",
    source="Exact derivative of the arms' constraints, the toe held; a rod square to the way that "
    "its outer end goes.",
    example='=CORNER.PLACE_TIE_ROD_INNER(Example, "z")',
    check=184.720972432,
    shape="table",
)
def place_tie_rod_inner(corner, coordinate):
    corner.hold_linkage()
    inner = corner.drawn.tie_inner
    height = placing.tie_rod_inner_height(
        corner.drawn, _way(corner, "lower"), _way(corner, "upper")
    )
    place = Vec(inner.x, inner.y, height)
    _hold_place(corner, "tie rod's inner end", place)
    return _shown(place, coordinate)


_POINTS = {
    "lower_front": "lower front pickup",
    "lower_rear": "lower rear pickup",
    "upper_front": "upper front pickup",
    "upper_rear": "upper rear pickup",
}


def _points(corner):
    """The linkage's points by the names of its arguments, but the tie rod's outer end."""
    points = {name: corner.block.point(label) for name, label in _POINTS.items()}
    drawn = corner.drawn
    points.update(
        lower_ball=drawn.lower, upper_ball=drawn.upper,
        tie_inner=drawn.tie_inner, wheel_centre=drawn.wheel_centre,
    )  # fmt: skip
    return points


def _held_toe(corner):
    # Made here from the points: in cells, a formula of more numbers has no other linkage.
    drawn = corner.drawn
    linkage = placing.with_tie_outer(_points(corner), drawn, drawn.tie_outer)
    return placing.HeldToe(linkage, drawn)


@formula(
    name="PLACE_TIE_ROD_INNER_FOR_RANGE",
    group=GROUP,
    arguments=(
        CORNER,
        FROM_TRAVEL.but(help="Travel at the range's start, in droop.", below=0.0),
        TO_TRAVEL.but(help="Travel at the range's end, in bump.", above=0.0),
        COORDINATE,
    ),
    unit="length",
    positive=AXES,
    help="Where the tie rod's inner end must be, moved up or down and across the car, for the toe "
    "as drawn at both ends of a range of travel, which keeps it small between them.",
    source="The inner end as far from three places of the outer end, which the arms give with the "
    "toe held (centre of a circle through three points).",
    example="=CORNER.PLACE_TIE_ROD_INNER_FOR_RANGE(Example, -30, 30)",
    check=((-100.0, 207.838024702, 184.831571051),),
    shape="table",
)
def place_tie_rod_inner_for_range(corner, from_travel, to_travel, coordinate):
    corner.hold_linkage()
    held = _held_toe(corner)
    y, z = placing.inner_for_range(held, corner.drawn, from_travel, to_travel)
    place = Vec(corner.drawn.tie_inner.x, y, z)
    _hold_place(corner, "tie rod's inner end", place)
    outer = corner.drawn.tie_outer.y
    hold(
        where(y > 0.0, y < outer, False),
        "the tie rod's inner end would lie at y %s, where a place between the car's middle and "
        "the outer end at %s was expected; move the outer end or change an arm",
        y, outer,
    )  # fmt: skip
    return _shown(place, coordinate)


ACKERMANN = Argument(
    "ackermann", "number", "Ackermann percentage that is wanted at this rack.", unit="percent"
)
BY_STEPS = (
    "ACKERMANN solved by inverse quadratic interpolation, each step with a linkage of its own."
)


def _for_ackermann(corner, what, kept, find, wheelbase, rack, ackermann):
    """The coordinate that a function of `placing` finds; `Mend` where it finds none."""
    corner.hold_linkage()
    hold_left(corner)
    hold(absolute(rack) > 0.0, "rack: 0 given, a rack that turns the wheels was expected")
    turned = corner.pose(0.0, rack), corner.opposite(0.0, rack)
    points, drawn = _points(corner), corner.drawn
    # Read by every call, which so says what is wrong with them.
    _ = drawn.tie_outer, drawn.radius, drawn.spindle, drawn.crown

    def make(*numbers):
        return find(points, drawn, *numbers, turned)

    # Each coordinate of the place is a call of its own.
    found = corner.once(find, (wheelbase, rack, ackermann), make)
    hold(
        absolute(found) < _OFF_CAR * drawn.radius,
        "no place was found for the " + what + ", " + kept + " kept, that gives %s percent at "
        "rack %s; ask for something nearer to what the block has, or look at another rack",
        ackermann, rack,
    )  # fmt: skip
    return found


@formula(
    name="PLACE_TIE_ROD_OUTER",
    group=GROUP,
    arguments=(CORNER, WHEELBASE, RACK_TURNED, ACKERMANN, COORDINATE),
    unit="length",
    positive=AXES,
    help="Where the tie rod's outer end must be, moved across the car alone, for an Ackermann "
    "percentage at a rack, both wheels at no travel.",
    source=BY_STEPS,
    example='=CORNER.PLACE_TIE_ROD_OUTER(Example, 1600, -30, 60, "y")',
    check=471.97156731,
    shape="table",
)
def place_tie_rod_outer(corner, wheelbase, rack, ackermann, coordinate):
    what, find = "tie rod's outer end", placing.tie_rod_outer_for
    y = _for_ackermann(corner, what, "x and z", find, wheelbase, rack, ackermann)
    drawn = corner.drawn
    place = Vec(drawn.tie_outer.x, y, drawn.tie_outer.z)
    _hold_place(corner, what, place)
    axis = drawn.upper - drawn.lower
    lever = axis.cross(place - drawn.lower).length() / axis.length()
    least = _LEAST_LEVER * drawn.radius
    hold(
        lever > least,
        "the tie rod's outer end would lie %s from the steering axis, where a lever above %s was "
        "expected; ask for another percentage",
        lever, least,
    )  # fmt: skip
    way = (y - drawn.tie_inner.y) * (drawn.tie_outer.y - drawn.tie_inner.y)
    hold(way > 0.0, "the tie rod's outer end would lie inboard of its inner end; ask for less")
    return _shown(place, coordinate)


@formula(
    name="PLACE_RACK",
    group=GROUP,
    arguments=(CORNER, WHEELBASE, RACK_TURNED, ACKERMANN, COORDINATE),
    unit="length",
    positive=AXES,
    help="Where the tie rod's inner end must be, the rack moved fore and aft alone, for an "
    "Ackermann percentage at a rack, both wheels at no travel.",
    source=BY_STEPS,
    example='=CORNER.PLACE_RACK(Example, 1600, -30, 60, "x")',
    check=-155.922911637,
    shape="table",
)
def place_rack(corner, wheelbase, rack, ackermann, coordinate):
    what, find = "tie rod's inner end", placing.rack_place_for
    x = _for_ackermann(corner, what, "y and z", find, wheelbase, rack, ackermann)
    drawn = corner.drawn
    steep = absolute(x - drawn.tie_outer.x)
    across = absolute(drawn.tie_outer.y - drawn.tie_inner.y)
    hold(
        steep < across,
        "the rack would lie %s from the tie rod's outer end along the car, more than the %s "
        "across it, so that the rod would run along the car; ask for another percentage",
        steep, across,
    )  # fmt: skip
    place = Vec(x, drawn.tie_inner.y, drawn.tie_inner.z)
    _hold_place(corner, what, place)
    return _shown(place, coordinate)


TOO_FAR = (
    "the tie rod does not let the inner wheel turn to that angle; ask for less, or give it a "
    "shorter lever"
)


def _why_angle(*_):
    return TOO_FAR


@formula(
    name="RACK_FOR_INNER_ANGLE",
    group=GROUP,
    arguments=(
        CORNER,
        Argument(
            "angle", "number", "Angle of the inner wheel that is wanted, positive to the left.",
            unit="angle", above=-90.0, below=90.0,
        ),
        TRAVEL,
    ),
    unit="length",
    positive="the rack moves to the left",
    help="Rack at which the inner wheel of a turn stands at an angle.",
    source="The upright turned on its arms to that angle; the tie rod's length gives the rack.",
    example="=CORNER.RACK_FOR_INNER_ANGLE(Example, 30)",
    check=-45.9691260379,
    why=_why_angle,
    beyond=TOO_FAR,
)  # fmt: skip
def rack_for_inner_angle(corner, angle, travel):
    corner.hold_linkage()
    return placing.rack_for_inner_angle(_held_toe(corner), corner.drawn, angle, travel)
