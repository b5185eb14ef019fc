"""The same car in a mirror: what must change its sign, what must stay, what must change sides.

Every formula of the catalogue has a rule in `RULES`; one without a rule fails. In the mirror,
whatever points sideways changes its sign (`SIDEWAYS`), left and right change places, and so
does the block: each y, the static camber and the static toe change sign, which makes of the
left-hand corner the right-hand one in the left-hand one's terms. A formula of both wheels
takes its left-hand corner as it is: a car whose sides are alike is its own mirror.
"""

import math

import numpy as np
import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.block import ACTUATION_POINTS, COLUMN_POINTS, POINTS, key_of

from tests.catalogue.test_bad_input import _good
from tests.support.calls import QUANTITIES, near_call, needs_both_wheels, random_blocks

SIDEWAYS = {
    "cg_lateral",
    "rack", "roll", "steer", "inner", "lateral_acceleration", "slip", "force", "lateral",
    "rack_force", "torque", "rise", "inclination", "scrub", "camber", "hub_outboard",
    "axle_end_lateral", "body_end_lateral", "angle_in", "phase_error", "dy",
}  # fmt: skip
"""Arguments that point sideways, or turn about a line along the car or an upright one."""

CHANGE_PLACES = {"steer left", "steer right", "slip left", "slip right"}
"""Quantities of one wheel that another formula gives in the mirror."""

TRIES = 40

_PLACES = {key_of(label) for label in (*POINTS, *ACTUATION_POINTS, *COLUMN_POINTS)}
_TURNED = {key_of(label) for label in ("static camber", "static toe")}


def mirrored_block(rows):
    """The rows of the corner on the other side."""
    found = []
    for name, x, y, z in rows:
        if key_of(name) in _PLACES:
            y = -y
        elif key_of(name) in _TURNED:
            x = -x
        found.append((name, x, y, z))
    return tuple(found)


class Rule:
    """How a formula's call looks in the mirror, and what it then gives.

    gives: 1 where the result stays, -1 where it changes its sign, or a function from the
    arguments by name and the result to what the mirror must give. block: whether the block is
    mirrored, or stays as that of a car whose sides are alike. partner: the formula that gives
    it there, if not the same. also: arguments that change sign in this formula alone.
    """

    def __init__(self, gives, block=False, partner=None, also=()):
        self.gives = gives
        self.block = block
        self.partner = partner
        self.also = also

    def mirrored(self, named):
        """The arguments by name as they are in the mirror."""
        found = {}
        for name, value in named.items():
            if name in ("corner", "column", "block"):
                value = mirrored_block(value) if self.block_of(named) else value
            elif name == "parts":
                value = tuple((*row[:3], -row[3] if row[3] else row[3], *row[4:]) for row in value)
            elif name == "figure":
                value = tuple((label, x, -y, z) for label, x, y, z in value)
            elif name in SIDEWAYS or name in self.also:
                value = -value
            elif name == "side":
                value = {"left": "right", "right": "left"}[value]
            found[name] = value
        if "moment_left" in found:
            pair = found["moment_right"], found["moment_left"]
            found["moment_left"], found["moment_right"] = pair
        return self.more(named, found)

    def block_of(self, named):
        return self.block

    def more(self, named, found):
        """What a formula's own inputs do besides."""
        return found

    def expected(self, named, result):
        """What the mirror must give for the result of the call."""
        if result is None or isinstance(result, str):
            return result
        return self.gives(named, result) if callable(self.gives) else self.gives * result


class BothCorners(Rule):
    """A measure of an axle by its kind, of two corners that change places."""

    def __init__(self):
        super().__init__(lambda named, result: result * self._turns(named["quantity"]))

    @staticmethod
    def _turns(quantity):
        return -1 if quantity in ("steer left", "steer right", "rack pull") else 1

    def more(self, named, found):
        found["left_corner"], found["right_corner"] = named["right_corner"], named["left_corner"]
        other = {"steer left": "steer right", "steer right": "steer left"}
        found["quantity"] = other.get(named["quantity"], named["quantity"])
        return found


