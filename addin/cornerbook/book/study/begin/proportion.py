"""What of a car goes with what: each number that is not given, from the demonstration's.

A table says by which ratios of the car to the demonstration a number is multiplied, and what
that is called. Where a trade's rule of thumb is behind a choice it is common practice, without
a source.
"""

DRIVER = 80.0
"""What of the demonstration's kg does not grow with the car. Common practice, no source."""


class Ratio:
    """How many times the demonstration's the dimensions of a car are.

    track, tyre, wheelbase, turn: of the front track, the tyre's radius, the wheelbase, and the
    circle in which the outer front wheel runs. mass, load: of the mass, and of what the front
    springs hold. travel: of the wheel's travel. lock: of the rack's way to full lock.
    """

    __slots__ = ("load", "lock", "mass", "rear", "track", "travel", "turn", "tyre", "wheelbase")

    def __init__(self, **ratios):
        for name in self.__slots__:
            setattr(self, name, ratios.get(name, 1.0))


class Scale:
    """A product of powers of ratios, and the words for it."""

    __slots__ = ("powers", "words")

    def __init__(self, words, **powers):
        self.words = words
        self.powers = powers

    def of(self, ratio):
        """The factor for a `Ratio`."""
        factor = 1.0
        for name, power in self.powers.items():
            factor *= getattr(ratio, name) ** power
        return factor


SAME = Scale("as the demonstration has it")
TRACK = Scale("in proportion to the front track", track=1)
TYRE = Scale("in proportion to the tyre radius", tyre=1)
TRAVEL = Scale("in proportion to the front track or the tyre radius, the less of both", travel=1)
"""Arms swing by about as much, and joints tilt by about as much."""
WHEELBASE = Scale("in proportion to the wheelbase", wheelbase=1)
TURN = Scale("in proportion to the circle of the outer wheel at the same inner angle", turn=1)
MASS = Scale("in proportion to the mass", mass=1)
LOAD = Scale("in proportion to what the front springs hold, over the tyre radius", load=1, tyre=-1)
AXLE = Scale("in proportion to the load on the axle, over the tyre radius", rear=1, tyre=-1)
DAMPER = Scale(
    "in proportion to what the front springs hold, over the root of the tyre radius",
    load=1, tyre=-0.5,
)  # fmt: skip
LOCK = Scale("in proportion to the rack's way to full lock", lock=1)
"""As long as the inner wheel's angle stays, so do turns and steering ratio."""

TABLE = {
    "car.rear_track": TRACK,
    "car.rear_radius": TYRE,
    "car.cg_height": TYRE,
    "car.front_brake_share": SAME,
    "car.front_share": SAME,
    "car.unsprung_front": Scale("in proportion to the tyre radius, squared", tyre=2),
    "range.travel": TRAVEL,
    "range.ride": TRAVEL,
    "look.travel": TRAVEL,
    "look.rack": LOCK,
    "look.roll": SAME,
    "spring.rate": LOAD,
    "spring.bump_stop_rate": LOAD,
    "spring.droop_stop_rate": LOAD,
    "spring.damper_rate": DAMPER,
    "spring.rebound_rate": DAMPER,
    "spring.tyre_rate": LOAD,
    "spring.bar_end_rate": LOAD,
    "bar.outer": SAME,
    "bar.wall": SAME,
    "bar.length": TRACK,
    "bar.arm": Scale("so that the bar is as stiff for the car", load=-0.5, tyre=0.5, track=-0.5),
    "frame.torsional_stiffness": Scale(
        "in proportion to the mass and the front track", mass=1, track=1
    ),
    "spring.bar_motion_ratio": SAME,
    "rear.tyre_rate": AXLE,
    "ride.rear_tyre_damping": Scale(
        "in proportion to the load on the axle, over the root of the tyre radius",
        rear=1, tyre=-0.5,
    ),
    "brakes.front_radius": TYRE,
    "brakes.rear_radius": TYRE,
    "driver.knee_side": TRACK,
    "driver.shoulder_width": TRACK,
    "driver.hip_width": TRACK,
    "driver.pedal_width": TRACK,
    "body.frame_front": WHEELBASE,
    "body.frame_rear": WHEELBASE,
    "body.frame_half_width": TRACK,
    "bearings.left": TRACK,
    "bearings.right": TRACK,
    "bearings.sprocket_lateral": TRACK,
    "bearings.sprocket_radius": TYRE,
    "bearings.disc_lateral": TRACK,
    "turn.lateral_acceleration": SAME,
    "turn.friction": SAME,
    "turn.heave": TRAVEL,
    "turn.driving": SAME,
    "steering.pinion_radius": LOCK,
    "steering.wheel_radius": SAME,
    "steering.efficiency": SAME,
    "steering.braking_force": MASS,
    "steering.bump_load": MASS,
    "steering.bump_drag": MASS,
    "steering.rolling": SAME,
    "steering.parking_friction": SAME,
    "steering.patch_length": TYRE,
    "steering.patch_width": TYRE,
    "tyre.peak_slip": SAME,
    "tyre.residual": SAME,
    "tyre.pneumatic_trail": TYRE,
    "tyre.trail_gone": SAME,
    "tyre.sensitivity": SAME,
    "tyre.turn_share": SAME,
    "tyre.camber_coefficient": SAME,
    "joints.ball": SAME,
    "joints.rod_end": SAME,
    "joints.rack_end": SAME,
    "joints.rim_radius": TYRE,
    "joints.rim_width": TYRE,
    "joints.rod_radius": TYRE,
    "joints.leg_radius": TYRE,
    "joints.flange_radius": TYRE,
    "joints.flange_inboard": TYRE,
    "turning.tyre_width": TYRE,
    "turning.overhang": WHEELBASE,
    "turning.half_width": TRACK,
    "locked.radius": TURN,
    "locked.drive": MASS,
    "locked.slip_stiffness": SAME,
    "first.steer": SAME,
}  # fmt: skip
"""Numbers of a car by their keys. Those that are missing here are placed or solved."""

WISHES = {
    "track_off": TRACK,
    "trail": TYRE,
    "scrub": TYRE,
    "camber_gain": Scale("so that roll loses as little camber: by the front track", track=-1),
    "bump_steer": Scale("for the same toe over the travel", travel=-1),
    "turning_radius": TURN,
    "kerb_to_kerb": TURN,
    "roll_centre": TYRE,
    "swing_arm": TRACK,
    "track_change": Scale("for the same roll centre over the travel", tyre=1, travel=1, track=-1),
    "droop": TRAVEL,
    "bump": TRAVEL,
    "ride_height_change": TRAVEL,
    "load_arm": TYRE,
    "lower_height": TYRE,
    "upper_height": TYRE,
}
"""Wishes by their names; one that is missing here is the demonstration's as it stands."""


def scale_of(key):
    """The `Scale` of a key of a scenario, None for one that is placed or solved."""
    table, _, rest = key.partition(".")
    if table in ("target", "wanted"):
        return WISHES.get(rest.split(".")[0], SAME)
    return TABLE.get(key)
