"""What is wanted of a car: from, aim and to of each wish, given or as the demonstration has it."""

from ...make.texts.text_files import number_wrong
from ...make.texts.tree import at
from ...make.texts.wish import ENDS, WANTED, ends_of, keys_of_wish
from .proportion import SAME, WISHES

INFINITE = float("inf")


class Wish:
    """One wish. low, high: the ends of its band, infinite for none; aim: a number or None.

    given: whether any of it was given, and aimed: whether the aim was. most: what its misses are
    measured by where the band is wider.
    """

    __slots__ = ("aim", "aimed", "given", "high", "low", "most")

    def __init__(self, low, aim, high, given, aimed, most):
        self.aimed = aimed
        self.most = most
        self.low = low
        self.aim = aim
        self.high = high
        self.given = given

    @property
    def width(self):
        """What a miss of the band is measured by."""
        return min(max(self.high - self.low, 1e-9), self.most)

    def in_form_of(self, value):
        """From, aim and to in the form that a value has: a number, a band, or a table."""
        ends = {"from": self.low, "aim": self.aim, "to": self.high}
        if isinstance(value, dict):
            return {name: _instead(ends[name], value[name]) for name in value}
        if isinstance(value, list):
            return [_instead(self.low, value[0]), _instead(self.high, value[1])]
        return _instead(self.aim, value)

    def shown_as(self, change):
        """The same with what is not given changed by a function, as it will be shown."""
        low, aim, high = (
            end if end is None or abs(end) == INFINITE else change(end)
            for end in (self.low, self.aim, self.high)
        )
        if not self.given:
            self.low, self.aim, self.high = low, aim, high
        return self

    def is_met_by(self, least, most):
        """Whether all values from the least to the most are within the band."""
        return bool(self.low <= least and most <= self.high)


def _instead(end, other):
    """An end, or the other where there is none."""
    return other if end is None or abs(end) == INFINITE else end


class Measure:
    """A measure of the corner that a wish judges.

    wish: the wish's name. words: as a sentence has it. first: whether it comes before those that
    the demonstration itself has not: the worst over the whole travel of what bends with it.
    """

    __slots__ = ("first", "kind", "wish", "words")

    def __init__(self, wish, words, kind, first=True):
        self.wish = wish
        self.words = words
        self.kind = kind
        self.first = first


MEASURES = {
    "caster": Measure("caster", "caster", "angle"),
    "inclination": Measure("inclination", "kingpin inclination", "angle"),
    "trail": Measure("trail", "mechanical trail", "length"),
    "scrub": Measure("scrub", "scrub radius", "length"),
    "camber": Measure("camber", "camber", "angle"),
    "toe": Measure("toe", "toe", "angle"),
    "track_off": Measure("track_off", "front track less that wanted", "length"),
    "camber_gain": Measure("camber_gain", "camber gain", "angle per length"),
    "bump_steer": Measure("bump_steer", "bump steer", "angle per length"),
    "toe_change": Measure("toe_change", "worst toe change over the travel", "angle"),
    "roll_centre": Measure("roll_centre", "roll centre height", "length"),
    "swing_arm": Measure("swing_arm", "virtual swing arm", "length"),
    "anti_dive": Measure("anti_dive", "anti-dive", "percent"),
    "side_angle": Measure("side_angle", "side swing arm angle", "angle"),
    "load_arm": Measure("load_arm", "vertical load arm", "length"),
    "inner_angle": Measure("inner_angle", "inner wheel's angle at full lock", "angle"),
    "ackermann": Measure("ackermann", "Ackermann at full lock", "percent"),
    "turning_radius": Measure("turning_radius", "turning radius", "length"),
    "kerb_to_kerb": Measure("kerb_to_kerb", "turning circle, kerb to kerb", "length"),
    "camber_lock_outer": Measure(
        "camber_lock_outer", "camber of the outer wheel at full lock", "angle"
    ),
    "joint_left": Measure("joint_left", "smallest margin of any joint", "angle"),
    "toggle": Measure("toggle", "smallest angle to toggle", "angle"),
    "rod_clearance": Measure("rim_clearance", "clearance, tie rod to rim and spokes", "length"),
    "leg_clearance": Measure("rim_clearance", "clearance, arms to rim and spokes", "length"),
    "motion_ratio": Measure("motion_ratio", "motion ratio over the travel", "ratio"),
    "rocker_margin": Measure("rocker_margin", "rocker's margin to over centre", "angle"),
    "upper_bend": Measure("universal_joint", "bend at the column's upper joint", "angle"),
    "lower_bend": Measure("universal_joint", "bend at the column's lower joint", "angle"),
    "ripple": Measure("ripple", "speed ripple of the column", "percent"),
    "camber_gain_worst": Measure(
        "camber_gain", "worst camber gain over the travel", "angle per length", False
    ),
    "roll_centre_worst": Measure(
        "roll_centre", "worst roll centre height over the travel", "length", False
    ),
    "track_change": Measure("track_change", "worst track change over the travel", "length", False),
}
"""The measures that are judged, by the names that `measures.py` gives them."""