class InBuildersAxes(Rule):
    """A coordinate along axes that turn and are mirrored with the car."""

    def __init__(self):
        super().__init__(lambda named, result: -result if named["axis"] == "y" else result,
                         block=True, also=("datum_y", "turned"))  # fmt: skip


class Refused(Rule):
    """A formula that refuses what the mirror asks, with these words."""

    def __init__(self, *words, block=False):
        super().__init__(1, block)
        self.words = words


NONE = "nothing sideways enters"

STAYS, TURNS = Rule(1), Rule(-1)
ONE_STAYS, ONE_TURNS = Rule(1, block=True), Rule(-1, block=True)


def _y_turns(named, result):
    """A place, whole or one coordinate of it."""
    if isinstance(result, tuple):
        ((x, y, z),) = result
        return ((x, -y, z),)
    return -result if named["coordinate"] == "y" else result


def _angle_turns(named, result):
    """An angle of a wheel, of which only caster lies along the car."""
    return result if named["quantity"] == "caster" else -result


def _component_turns(named, result):
    """A force, one part of it."""
    return -result if named["component"] == "y" else result


def _couple_turns(named, result):
    """A couple turns about lines along the car and upright ones, and not about one across."""
    return -result if named["component"] in ("x", "z") else result


def _turns_by(quantity):
    """-1 where a quantity of AT changes its sign in the mirror, else 1."""
    rule = RULES[quantity.upper().replace(" ", "_")]
    assert rule.gives in (1, -1)
    return rule.gives


class OfAQuantity(Rule):
    """A formula of a quantity that is named: the rule of that quantity decides.

    One of the steered axle is that of the left-hand corner as it is; else the block is mirrored.
    """

    def __init__(self):
        super().__init__(1)

    @staticmethod
    def _quantities(named):
        named = named.get("quantities") or named["quantity"]
        return [quantity.strip() for quantity in named.split(",")]

    def block_of(self, named):
        return not any(map(needs_both_wheels, self._quantities(named)))

    def fits(self, named):
        """Whether the mirror can be asked: not for quantities of one wheel and of both."""
        both = set(map(needs_both_wheels, self._quantities(named)))
        return len(both) == 1 and not CHANGE_PLACES & set(self._quantities(named))

    def expected(self, named, result):
        if result is None or isinstance(result, str):
            return result
        return _turns_by(named["quantity"]) * result


class OfASweep(OfAQuantity):
    def more(self, named, found):
        if named["over"] == "rack":
            found["from"], found["to"] = -named["from"], -named["to"]
        else:
            found["held"] = -named["held"]
        return found

    def expected(self, named, result):
        if isinstance(result, str):
            return result
        signs = [-1 if named["over"] == "rack" else 1, *map(_turns_by, self._quantities(named))]
        return tuple(tuple(map(_times, signs, row)) for row in result)


def _of_coordinate(name):
    """-1 for the name of a coordinate that changes its sign in a mirrored block, else 1."""
    return -1 if name.endswith(" y") or key_of(name) in _TURNED or name == "rack" else 1


class OfASlope(OfAQuantity):
    """The derivative by a coordinate; a car whose sides are alike has both mirrored at once."""

    def expected(self, named, result):
        if isinstance(result, str):
            return result
        of_input = 1
        if self.block_of(named):
            of_input = _of_coordinate(f"{named['point']} {named['coordinate']}")
        return _turns_by(named["quantity"]) * of_input * result


class OfSlopes(OfAQuantity):
    def expected(self, named, result):
        if isinstance(result, str):
            return result
        signs = list(map(_turns_by, self._quantities(named)))
        mirrored = self.block_of(named)
        table = []
        for name, *slopes in result:
            of_input = _of_coordinate(name) if mirrored else 1
            turned = [sign * of_input for sign in signs]
            table.append((name, *map(_times, turned, slopes)))
        return tuple(table)


