"""The main dimensions of a car, from which all else is taken in proportion."""

import math

from ....geometry.corner.wheel import contact_centre, spindle_of
from ....geometry.vec import Vec
from ...make.texts.tree import at
from .proportion import DRIVER, Ratio
from .story import PROPORTION, SOLVED
from .wishes import given_wish

_CORNER = ("corner", "front")


class Sizes:
    """radius, track, wheelbase in mm; added: (path, value, how, text) of those not given."""

    __slots__ = ("added", "radius", "track", "wheelbase")


def sizes(own, theirs):
    """The `Sizes` of a content in mm; theirs: the demonstration's."""
    found = Sizes()
    found.added = []
    camber, toe = (_angle(own, theirs, found, name) for name in ("camber", "toe"))
    spindle = spindle_of(camber, toe)
    centre = at(own, (*_CORNER, "Wheel centre"))[1]
    their = {name: float(theirs["car"][name]) for name in ("wheelbase", "front_track")}
    car = own.get("car", {})

    radius, crown = (at(own, (*_CORNER, row))[1] for row in ("Tyre radius", "Crown radius"))
    crown = float(crown or 0.0)
    if radius is None and centre is not None and centre[2] > 0.0:
        radius = (centre[2] - crown) / math.hypot(spindle.x, spindle.y) + crown
        found.added.append(((*_CORNER, "Tyre radius"), radius, SOLVED,
                            "for the wheel centre to stand on the ground"))  # fmt: skip
    if radius is None:
        radius = theirs["corner"]["front"]["Tyre radius"]
        found.added.append(
            ((*_CORNER, "Tyre radius"), radius, PROPORTION, "as the demonstration has it")
        )
    found.radius = float(radius)

    track, wheelbase = car.get("front_track"), car.get("wheelbase")
    if track is None and centre is not None:
        track = 2.0 * contact_centre(Vec(*map(float, centre)), spindle, found.radius, crown).y
        found.added.append(("car.front_track", track, SOLVED, "as the wheel centre has it"))
    elif track is None:
        share = 1.0 if wheelbase is None else wheelbase / their["wheelbase"]
        track = their["front_track"] * share
        words = "as the demonstration has it" if share == 1.0 else "in proportion to the wheelbase"
        found.added.append(("car.front_track", track, PROPORTION, words))
    if wheelbase is None:
        wheelbase = their["wheelbase"] * track / their["front_track"]
        found.added.append(
            ("car.wheelbase", wheelbase, PROPORTION, "in proportion to the front track")
        )
    found.track, found.wheelbase = float(track), float(wheelbase)

    factor = (found.track / their["front_track"]) * (found.wheelbase / their["wheelbase"])
    mass = DRIVER + (theirs["car"]["mass"] - DRIVER) * factor
    found.added.append((
        "car.mass", mass, PROPORTION,
        f"a driver of {DRIVER:g} kg, the rest in proportion to wheelbase times front track",
    ))  # fmt: skip
    return found


def _angle(own, theirs, found, name):
    """Static camber or toe: given, or the demonstration's, moved into a band that is given."""
    path = (*_CORNER, f"Static {name}")
    given = at(own, path)[1]
    if given is not None:
        return float(given)
    angle, words = float(theirs["corner"]["front"][f"Static {name}"]), "as the demonstration has it"
    how = PROPORTION
    low, aim, high = given_wish(own, name)
    if aim is not None:
        angle, words, how = aim, "what is aimed at", SOLVED
    elif low is not None and high is not None and not low <= angle <= high:
        angle, words, how = 0.5 * (low + high), "the middle of the band that is given", SOLVED
    found.added.append((path, angle, how, words))
    return angle


def ratio_of(own, theirs):
    """The `Ratio` of `Sizes` to those of the demonstration; of masses, none yet."""
    car, corner = theirs["car"], theirs["corner"]["front"]
    track, tyre = own.track / car["front_track"], own.radius / corner["Tyre radius"]
    low, aim, high = given_wish(theirs, "inner_angle")
    angle = aim if aim is not None else 0.5 * (low + high)
    return Ratio(
        track=track, tyre=tyre, wheelbase=own.wheelbase / car["wheelbase"],
        travel=min(track, tyre),
        turn=_circle(own.wheelbase, own.track, angle)
        / _circle(car["wheelbase"], car["front_track"], angle),
    )  # fmt: skip


def _circle(wheelbase, track, angle):
    """Radius of the outer wheel's path where both wheels are square to one centre, the inner one
    turned by an angle in degrees."""
    return math.hypot(wheelbase / math.tan(math.radians(angle)) + track, wheelbase)