WIDEST = {"length": 0.08, "angle": 4.0, "percent": 20.0}
"""By what misses are measured at most, however wide the band, by kind; lengths in tyre radii."""

UNTIL = ("lower_height", "upper_height")
"""Wishes without a band: heights at which the ball joints stand if nothing is against it."""


def given_wish(content, name):
    """(from, aim, to) of a wish as given, None for what is not; in the content's own unit.

    Read as `Scenario.wish` does, but that what is no number is left out: reading the scenario says
    what is wrong with it. Where nothing is wanted, an aim may be that of the first layout.
    """
    said: dict = {}
    for key in reversed(keys_of_wish(name)):
        said.update(ends_of(at(content, key.split("."))[1]) or {})
    if not at(content, (WANTED, name))[0]:
        said["aim"] = at(content, ("first", name))[1]
    return tuple(_number(said.get(end)) for end in ENDS)


def _number(value):
    return float(value) if value is not None and number_wrong(value) is None else None


def missed(found, wishes):
    """The names of the measures, {name: (least, most)}, that are outside of their bands."""
    return [n for n, ends in found.items() if not wishes[MEASURES[n].wish].is_met_by(*ends)]


def wishes_of(given, theirs, ratio, radius):
    """{name: `Wish`} of those that place the points.

    given, theirs: a car's own content and the demonstration's, both in mm; ratio: the `Ratio` of
    both; radius: of the car's tyre.
    What is not given goes with the car as the table of `proportion.py` says. A band that is not
    given is moved where an aim that is given lies outside of it, and an aim into a band.
    """
    found = {}
    kinds = {measure.wish: measure.kind for measure in MEASURES.values()}
    for name in (*kinds, *UNTIL):
        own, their = given_wish(given, name), given_wish(theirs, name)
        factor = WISHES.get(name, SAME).of(ratio)
        low, aim, high = (None if end is None else end * factor for end in their)
        low = -INFINITE if low is None else low
        high = INFINITE if high is None else high
        if own[1] is not None:
            if aim is not None and not low <= own[1] <= high:
                low, high = low + own[1] - aim, high + own[1] - aim
            elif aim is None and not low <= own[1] <= high:
                half = 0.5 * (high - low)
                low, high = own[1] - half, own[1] + half
            aim = own[1]
        if own[0] is not None or own[2] is not None:
            low = -INFINITE if own[0] is None else own[0]
            high = INFINITE if own[2] is None else own[2]
            if aim is not None and not low <= aim <= high:
                aim = 0.5 * (low + high) if high - low < INFINITE else min(max(aim, low), high)
        kind = kinds.get(name)
        most = WIDEST.get(kind, INFINITE) * (radius if kind == "length" else 1.0)
        found[name] = Wish(
            low, aim, high, any(end is not None for end in own), own[1] is not None, most
        )
    return found