class OfTwoWays(OfAQuantity):
    def _input_sign(self, named, which):
        over = named["over_" + which]
        return _of_coordinate(over) if self.block_of(named) or over == "rack" else 1

    def more(self, named, found):
        for which in ("rows", "columns"):
            for end in ("_from", "_to"):
                found[which + end] = self._input_sign(named, which) * named[which + end]
        return found

    def expected(self, named, result):
        if isinstance(result, str):
            return result
        down, across = (self._input_sign(named, which) for which in ("rows", "columns"))
        sign = _turns_by(named["quantity"])
        head = (result[0][0], *(across * value for value in result[0][1:]))
        rows = [(down * row[0], *(_times(sign, cell) for cell in row[1:])) for row in result[1:]]
        return (head, *rows)


class OfALeeway(OfAQuantity):
    """The ends of the band of a quantity that turns change places."""

    def more(self, named, found):
        if _turns_by(named["quantity"]) < 0:
            found["band_from"], found["band_to"] = -named["band_to"], -named["band_from"]
        return found

    def expected(self, named, result):
        return result


class OfALine(Rule):
    """The angle with the axis across the car is the other part of 180 degrees in the mirror."""

    def expected(self, named, result):
        across = named["axis"] == "y" and isinstance(result, float)
        return 180.0 - result if across else result


class OfAdjuster(OfAQuantity):
    """The adjuster of both corners is turned alike: dy is outboard there, and stays."""

    def mirrored(self, named):
        found = super().mirrored(named)
        if not self.block_of(named):
            found["dy"] = named["dy"]
        return found


class OfASwing(Rule):
    """Seen in a mirror, a wheel turned inward is one turned outward, with the other camber."""

    def more(self, named, found):
        for what, sign in (("camber", -1), ("turned", 1)):
            pair = named[what + "_in"], named[what + "_out"]
            found[what + "_out"], found[what + "_in"] = (sign * value for value in pair)
        return found


class OfFourWheels(Rule):
    """Wheels named by end and side change places, whether in words or as arguments."""

    def more(self, named, found):
        for name in set(found) & {"wheel", "perch"}:
            end, side = named[name].split()
            found[name] = f"{end} {'right' if side == 'left' else 'left'}"
        for end in ("front", "rear"):
            if end + "_left" in found:
                pair = named[end + "_left"], named[end + "_right"]
                found[end + "_right"], found[end + "_left"] = pair
        return found


class OfSeveralAdjusters(OfAQuantity):
    """The same adjusters in the mirror, which stand in columns: dy changes its sign.

    Of steps the bands of what turns change their ends, and the steps stay.
    """

    def mirrored(self, named):
        found = dict(named)
        if self.block_of(named):
            found["corner"] = mirrored_block(named["corner"])
            found["dy"] = tuple(tuple(_times(-1, cell) for cell in row) for row in named["dy"])
        if "rack" in named:
            found["rack"] = -named["rack"]
        if "change_from" in named:
            ends = list(zip(named["change_from"], named["change_to"], strict=True))
            signs = list(map(_turns_by, self._quantities(named)))
            for name, which in (("change_from", 0), ("change_to", 1)):
                found[name] = tuple(
                    tuple(_times(sign, cell) for cell in pair[which if sign > 0 else 1 - which])
                    for sign, pair in zip(signs, ends, strict=True)
                )
        return found

    def expected(self, named, result):
        return super().expected(named, result) if "quantity" in named else result


class OfTwoBearings(Rule):
    """Both bearings and both wheels change places; what points sideways turns."""

    def __init__(self, gives):
        super().__init__(gives, also=("sideways", "pull_lateral"))

    def more(self, named, found):
        other = {"left": "right", "right": "left"}
        found["bearing"], found["holds"] = other[named["bearing"]], other[named["holds"]]
        found["up_left"], found["up_right"] = named["up_right"], named["up_left"]
        found["left_bearing"] = -named["right_bearing"]
        found["right_bearing"] = -named["left_bearing"]
        return found


class OfALog(OfSeveralAdjusters):
    """Each row of a log by the rule of its own measure."""

    def block_of(self, named):
        return True

    def fits(self, named):
        return True

    def expected(self, named, result):
        if isinstance(result, str):
            return result
        signs = [_turns_by(row[0]) if row[0] else 1 for row in named["log_quantities"]]
        return tuple(
            tuple(_times(sign, cell) for cell in row)
            for sign, row in zip(signs, result, strict=True)
        )


