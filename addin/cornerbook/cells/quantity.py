"""Quantities by their name: the formulas of a corner or an axle at a pose that give one number."""

from functools import lru_cache

from .arguments import AXLE, POSE, WHEELBASE
from .block import key_of
from .declare import FORMULAS, Argument
from .mend import Mend, hold, shown

WHEELBASE_OPTIONAL = WHEELBASE.but(
    help="Wheelbase, needed for quantities of the steered axle only.", default=0.0, above=None
)

QUANTITY = Argument(
    "quantity", "text",
    "Which quantity: camber, toe, bump steer, roll centre, ackermann and so on.",
)  # fmt: skip

OUTSIDE = "wheelbase: %%s given, a number %s was expected"


OWN_WORDS = {
    "kingpin inclination": "kpi", "inclination": "kpi", "mechanical trail": "trail",
    "scrub radius": "scrub", "toe of one wheel": "toe", "toe of this wheel": "toe",
    "roll centre height": "roll centre", "virtual swing arm": "swing arm length",
    "swing arm angle to the ground": "swing arm angle", "angle to toggle": "toggle margin",
    "margin to over centre": "rocker margin", "length of the spring": "spring length",
    "ideal outer angle": "ideal outer", "left wheel's angle": "steer left",
    "right wheel's angle": "steer right", "hub outboard of the axis": "hub outboard",
    "hub ahead of the axis": "hub ahead",
}  # fmt: skip
"""What the sheets call some quantities, and the name of each: both are taken."""

_OWN_KEYS = {key_of(words): key_of(name) for words, name in OWN_WORDS.items()}


def quantity_key(text):
    """A quantity's name, or what the sheets call it, as `quantities` compares it."""
    key = key_of(text)
    return _OWN_KEYS.get(key, key)


@lru_cache(maxsize=1)
def _quantities(count):
    """`quantities`, of so many formulas."""
    found = {}
    for entry in FORMULAS.values():
        if entry.shape == "number" and entry.arguments in (POSE, AXLE):
            found[key_of(entry.name)] = entry
    return found


def quantities():
    """Every formula that a sweep can show, by its name as `key_of` compares it.

    They are those that give one number for a corner or an axle at a pose.
    """
    return _quantities(len(FORMULAS))


def name_of(entry):
    """A quantity's name as a heading has it: CAMBER_GAIN is 'camber gain'."""
    return entry.name.lower().replace("_", " ")


def of_axle(entry):
    """Whether a quantity is one of the steered axle, which needs the wheelbase."""
    return entry.arguments is AXLE


def value_at(entry, corner, wheelbase, travel, rack):
    """One quantity at one pose; None where the linkage cannot reach it.

    For arrays of poses an array comes back, NaN where it cannot be reached.
    """
    try:
        if entry.arguments is POSE:
            value = entry.function(corner, travel, rack)
        elif wheelbase is None or (isinstance(wheelbase, float) and not wheelbase):
            raise Mend(f"wheelbase is missing; {name_of(entry)} needs it")
        else:
            hold(wheelbase > 0.0, OUTSIDE % WHEELBASE.between, wheelbase)
            value = entry.function(corner, wheelbase, rack, travel)
    except (ZeroDivisionError, OverflowError):
        return None
    return None if isinstance(value, float) and value != value else value


def chosen(argument, names):
    """The formulas of these names; raises `Mend` with the known ones."""
    known = quantities()
    wanted = []
    for name in names:
        if quantity_key(name) not in known:
            raise Mend(
                f"{argument}: {shown(name)} is not known; one of these was expected: "
                f"{', '.join((name_of(entry) for entry in known.values()))}"
            )
        wanted.append(known[quantity_key(name)])
    return wanted


def why_not_at(entry, corner, wheelbase, travel, rack):
    """Why a quantity has no value at a pose, in its own formula's words."""
    if entry.why is None:
        return entry.beyond
    if of_axle(entry):
        return entry.why(corner, wheelbase, rack, travel)
    return entry.why(corner, travel, rack)


def number_at(entry, corner, wheelbase, travel, rack):
    """A quantity at a pose; raises `Mend` where it has no value."""
    value = value_at(entry, corner, wheelbase, travel, rack)
    if value is None:
        raise Mend(why_not_at(entry, corner, wheelbase, travel, rack))
    return value
