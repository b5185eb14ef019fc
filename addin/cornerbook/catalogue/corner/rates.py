"""Formulas for how camber and toe change as the wheel travels."""

from ...cells.arguments import CORNER, FROM_TRAVEL, POSE, RACK, TO_TRAVEL
from ...cells.declare import formula
from ...cells.mend import hold
from ...cells.reach import closes, why_not
from ...geometry.numbers import absolute

GROUP = "Rates"

RANGE = (CORNER, FROM_TRAVEL, TO_TRAVEL, RACK)


@formula(
    name="CAMBER_GAIN",
    group=GROUP,
    arguments=POSE,
    unit="degrees per length of travel",
    positive="the top of the wheel moves away from the car as the wheel rises",
    help="Change of camber with travel at a pose; usually wanted a little below zero.",
    source="Exact derivative of the linkage's constraints; camber of ISO 8855:2011.",
    example="=CORNER.CAMBER_GAIN(Example, 25, 10)",
    check=-0.0398242818263,
    why=why_not,
)
def camber_gain(corner, travel, rack):
    return corner.motion(travel, rack).camber_rate(corner.pose(travel, rack).spindle)


@formula(
    name="BUMP_STEER",
    group=GROUP,
    arguments=POSE,
    unit="degrees per length of travel",
    positive="the wheel turns toward toe-in as it rises",
    help="Change of toe with travel at a pose; wanted at zero.",
    source="Exact derivative of the linkage's constraints; toe of ISO 8855:2011.",
    example="=CORNER.BUMP_STEER(Example, 25, 10)",
    check=-0.0033423005981,
    why=why_not,
)
def bump_steer(corner, travel, rack):
    return corner.motion(travel, rack).toe_rate(corner.pose(travel, rack).spindle)


def _average(measure, corner, start, end, rack):
    corner.hold_linkage()
    span = absolute(end - start)
    hold(span > 0.0, "from_travel and to_travel are the same; a range was expected")
    first = measure(corner.pose(start, rack))
    last = measure(corner.pose(end, rack))
    return (last - first) / (end - start)


def _why_range(corner, start, end, rack):
    return why_not(corner, end if closes(corner, start, rack) else start, rack)


@formula(
    name="CAMBER_GAIN_AVERAGE",
    group=GROUP,
    arguments=RANGE,
    unit="degrees per length of travel",
    positive="the top of the wheel moves away from the car as the wheel rises",
    help="Mean change of camber with travel over a range.",
    source="Difference of the end poses' camber over the range.",
    example="=CORNER.CAMBER_GAIN_AVERAGE(Example, -30, 30)",
    check=-0.0343718488982,
    why=_why_range,
)
def camber_gain_average(corner, from_travel, to_travel, rack):
    return _average(lambda pose: pose.camber(), corner, from_travel, to_travel, rack)


@formula(
    name="BUMP_STEER_AVERAGE",
    group=GROUP,
    arguments=RANGE,
    unit="degrees per length of travel",
    positive="the wheel turns toward toe-in as it rises",
    help="Mean change of toe with travel over a range.",
    source="Difference of the end poses' toe over the range.",
    example="=CORNER.BUMP_STEER_AVERAGE(Example, -30, 30)",
    check=0.000637054960542,
    why=_why_range,
)
def bump_steer_average(corner, from_travel, to_travel, rack):
    return _average(lambda pose: pose.toe(), corner, from_travel, to_travel, rack)