class InRoll(Rule):
    def expected(self, named, result):
        turns = named["quantity"] == "roll centre lateral"
        return -result if turns and isinstance(result, float) else result


class OfAWheelInRoll(Rule):
    """A wheel by its side, for which the other one is taken: its lateral force stays outboard."""

    def more(self, named, found):
        return {**found, "lateral": named["lateral"]}


def _times(sign, value):
    return sign * value if isinstance(value, (int, float)) else value


class OfParts(Rule):
    """Parts on the other side: the lateral place of their centre changes its sign."""

    def expected(self, named, result):
        return -result if named["coordinate"] == "y" else result


_ARM = ("shoulder_y", "hand_y", "elbow_out")
_WHEEL = ("shoulder_y", "wheel_y", "hold", "wheel_turned")

RULES = {
    # Driver: of one side's arm in the mirror comes the other one's
    "PERSON_LENGTH": NONE,
    "PERSON_MASS": NONE,
    "PERSON_CENTRE": NONE,
    "PERSON_GYRATION": NONE,
    "FIGURE_CENTRE": STAYS,
    "FIGURE_INERTIA": STAYS,
    "LEG_POINT": NONE,
    "LEG_ANGLE": NONE,
    "LEG_SPARE": NONE,
    "PEDAL_BOX_END": NONE,
    "ELBOW_POINT": Rule(_y_turns, also=_ARM),
    "SHOULDER_ANGLE": Rule(1, also=_ARM),
    "ELBOW_ANGLE": NONE,
    "RIM_DISTANCE": Rule(1, also=_WHEEL),
    "RIM_PLACE": Rule(_y_turns, also=_WHEEL),
    "STEERING_WHEEL_SHIFT": Rule(1, also=_ARM),
    "ROAD_SEEN": NONE,
    "HOOP_CLEARANCE": NONE,
    "LIMB_CLEARANCE": NONE,
    "LIMB_TO_BOX": Rule(1, also=("limb_y", "box_y")),
    "KNEE_CLEARANCE": Rule(1, also=("knee_y", "wheel_y")),
    # Body: given by its half width
    "BODY_SCALE": NONE,
    "BODY_AT": NONE,
    # Drive
    "DRIVE_FORCE": NONE,
    "DRIVE_MOTOR_SPEED": NONE,
    "VARIABLE_DRIVE_FORCE": NONE,
    "VARIABLE_MOTOR_SPEED": NONE,
    "DRIVE_GRIP": NONE,
    "ROAD_LOAD": NONE,
    "STEEPEST_START": NONE,
    "TOP_SPEED": NONE,
    "TIME_TO_SPEED": NONE,
    "DISTANCE_TO_SPEED": NONE,
    # Brakes
    "BRAKE_LOCK": STAYS,
    "IDEAL_BRAKE_SHARE": NONE,
    "BRAKE_LOAD_TRANSFER": NONE,
    "STOPPING_DISTANCE": NONE,
    "LINE_PRESSURE": NONE,
    "BRAKE_FORCE": NONE,
    "PEDAL_FORCE": NONE,
    # Bearings of the rear axle
    "BEARING_FORCE": OfTwoBearings(_component_turns),
    "AXLE_BENDING": OfTwoBearings(1),
    # Masses
    "PARTS_MASS": STAYS,
    "CENTRE_OF_GRAVITY": OfParts(1),
    "PARTS_INERTIA": STAYS,
    "PARTS_FRONT_SHARE": STAYS,
    "UNSPRUNG_MASS": STAYS,
    "REST_WHEEL_LOAD": STAYS,
    "DYNAMIC_INDEX": NONE,
    # First layout
    "TRAIL_FROM_CASTER": STAYS,
    "SCRUB_FROM_INCLINATION": TURNS,
    "OUTER_FROM_INNER": TURNS,
    "CAMBER_AT_STEER": TURNS,
    "RISE_AT_STEER": STAYS,
    # A corner at a pose
    "CASTER": ONE_STAYS,
    "KPI": ONE_TURNS,
    "TRAIL": ONE_STAYS,
    "SCRUB": ONE_TURNS,
    "CAMBER": ONE_TURNS,
    "TOE": ONE_TURNS,
    "POINT": Rule(_y_turns, block=True),
    # Rates
    "CAMBER_GAIN": ONE_TURNS,
    "BUMP_STEER": ONE_TURNS,
    "CAMBER_GAIN_AVERAGE": ONE_TURNS,
    "BUMP_STEER_AVERAGE": ONE_TURNS,
    # Movement
    "ROLL_CENTRE": ONE_STAYS,
    "ROLL_CENTRE_BY_FORCE": ONE_STAYS,
    "SWING_ARM_LENGTH": ONE_TURNS,
    "SWING_ARM_ANGLE": ONE_TURNS,
    "SIDE_SWING_ARM_LENGTH": ONE_STAYS,
    "SIDE_SWING_ARM_ANGLE": ONE_STAYS,
    "SCRUB_RATE": ONE_TURNS,
    "TRACK_CHANGE": ONE_TURNS,
    "ANTI_DIVE": ONE_STAYS,
    "ANTI_LIFT": NONE,
    "AXLE_SINK": NONE,
    "PITCH_ANGLE": NONE,
    # Springs
    "RIDE_RATE": NONE,
    "RIDE_FREQUENCY": NONE,
    "STATIC_DEFLECTION": NONE,
    "DAMPING_RATIO": NONE,
    "PRELOAD": NONE,
    "SPRING_FREE_LENGTH": NONE,
    "SPRING_LOAD": NONE,
    "SPRING_LENGTH_AT_REST": NONE,
    "DROOP_TRAVEL": NONE,
    "BUMP_TRAVEL": NONE,
    "RIDE_HEIGHT_CHANGE": NONE,
    "ROLL_STIFFNESS": NONE,
    "ANTI_ROLL_RATE": NONE,
    "ANTI_ROLL_END_RATE": NONE,
    "PITCH_BOUNCE_FREQUENCY": NONE,
    "PITCH_BOUNCE_CENTRE": NONE,
    "SPRING_LENGTH": ONE_STAYS,
    "MOTION_RATIO": ONE_STAYS,
    "MOTION_RATIO_CHANGE": ONE_STAYS,
    "ROCKER_ANGLE": ONE_STAYS,
    "ROCKER_MARGIN": ONE_STAYS,
    "OVER_CENTRE": ONE_STAYS,
    "WHEEL_FORCE": ONE_STAYS,
    "WHEEL_RATE": ONE_STAYS,
    "TRAVEL_AT_LENGTH": NONE,
    "TRAVEL_AT_LOAD": NONE,
    # The steered axle
    "AXLE_AS_BUILT": BothCorners(),
    "STEER_LEFT": Rule(-1, partner="STEER_RIGHT"),
    "STEER_RIGHT": Rule(-1, partner="STEER_LEFT"),
    "IDEAL_OUTER": STAYS,
    "ACKERMANN": STAYS,
    "TURNING_RADIUS": STAYS,
    # Both wheels in roll
    "WHEEL_TRAVEL_IN_ROLL": STAYS,
    "TRACK_IN_ROLL": STAYS,
    "ROLL_CENTRE_HEIGHT_IN_ROLL": STAYS,
    "ROLL_CENTRE_LATERAL_IN_ROLL": TURNS,
    "ROLL_CENTRE_BY_FORCE_IN_ROLL": STAYS,
    "IN_ROLL": InRoll(1),
    "STEER_IN_ROLL": TURNS,
    "IDEAL_OUTER_IN_ROLL": STAYS,
    "ACKERMANN_IN_ROLL": STAYS,
    "STEERING_MOMENT_IN_ROLL": OfAWheelInRoll(1),
    "RACK_FORCE_IN_ROLL": TURNS,
    "JACKING_FORCE": OfAWheelInRoll(1),
    # The car in a turn
    "ROLL_AXIS_HEIGHT": NONE,
    "ROLL_STIFFNESS_SHARE": NONE,
    "ROLL_STIFFNESS_WITH_FRAME": NONE,
    "ROLL_ANGLE": TURNS,
    "ROLL_GRADIENT": NONE,
    "GEOMETRIC_LOAD_TRANSFER": TURNS,
    "ELASTIC_LOAD_TRANSFER": TURNS,
    "WHEEL_LOAD": STAYS,
    # Lifting and tipping
    "LIFT_ACCELERATION": NONE,
    "ROLLOVER_THRESHOLD": NONE,
    "ROLLOVER_WITH_ROLL": NONE,
    "TURN_CHECK": NONE,
    # Rear solid axle
    "PANHARD_ROLL_CENTRE": STAYS,
    "WATT_ROLL_CENTRE": NONE,
    "A_ARM_ROLL_CENTRE": NONE,
    "ROLL_STEER": Refused("axle_end_lateral", "the left link's, above 0"),
    "BOLTED_AXLE_ROLL_STIFFNESS": NONE,
    "ROLL_STIFFNESS_ON_TYRES": NONE,
    # Turning
    "KERB_TO_KERB": STAYS,
    "WALL_TO_WALL": STAYS,
    "MID_REAR_RADIUS": STAYS,
    "SLIP_LEFT": Rule(-1, partner="SLIP_RIGHT"),
    "SLIP_RIGHT": Rule(-1, partner="SLIP_LEFT"),
    # The locked rear axle
    "LOCKED_AXLE_INNER_FORCE": STAYS,
    "LOCKED_AXLE_OUTER_FORCE": STAYS,
    "LOCKED_AXLE_MOMENT": STAYS,
    "LOCKED_AXLE_RADIUS_TO_SLIDE": STAYS,
    "LOCKED_AXLE_FRONT_FORCE": NONE,
    "LOCKED_AXLE_EXTRA_STEER": NONE,
    # Beam axle
    "BEAM_CAMBER_GAIN": NONE,
    "BEAM_CAMBER_IN_BUMP": TURNS,
    # Joints
    "LOWER_BALL_JOINT_ANGLE": ONE_STAYS,
    "UPPER_BALL_JOINT_ANGLE": ONE_STAYS,
    "TIE_ROD_OUTER_ANGLE": ONE_STAYS,
    "TIE_ROD_INNER_ANGLE": ONE_STAYS,
    "TIE_ROD_PLAN_ANGLE": ONE_STAYS,
    "TIE_ROD_FRONT_ANGLE": ONE_STAYS,
    "TOGGLE_MARGIN": ONE_STAYS,
    "RIM_CLEARANCE": ONE_STAYS,
    # Column and universal joints
    "UJOINT_ANGLE_OUT": TURNS,
    "UJOINT_SPEED_RATIO": STAYS,
    "UJOINT_RIPPLE": NONE,
    "COLUMN_SPEED_RATIO": STAYS,
    "COLUMN_RIPPLE": STAYS,
    "COLUMN_JOINT_ANGLE": ONE_STAYS,
    "COLUMN_PHASE": ONE_TURNS,
    "COLUMN_LENGTH": ONE_STAYS,
    # Moments about the steering axis
    "LATERAL_FORCE_ARM": ONE_STAYS,
    "LONGITUDINAL_FORCE_ARM": ONE_TURNS,
    "WHEEL_CENTRE_FORCE_ARM": ONE_TURNS,
    "VERTICAL_LOAD_ARM": ONE_TURNS,
    "CASTER_LOAD_ARM": ONE_TURNS,
    "INCLINATION_LOAD_ARM": ONE_TURNS,
    "HUB_OUTBOARD": ONE_TURNS,
    "HUB_AHEAD": ONE_STAYS,
    "RACK_LEVER": ONE_STAYS,
    "STEER_RATE": ONE_STAYS,
    "STEERING_MOMENT": ONE_TURNS,
    # Loads
    "MEMBER_FORCE": ONE_STAYS,
    "JOINT_FORCE": Rule(_component_turns, block=True),
    "ROCKER_COUPLE": Rule(_couple_turns, block=True),
    "ARM_BENDING": ONE_TURNS,
    "MEMBER_LENGTH": ONE_STAYS,
    "COMPLIANCE": Rule(_angle_turns, block=True),
    # From the wheels to the hands
    "RACK_FORCE": TURNS,
    "STEERING_RATIO": STAYS,
    "PINION_TORQUE": TURNS,
    "PINION_RADIUS_FROM_TRAVEL": NONE,
    # The angle is counted as the lever pushes its link, on whichever side the link lies.
    "DROP_LINK_LEVER": NONE,
    "DROP_LINK_TRAVEL": NONE,
    "PARKING_MOMENT": STAYS,
    "RIM_FORCE": TURNS,
    "TURNS_LOCK_TO_LOCK": NONE,
    # A guessed tyre
    "TYRE_FORCE": TURNS,
    "CAMBER_THRUST": TURNS,
    "TYRE_CORNERING_STIFFNESS": NONE,
    "TYRE_SLIP": TURNS,
    "PNEUMATIC_TRAIL": STAYS,
    "FRONT_LATERAL_ACCELERATION": TURNS,
    # Understeer
    "AXLE_SLIP": Rule(-1, also=("extra_force",)),
    "FRONT_ROLL_STEER": NONE,
    "ROLL_CAMBER": NONE,
    # Feel
    "FEEL_WARNING": NONE,
    "FEEL_LIGHTENING": NONE,
    "MECHANICAL_SHARE": NONE,
    # Pictures
    "RIM_POINT": Rule(_y_turns),
    "VIEW_POINT": Rule(_y_turns),
    # Placing points
    "PLACE_LOWER_BALL_JOINT": Rule(_y_turns, block=True),
    "PLACE_UPPER_BALL_JOINT": Rule(_y_turns, block=True),
    "INCLINATION_FOR_SCRUB": TURNS,
    "CASTER_FOR_TRAIL": NONE,
    "HUB_OUTBOARD_FOR_SCRUB": TURNS,
    "HUB_AHEAD_FOR_TRAIL": NONE,
    "PLACE_PICKUP": Refused("left-hand corner", block=True),
    "PLACE_UPPER_PICKUP_FOR_CAMBER": Refused("outboard of the ball joint", block=True),
    "PLACE_UPPER_PICKUP_FOR_ROLL": Refused("left-hand corner", block=True),
    "PLACE_TIE_ROD_INNER": Rule(_y_turns, block=True),
    "PLACE_TIE_ROD_INNER_FOR_RANGE": Refused("between the car's middle", block=True),
    "PLACE_TIE_ROD_OUTER": STAYS,
    "PLACE_RACK": STAYS,
    "RACK_FOR_INNER_ANGLE": Rule(-1, also=("angle",)),
    # Set-up
    "TOE_FROM_RIMS": NONE,
    "RIMS_FROM_TOE": NONE,
    "TOE_FROM_STRING": NONE,
    "STRING_FROM_TOE": NONE,
    "CAMBER_FROM_RULE": NONE,
    "RULE_FROM_CAMBER": TURNS,
    "CASTER_FROM_SWING": OfASwing(1),
    "CASTER_BY_SMALL_ANGLES": OfASwing(1),
    "INCLINATION_FROM_SWING": OfASwing(-1, also=("camber_straight",)),
    "CROSS_WEIGHT": OfFourWheels(lambda named, result: 100.0 - result),
    "PERCH_LOAD_CHANGE": OfFourWheels(1),
    "PERCH_HEIGHT_CHANGE": OfFourWheels(1),
    "PERCH_RISE_FOR_CROSS": OfFourWheels(1, also=("cross_change",)),
    "CG_HEIGHT_FROM_LIFT": NONE,
    "LOAD_WHEN_LIFTED": NONE,
    "LOADED_RADIUS": NONE,
    "TYRE_RATE_FROM_RADIUS": NONE,
    "ROLLING_RADIUS": NONE,
    # Tables, sensitivity, what-if, adjusters
    "AT": OfAQuantity(),
    "SWEEP": OfASweep(),
    "SENSITIVITY": OfASlope(),
    "SENSITIVITIES": OfSlopes(),
    "TWO_WAY": OfTwoWays(),
    "ADJUSTER_EFFECT": OfAdjuster(),
    "ADJUSTER_TURNS": NONE,
    "ADJUSTED_CHANGE": OfSeveralAdjusters(),
    "ADJUSTER_STEPS": OfSeveralAdjusters(),
    "LEARNED_EFFECT": NONE,
    "LEARNED_DEVIATION": NONE,
    "EXPECTED_CHANGES": OfALog(),
    # Building
    "POINT_FROM_DATUM": InBuildersAxes(),
    "POINT_DISTANCE": ONE_STAYS,
    "ANGLE_AT_POINT": ONE_STAYS,
    "LINE_ANGLE": OfALine(1, block=True, also=("turned",)),
    "DISTANCE_LEEWAY": OfALeeway(),
    "SURVEY_AS_DRAWN": ONE_STAYS,
    "CHECK": Refused("left-hand corner", block=True),
}


