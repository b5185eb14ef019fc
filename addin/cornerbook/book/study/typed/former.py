"""What the two workbooks called, that were one car's before there was one for all of it.

Inputs kept their names, points and variants their words. Bands stood beside every result, a wish
often in several places, and each sheet had poses of its own.
"""

TEMPLATES = ("Cornerbook starter", "Cornerbook design")
"""How the titles of their files begin."""

SHEETS = frozenset({
    "Start", "Car", "First layout", "Front corner", "Measures", "Steering", "Bump", "Steer",
    "Movement", "Springs", "Turn", "Steering effort", "Feel", "Joints", "Turning", "Compare",
    "Self-check", "Formulas", "Placing", "What-if", "Two-way", "Sensitivity", "Adjusters",
    "Picture points", "Picture",
})  # fmt: skip
"""Their sheets."""

ENDS = {"wanted from": "from", "to": "to"}
"""The ends of a wish by the heading of their columns."""

BANDS = {
    "Ackermann": "ackermann",
    "Ackermann at full lock": "ackermann",
    "Anti-dive": "anti_dive",
    "Bend at the lower joint": "universal_joint",
    "Bend at the upper joint": "universal_joint",
    "Bump steer": "bump_steer",
    "Bump travel from rest": "bump",
    "Camber": "camber",
    "Camber gain": "camber_gain",
    "Camber gain, worst": "camber_gain",
    "Camber, outer wheel at full lock": "camber_lock_outer",
    "Caster": "caster",
    "Damping ratio": "damping_ratio",
    "Droop travel from rest": "droop",
    "Front track less that wanted": "track_off",
    "Inner wheel lifts at": "lift",
    "Inner wheel's angle": "inner_angle",
    "Kingpin inclination": "inclination",
    "Largest rim force": "rim_force_turn",
    "Lightening": "lightening",
    "Margin to over centre": "rocker_margin",
    "Mechanical trail": "trail",
    "Mechanical trail, as drawn": "trail",
    "Motion ratio": "motion_ratio",
    "Motion ratio, worst": "motion_ratio",
    "Natural frequency": "ride_frequency",
    "Ride height against the drawing": "ride_height_change",
    "Right wheel": "camber_lock_outer",
    "Rim force, parking, free to roll": "rim_force_parking",
    "Roll centre height": "roll_centre",
    "Roll centre height, worst": "roll_centre",
    "Roll gradient": "roll_gradient",
    "Rollover threshold, rigid car": "rollover",
    "Scrub radius": "scrub",
    "Share of mechanical trail": "mechanical_share",
    "Side swing arm angle (anti-dive)": "side_angle",
    "Smallest angle to toggle": "toggle",
    "Smallest clearance, arms to rim": "rim_clearance",
    "Smallest clearance, tie rod to rim": "rim_clearance",
    "Smallest margin of any joint": "joint_left",
    "Speed ripple, forks at that phase": "ripple",
    "Steering ratio, straight ahead": "steering_ratio",
    "Toe change, worst": "toe_change",
    "Toe of this wheel": "toe",
    "Track change, worst": "track_change",
    "Turning circle, kerb to kerb": "kerb_to_kerb",
    "Turning radius": "turning_radius",
    "Turning radius at full lock": "turning_radius",
    "Turns from lock to lock": "turns",
    "Vertical load arm": "load_arm",
    "Virtual swing arm": "swing_arm",
    "Warning": "warning",
}
"""The wish of each band, by the label of its row."""

NAMES = {
    "WantedCaster": ("wanted", "caster", "aim"),
    "WantedInclination": ("wanted", "inclination", "aim"),
    "WantedTrail": ("wanted", "trail", "aim"),
    "WantedScrub": ("wanted", "scrub", "aim"),
    "LowerHeight": ("wanted", "lower_height", "aim"),
    "UpperHeight": ("wanted", "upper_height", "aim"),
    "WantedGain": ("wanted", "camber_gain", "aim"),
    "WantedRollCentre": ("wanted", "roll_centre", "aim"),
    "WantedAckermann": ("wanted", "ackermann", "aim"),
    "WantedAngle": ("wanted", "inner_angle", "aim"),
    "RackNow": ("look", "rack", None),
    "DrawRack": ("look", "rack", None),
    "RollNow": ("look", "roll", None),
    "DrawRoll": ("look", "roll", None),
}
"""(table, key, part) of named cells that have another name now, or none."""


def is_former(package):
    """Whether a `Package` is one of them."""
    return package.title.startswith(TEMPLATES) or (
        "Start" in package.sheets and "Overview" not in package.sheets
    )


def place_of(yellow, name):
    """((table, key), part) of a `Yellow` of theirs; None where it has none. name: the cell's."""
    if name in NAMES:
        table, key, part = NAMES[name]
        return (table, key), part
    if yellow.heading in ENDS and yellow.label in BANDS:
        return ("wanted", BANDS[yellow.label]), ENDS[yellow.heading]
    return None
