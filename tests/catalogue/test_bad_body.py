"""What a body that cannot be gives: a sentence with the row; and the ends of a body."""

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import DIMENSIONS, STATIONS

from tests.catalogue.independent_body import body_at
from tests.catalogue.test_bad_input import said


def test_dimensions_that_cannot_be():
    said(call("BODY_SCALE", (("Length", -5.0, 3.0, ""),)), "example's of Length is -5", "above 0")
    said(call("BODY_SCALE", (("Length", 5.0, "", ""),)), "the car's of Length is missing")
    said(call("BODY_SCALE", (("Length", 5.0, 3.0, 0.0),)), "none weighs anything")
    said(call("BODY_SCALE", (("Length", 5.0, 3.0, -1.0),)), "weight of Length is -1")


def test_one_dimension_is_its_own_scale_and_weights_pull():
    assert call("BODY_SCALE", DIMENSIONS[:1]) == pytest.approx(1600.0 / 1800.0)
    heavy = (*DIMENSIONS[:4], ("Length", 2900.0, 2700.0, 1e9))
    assert call("BODY_SCALE", heavy) == pytest.approx(2700.0 / 2900.0, rel=1e-6)


def test_stations_that_cannot_be():
    back = (STATIONS[1], STATIONS[0])
    said(call("BODY_AT", "top", 0.0, back, 1.0), "the x of row 2 is -2200", "above the one before")
    said(call("BODY_AT", "top", 0.0, ((0.0, -2.0, 1.0, 3.0),), 1.0), "half width of row 1 is -2")
    said(call("BODY_AT", "top", 0.0, STATIONS, 0.0), "scale", "above 0")
    said(call("BODY_AT", "colour", 0.0, STATIONS, 1.0), "half width, underside, top")


def test_at_every_place_it_is_what_numpy_interpolates():
    places = [*np.linspace(-2300.0, 700.0, 41), *(0.9 * row[0] for row in STATIONS if row[0] != "")]
    for x in map(float, places):
        for measure in ("half width", "underside", "top"):
            wanted = body_at(measure, x, STATIONS, 0.9)
            assert call("BODY_AT", measure, x, STATIONS, 0.9) == pytest.approx(wanted, abs=1e-9)


def test_a_single_station_is_there_alone():
    alone = ((100.0, 50.0, 10.0, 90.0),)
    assert call("BODY_AT", "half width", 100.0, alone, 1.0) == 50.0
    assert call("BODY_AT", "half width", 101.0, alone, 1.0) == 0.0