@pytest.fixture(scope="module")
def blocks():
    return random_blocks(811, TRIES)


def calls_of(name, blocks):
    """Random good calls of a formula as arguments by name."""
    draw = np.random.default_rng([812, *name.encode()])
    names = [argument.name for argument in FORMULAS[name].arguments]
    for block in blocks:
        yield dict(zip(names, near_call(draw, _good(FORMULAS[name]), name, block), strict=True))


def test_every_formula_has_a_rule():
    assert set(RULES) == set(FORMULAS)


def test_a_formula_without_a_rule_of_the_mirror_has_nothing_sideways():
    wrong = [
        (name, argument.name)
        for name, rule in RULES.items()
        if rule is NONE
        for argument in FORMULAS[name].arguments
        if argument.name in SIDEWAYS or argument.kind == "block" or argument.name == "side"
    ]
    assert not wrong


def test_all_that_points_sideways_is_some_formulas_argument():
    known = {argument.name for formula in FORMULAS.values() for argument in formula.arguments}
    assert known >= SIDEWAYS


@pytest.mark.parametrize("name", [name for name, rule in RULES.items() if rule is not NONE])
def test_in_the_mirror(name, blocks):
    rule = RULES[name]
    shown = 0
    for named in calls_of(name, blocks):
        if isinstance(rule, OfAQuantity) and not rule.fits(named):
            continue
        result = call(name, *named.values())
        there = call(rule.partner or name, *rule.mirrored(named).values())
        if isinstance(rule, Refused):
            assert isinstance(there, str) and all(word in there for word in rule.words), there
            shown += 1
            continue
        wanted = rule.expected(named, result)
        assert _alike(there, wanted), (name, named, result, there)
        shown += not isinstance(result, str) or not result.startswith("#")
    assert shown >= TRIES // 4, f"{name}: only {shown} calls gave a value"


