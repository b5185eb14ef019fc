"""A car of few numbers, completed step by step: each step takes what those before it have."""

from ....cells.block import CROWN as CROWN_ROW
from ....cells.block import ROD_MOUNT
from ....geometry.steering.moments import hub_ahead, hub_outboard
from ....geometry.vec import Vec
from ...make.texts.text_files import follows
from ...make.texts.tree import at, changed, leaves, put
from . import column, loads, numbers, rocker, seat
from .dimensions import ratio_of, sizes
from .front import Front
from .measures import LINKS, Settings
from .missing import missing
from .placing import Example, Frame
from .proportion import SAME, WHEELBASE, scale_of
from .story import GIVEN, PROPORTION, SOLVED, Story
from .wishes import wishes_of

FRONT = ("corner", "front")
MOUNT, CROWN = ROD_MOUNT.capitalize(), CROWN_ROW.capitalize()
RADIUS, CAMBER, TOE = "Tyre radius", "Static camber", "Static toe"


class Car:
    """A scenario being completed. own, theirs: its content and the demonstration's, in mm.

    new: {path: (value in the scenario's unit, how, text)} of what was added so far.
    """

    def __init__(self, scenario, demonstration):
        self.scenario = scenario
        self.unit = scenario.unit
        given = {k: v for k, v in scenario.file.content.items() if isinstance(v, dict)}
        self.own = numbers.in_mm(given, self.unit)
        self.theirs = numbers.in_mm(
            {k: v for k, v in demonstration.content.items() if isinstance(v, dict)},
            demonstration.unit,
        )
        self.missing = set(missing(scenario.file.content, demonstration.content))
        self.new = {}
        self.story = Story()

    def complete(self):
        """Add all that is missing to the scenario, and tell its story."""
        self._dimensions()
        self._in_proportion("car")
        self._masses()
        for table in (
            "range", "turn", "tyre", "joints", "turning", "locked", "rear", "bar", "frame", "ride",
            "brakes", "bearings", "first", "driver", "body",
        ):  # fmt: skip
            self._in_proportion(table)
        self._seat()
        self.wishes = wishes_of(self.own, self.theirs, self.ratio, self.radius)
        for name, wish in self.wishes.items():
            wish.shown_as(lambda end, name=name: self._as_shown(name, end))
        front = Front(self._frame(), self.value("range.lock", absent=None), self.wishes)
        self._front(front)
        self._springs(front)
        self._column(front)
        self._beam()
        self._thoughts(front)
        self._in_proportion("steering")
        self._in_proportion("look")
        self._wishes()
        self._rest()
        self._close(front)

    # ---------------------------------------------------------------- values

    def value(self, key, absent=0.0):
        """The number of a key, in mm: given, or added so far."""
        path = tuple(key.split("."))
        found, value = at(self.own, path)
        if not found and path in self.new:
            found, value = True, self.new[path][0]
            value = numbers.of_unit(value, numbers.kind_of(path, value), self.unit, "mm")
        return _counted(value, absent) if found else absent

    def row(self, label):
        """The value of a row of the front corner likewise; None where it is not there yet."""
        path = (*FRONT, label)
        found, value = at(self.own, path)
        if not found and path in self.new:
            value = self.new[path][0]
            value = numbers.of_unit(value, numbers.kind_of(path, value), self.unit, "mm")
        return value

    def their(self, key):
        """The demonstration's number of a key, or the text of what its cell follows."""
        return at(self.theirs, key.split("."))[1]

    def add(self, path, value, how, text, rounding=numbers.neat):
        """Add what is missing at a path, given in mm."""
        path = tuple(path.split(".")) if isinstance(path, str) else path
        if path not in self.missing or path in self.new:
            return
        kind = numbers.kind_of(path, value)
        value = rounding(numbers.of_unit(value, kind, "mm", self.unit))
        self.new[path] = (value, how, text[:1].upper() + text[1:] + ".")

    def _in_proportion(self, table):
        for name in self.theirs.get(table, ()):
            scale = scale_of(f"{table}.{name}")
            if scale is not None:
                their = self.their(f"{table}.{name}")
                self.add((table, name), _times(their, scale.of(self.ratio)), PROPORTION,
                         scale.words)  # fmt: skip

    # ---------------------------------------------------------------- step by step

    def _dimensions(self):
        own = sizes(self.own, self.theirs)
        for path, value, how, text in own.added:
            self.add(path, value, how, text)
        self.radius = float(self.row(RADIUS))
        self.ratio = ratio_of(own, self.theirs)

    def _seat(self):
        """The driver's place, and how far it has moved along the car."""
        theirs = self.theirs["driver"]
        self.add(("driver", seat.HIP), theirs[seat.HIP] * self.ratio.wheelbase, PROPORTION,
                 WHEELBASE.words, self._to_step)  # fmt: skip
        self.moved = self.value(f"driver.{seat.HIP}") - theirs[seat.HIP]
        for name in seat.ALONG:
            self.add(("driver", name), theirs[name] + self.moved, PROPORTION, seat.WORDS,
                     self._to_step)  # fmt: skip
        rows = seat.dimensions(self.theirs["body"]["dimensions"], self.ratio)
        self.add("body.dimensions", rows, PROPORTION,
                 "the car's length in proportion to the wheelbase, its width to the front track",
                 _as_is)  # fmt: skip

    def _masses(self):
        own = {name: self.value(f"car.{name}") for name in loads.OF_MASS}
        loads.weigh(self.ratio, own, self.theirs["car"])

    def _frame(self):
        """What points are placed by; aims are filled in by `Front`."""
        points = {
            label: Vec(*map(float, value))
            for label in (*LINKS.values(), *rocker.LABELS)
            for value in [at(self.own, (*FRONT, label))[1]] if value is not None
        }  # fmt: skip
        corner = self.theirs["corner"]["front"]
        theirs = {k: Vec(*map(float, v)) for k, v in corner.items() if isinstance(v, list)}
        example = Example(
            theirs, _settings(self.their, corner.get), self.their("range.lock"), corner[MOUNT]
        )
        aims = {name: wish.aim for name, wish in self.wishes.items()}
        return Frame(points, self.ratio, aims, _settings(self.value, self.row), example)

    def _front(self, front):
        front.solve(*numbers.POINTS[self.unit], self._to_unit, self._to_mm)
        for label, (how, text) in front.sources.items():
            self.add((*FRONT, label), list(front.points[label]), how, text, _as_is)
        if front.lock_moves:
            self.add("range.lock", front.lock, SOLVED, "solved for the inner wheel's angle", _as_is)
        self.ratio.lock = front.lock / self.their("range.lock")

    def _to_unit(self, number):
        return numbers.of_unit(number, "length", "mm", self.unit)

    def _to_mm(self, number):
        return numbers.of_unit(number, "length", self.unit, "mm")

    def _as_shown(self, name, end):
        """An end of a wish, in mm, as it stands in the scenario."""
        kind = numbers.kind_of(("target", name), end)
        shown = numbers.neat(numbers.of_unit(end, kind, "mm", self.unit))
        return numbers.of_unit(shown, kind, self.unit, "mm")

    def _springs(self, front):
        mount = at(self.own, (*FRONT, MOUNT))[1] or self.theirs["corner"]["front"][MOUNT]
        self.add((*FRONT, MOUNT), mount, PROPORTION, SAME.words, _as_is)
        front.spring(mount, self._to_unit, self._to_mm, numbers.POINTS[self.unit][0])
        for label, (how, text) in front.spring_sources.items():
            self.add((*FRONT, label), list(front.points[label]), how, text, _as_is)
        their_spring, ratio = self.theirs["spring"], self.ratio
        drawn, their_drawn = front.spring_length, front.their_spring_length
        for name, length in loads.lengths(drawn, their_spring, their_drawn, ratio).items():
            self.add(("spring", name), length, SOLVED,
                     "for the spring's length as drawn, and travel left in proportion")  # fmt: skip
        self._in_proportion("spring")
        spring = {name: self.value(f"spring.{name}") for name in ("rate", "open_length")}
        own = {name: self.value(f"car.{name}") for name in loads.OF_MASS}
        force = loads.preload(spring, loads.front_load(own), drawn, front.motion_ratio)
        self.add("spring.preload", force, SOLVED, "so that the car rests at the height as drawn")

    def _column(self, front):
        given = {
            label: Vec(*map(float, self.own["column"][label]))
            for label in column.LABELS if label in self.own.get("column", ())
        }  # fmt: skip
        theirs = {k: Vec(*map(float, v)) for k, v in self.theirs["column"].items()}
        front.steer(given, theirs, self.ratio, self.moved, self._to_unit, self._to_mm,
                    numbers.POINTS[self.unit][0])  # fmt: skip
        for label, (how, text) in front.column_sources.items():
            self.add(("column", label), list(front.column[label]), how, text, _as_is)

    def _beam(self):
        beam = self.theirs["corner"].get("beam", {})
        centre, track = beam.get("Wheel centre"), self.value("car.front_track")
        ours = (0.0, 0.5 * track, self.radius)
        for label, value in beam.items():
            path = ("corner", "beam", label)
            if label == RADIUS:
                self.add(path, self.radius, PROPORTION, "that of the front corner", _as_is)
            elif isinstance(value, list):
                place = [o + (v - c) * self.ratio.tyre
                         for o, v, c in zip(ours, value, centre, strict=True)]  # fmt: skip
                self.add(path, place, PROPORTION,
                         "about a wheel centre at half the track, in proportion to the tyre radius",
                         self._to_step)  # fmt: skip
            else:
                self.add(path, value, PROPORTION, SAME.words, _as_is)

    def _to_step(self, value):
        return numbers.rounded(value, numbers.POINTS[self.unit][0])

    def _thoughts(self, front):
        """The first layout, as it has become."""
        pose = front.drawn()
        for name in ("caster", "inclination"):
            self.add(("first", name), self.wishes[name].aim, SOLVED, "what is aimed at")
        self.add("first.camber", front.settings.camber, SOLVED, "that of the front corner", _as_is)
        for name, length in (("hub_outboard", hub_outboard(pose)), ("hub_ahead", hub_ahead(pose))):
            self.add(("first", name), length, SOLVED, "as the front corner has it", self._to_step)

    def _wishes(self):
        for table in ("target", "wanted"):
            for name, their in self.theirs.get(table, {}).items():
                scale = scale_of(f"{table}.{name}")
                value, text = _times(their, scale.of(self.ratio)), scale.words
                wish = self.wishes.get(name)
                if wish is not None and wish.given:
                    value, text = wish.in_form_of(value), "goes with what is given of this wish"
                self.add((table, name), value, PROPORTION, text)

    def _rest(self):
        """What no step knows of, as the demonstration has it."""
        for path in self.missing - set(self.new):
            self.add(path, at(self.theirs, path)[1], PROPORTION, SAME.words, _as_is)

    def _close(self, front):
        added: dict = {}
        for path in leaves(self.theirs):
            if path in self.new:
                value, how, text = self.new[path]
                put(added, path, value)
                self.story.tell(".".join(path), how, text, value)
            elif path[0] in ("corner", "column"):
                put(added, path, None)
        for path in leaves(self.own):
            self.story.tell(".".join(path), GIVEN, "Given.", at(self.own, path)[1])
        self.story.ask(lambda: front.unmet(self.unit))
        self.scenario.complete(added, self.story.sources)


