"""Headings of recorded steps: the geometry's own names, with no hook on the interpreter."""

import sys

from cornerbook.book.plain.recorded.naming import named_steps
from cornerbook.book.plain.recorded.steps import Recorder
from cornerbook.geometry.corner.circle import Circle
from cornerbook.geometry.corner.dual import Dual
from cornerbook.geometry.corner.wheel import contact_centre, spindle_of
from cornerbook.geometry.front_axle.axle import Axle
from cornerbook.geometry.vec import Vec


def vec(recorder, name):
    return Vec(*(recorder.input(f"{name} {axis}") for axis in "xyz"))


def test_steps_are_called_as_the_variables_are():
    recorder = Recorder()
    with named_steps():
        circle = Circle(vec(recorder, "ball"), vec(recorder, "front"), vec(recorder, "rear"))
    assert circle.radius2.label[1] == "radius2"
    assert circle.arm.x.label[1] == "arm x"
    group, name = circle.centre.z.label
    assert name == "centre z"
    assert group == "The circle on which a point turns about the line through two pickups"


def test_an_inner_function_names_a_step_before_the_one_that_called_it():
    recorder = Recorder()
    with named_steps():
        spindle = spindle_of(recorder.input("camber"), recorder.input("toe"))
        contact = contact_centre(vec(recorder, "centre"), spindle, recorder.input("radius"))
        doubled = contact.x + contact.x  # of no function of the geometry
    _, level = spindle.y.parts
    about = "The spindle's direction of a wheel with this camber and toe"
    assert level.label == (about, "level")
    assert doubled.label is None


def test_what_is_made_of_duals_is_called_as_its_function_calls_it():
    recorder = Recorder()

    class Wheel:
        def __init__(self, name):
            self._name = name

        def toe(self):
            return Dual(recorder.input(self._name), recorder.input(f"{self._name}'s"))

        def contact_centre(self):
            return vec(recorder, self._name)

        @property
        def wheel_centre(self):
            return vec(recorder, f"{self._name} centre")

        @property
        def spindle(self):
            return vec(recorder, f"{self._name} spindle")

        radius = 300.0

    with named_steps():
        axle = Axle(Wheel("left"), Wheel("right"), 0.0)
    assert axle.steer_left.slope.label == ("Both wheels of an axle at one rack", "steer left slope")


def test_a_profiler_goes_on_undisturbed():
    seen = []

    def look(frame, event, _):
        seen.append((frame.f_code.co_name, event))

    before = sys.getprofile()
    sys.setprofile(look)
    try:
        with named_steps():
            inside = sys.getprofile()
            spindle_of(Recorder().input("camber"), 0.0)
    finally:
        sys.setprofile(before)
    assert inside is look
    assert ("spindle_of", "call") in seen


def test_steps_made_outside_get_no_label():
    recorder = Recorder()
    with named_steps():
        pass
    assert spindle_of(recorder.input("camber"), recorder.input("toe")).y.label is None