def _alike(found, wanted):
    """Numbers to rounding, sentences as sentences (a number in one may have its sign turned)."""
    if isinstance(wanted, tuple):
        return (
            isinstance(found, tuple)
            and len(found) == len(wanted)
            and all(map(_alike_rows, found, wanted))
        )
    if isinstance(wanted, str):
        return isinstance(found, str) and found.startswith("#") == wanted.startswith("#")
    if wanted is None or found is None:
        return wanted is found
    if isinstance(found, str):
        return False
    return math.isclose(found, wanted, rel_tol=1e-9, abs_tol=1e-9)


def _alike_rows(found, wanted):
    return len(found) == len(wanted) and all(map(_alike, found, wanted))


@pytest.mark.parametrize("quantity", [name for name in QUANTITIES if name not in CHANGE_PLACES])
def test_each_quantity_in_the_mirror(quantity, blocks):
    """AT of each, so that no quantity is left to the chance of the test above."""
    rule = RULES["AT"]
    for block, travel, rack in zip(blocks, range(-20, 20), range(20, -20, -1), strict=True):
        named = {"corner": block, "quantity": quantity, "travel": float(travel),
                 "rack": float(rack), "wheelbase": 1600.0}  # fmt: skip
        result = call("AT", *named.values())
        assert _alike(call("AT", *rule.mirrored(named).values()), rule.expected(named, result))