def _settings(number, row):
    """The `Settings` of a car. number: of a key; row: the value of a row of the front corner."""
    keys = {
        "ball_tilt": "joints.ball", "rod_tilt": "joints.rod_end", "rack_tilt": "joints.rack_end",
        "rim_radius": "joints.rim_radius", "rim_width": "joints.rim_width",
        "rod_radius": "joints.rod_radius", "leg_radius": "joints.leg_radius",
        "flange_radius": "joints.flange_radius", "flange_inboard": "joints.flange_inboard",
        "brake_share": "car.front_brake_share", "cg_height": "car.cg_height",
        "track": "car.front_track", "wheelbase": "car.wheelbase", "travel": "range.travel",
        "tyre_width": "turning.tyre_width",
    }  # fmt: skip
    rows = {"radius": RADIUS, "camber": CAMBER, "toe": TOE}
    return Settings(
        **{name: _counted(number(key)) for name, key in keys.items()},
        **{name: float(row(label)) for name, label in rows.items()},
        crown=float(row(CROWN) or 0.0),
    )


def _counted(value, absent=0.0):
    """A number. Where its cell follows another one, that beside it, till there is a workbook."""
    followed = follows(value)
    return float(value) if followed is None else absent if followed[1] is None else followed[1]


def _times(value, factor):
    return changed(value, lambda number: number * factor)


def _as_is(value):
    return value
