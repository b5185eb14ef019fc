"""Few numbers made a whole scenario: wishes met, given numbers kept, each number's origin true."""

import math
from typing import ClassVar

import numpy as np
import pytest
from cornerbook.book.make.texts import units
from cornerbook.book.make.texts.mistakes import Mistakes
from cornerbook.book.make.texts.places import find
from cornerbook.book.make.texts.scenario import Scenario
from cornerbook.book.make.texts.text_files import TextFile, follows
from cornerbook.book.make.texts.tree import at, leaves
from cornerbook.book.study.begin.corner import MOST_FAILED, solve
from cornerbook.book.study.begin.run import begin
from cornerbook.book.study.begin.wishes import MEASURES
from cornerbook.catalogue import call

from tests.authorities.closure_by_scipy import Closure, rotation
from tests.authorities.turn_of_two_wheels import Turn
from tests.support.few import as_text, few_cars

SEED = 2
COUNT = 12
"""Of the cars in the suite. Of 209 of another seed, tried by hand, three missed a wish."""

LATER = tuple(f"- Worst {what}" for what in ("camber gain", "roll centre height", "track change"))
"""How lines begin on what the demonstration does not meet either."""

LAPWING = Scenario(find("scenarios", "lapwing")).content


def completed(content, unit="mm"):
    """(the completed `Scenario`, its `Story`) of a content, which must be sound."""
    mistakes = Mistakes()
    scenario = Scenario("few.toml", mistakes, text=as_text(content, unit=unit))
    story = begin(scenario, mistakes)
    mistakes.hold()
    return scenario, story


def block(scenario):
    """The front corner as rows of cells."""
    rows = scenario.content["corner"]["front"].items()
    return tuple((k, *v) if isinstance(v, list) else (k, v, "", "") for k, v in rows)


@pytest.fixture(scope="module")
def cars():
    """(kind, content, scenario, story) of the suite's share of few-number cars."""
    return [(*each, *completed(each[1])) for each in few_cars(SEED, COUNT)]


def formulas(scenario):
    """{name of a wish: its value or values} by the formulas that the sheets use.

    Those of the demonstration's wishes that it meets itself and that one corner decides.
    """
    rows, content = block(scenario), scenario.content
    base, lock = float(content["car"]["wheelbase"]), float(content["range"]["lock"])
    if not call("STEER_LEFT", rows, base, lock) > 0:
        lock = -lock
    travels = np.linspace(-1, 1, 21) * content["range"]["travel"]
    joints, car = content["joints"], content["car"]
    poses = [(float(t), float(r)) for t in travels[::10] for r in (-lock, 0.0, lock)]
    rim = (float(joints["rim_radius"]), float(joints["rim_width"]))
    rod, leg_tube = float(joints["rod_radius"]), float(joints["leg_radius"])
    spokes = (float(joints["flange_radius"]), float(joints["flange_inboard"]))
    toe = call("TOE", rows)
    tilts = {
        "ball": ("LOWER_BALL_JOINT_ANGLE", "UPPER_BALL_JOINT_ANGLE"),
        "rod_end": ("TIE_ROD_OUTER_ANGLE",), "rack_end": ("TIE_ROD_INNER_ANGLE",),
    }  # fmt: skip
    legs = ("lower front", "lower rear", "upper front", "upper rear")
    return {
        "caster": call("CASTER", rows),
        "inclination": call("KPI", rows),
        "trail": call("TRAIL", rows),
        "scrub": call("SCRUB", rows),
        "camber": call("CAMBER", rows),
        "toe": toe,
        "track_off": 2 * call("POINT", rows, "contact centre", 0.0, 0.0, "y") - car["front_track"],
        "camber_gain": call("CAMBER_GAIN", rows),
        "bump_steer": call("BUMP_STEER", rows),
        "toe_change": [call("TOE", rows, float(t), 0.0) - toe for t in travels],
        "ackermann": call("ACKERMANN", rows, base, lock),
        "inner_angle": max(abs(call(f"STEER_{s}", rows, base, lock)) for s in ("LEFT", "RIGHT")),
        "turning_radius": call("TURNING_RADIUS", rows, base, lock),
        "kerb_to_kerb": call(
            "KERB_TO_KERB", rows, base, lock, 0.0, float(content["turning"]["tyre_width"])
        ),
        "camber_lock_outer": call("CAMBER", rows, 0.0, -lock),
        "roll_centre": call("ROLL_CENTRE", rows),
        "swing_arm": call("SWING_ARM_LENGTH", rows),
        "anti_dive": call(
            "ANTI_DIVE", rows, base, float(car["cg_height"]), follows(car["front_brake_share"])[1]
        ),
        "side_angle": call("SIDE_SWING_ARM_ANGLE", rows),
        "load_arm": call("VERTICAL_LOAD_ARM", rows),
        "motion_ratio": [call("MOTION_RATIO", rows, float(t), 0.0) for t in travels],
        "rocker_margin": call("ROCKER_MARGIN", rows),
        "toggle": [call("TOGGLE_MARGIN", rows, *pose) for pose in poses],
        "joint_left": [
            joints[key] - call(name, rows, *pose)
            for key, names in tilts.items() for name in names for pose in poses
        ],
        "rim_clearance": [
            *(call("RIM_CLEARANCE", rows, "tie rod", *rim, *pose, rod, *spokes) for pose in poses),
            *(call("RIM_CLEARANCE", rows, leg, *rim, *pose, leg_tube, *spokes)
              for leg in legs for pose in poses),
        ],
    }  # fmt: skip


def band(scenario, name, unit="mm"):
    """From and to of a wish of a scenario in that unit, infinite where there is no limit."""
    low, _, high = scenario.wish(name, "ratio", unit)
    return [-np.inf if low is None else low, np.inf if high is None else high]


def missed(scenario):
    """The names of the wishes that are not met, or whose values are no numbers."""
    found = []
    for name, values in formulas(scenario).items():
        low, high = band(scenario, name)
        every = values if isinstance(values, list) else [values]
        if not all(isinstance(value, float) and low <= value <= high for value in every):
            found.append(name)
    return found


def test_nearly_all_cars_meet_every_wish_and_the_rest_say_why(cars):
    failed = [(kind, content, story) for kind, content, scenario, story in cars if missed(scenario)]
    assert len(failed) <= max(1, 0.05 * COUNT), [each[:2] for each in failed]
    for _, _, story in failed:
        assert story.unmet


def test_a_report_does_not_say_that_all_is_met_where_it_is_not(cars):
    """The report's lines on what is judged here are those of the formulas, no more, no less."""
    for _, _, scenario, story in cars[:4]:
        first = [line for line in story.unmet if not line.startswith(LATER)]
        assert bool(first) == bool(missed(scenario)), story.unmet


def test_the_check_finds_nothing(cars):
    for kind, content, scenario, _ in cars:
        assert call("CHECK", block(scenario), "mm") == "ok", (kind, content)


def test_the_column_bends_no_more_than_is_wanted(cars):
    for _, _, scenario, _ in cars:
        rows = tuple((name, *place) for name, place in scenario.content["column"].items())
        bends = [call("COLUMN_JOINT_ANGLE", rows, joint) for joint in ("upper", "lower")]
        low, high = band(scenario, "universal_joint")
        assert all(low <= bend <= high for bend in bends)
        assert call("COLUMN_RIPPLE", *bends) <= band(scenario, "ripple")[1]


def test_what_is_given_is_never_altered(cars):
    for _, content, scenario, _ in cars:
        for path in leaves(content):
            assert at(scenario.content, path) == at(content, path)


def test_a_car_rests_at_the_height_as_drawn(cars):
    for _, _, scenario, _ in cars:
        rows, content = block(scenario), scenario.content
        spring, car = content["spring"], content["car"]
        load = 0.5 * 9.80665 * (car["mass"] * car["front_share"] - car["unsprung_front"])
        ratio, drawn = call("MOTION_RATIO", rows), call("SPRING_LENGTH", rows)
        free = call("SPRING_FREE_LENGTH", spring["open_length"], spring["preload"], spring["rate"])
        held = call("SPRING_LOAD", load, ratio)
        rest = call("SPRING_LENGTH_AT_REST", free, spring["preload"], spring["rate"], held)
        low, high = band(scenario, "ride_height_change")
        assert low <= call("RIDE_HEIGHT_CHANGE", drawn, rest, ratio) <= high
        for name, travel in (
            ("droop", call("DROOP_TRAVEL", rest, spring["open_length"], ratio)),
            ("bump", call("BUMP_TRAVEL", rest, spring["shortest_length"],
                          spring["solid_length"], ratio)),
        ):  # fmt: skip
            low, high = band(scenario, name)
            assert low <= travel <= high, name


# An independent look


def test_wishes_are_met_by_a_linkage_that_scipy_closes(cars):
    """Toe over the travel, camber gain, inner angle and Ackermann from constraint equations."""
    for _, _, scenario, _ in [car for car in cars if not missed(car[2])][:4]:
        content = scenario.content
        rows = content["corner"]["front"]
        corner = {name.lower(): np.array(v) for name, v in rows.items() if isinstance(v, list)}
        closure = Closure(corner)
        lean, turn = (math.radians(rows[name]) for name in ("Static camber", "Static toe"))
        spindle = np.array(
            [math.sin(turn) * math.cos(lean), math.cos(turn) * math.cos(lean), -math.sin(lean)]
        )

        def at_pose(travel, rack, closure=closure, spindle=spindle):
            centre, vector = closure.solve(travel, rack, stages=6)
            way = rotation(vector) @ spindle
            camber = math.degrees(math.asin(-way[2]))
            return centre, way, camber, math.degrees(math.atan2(way[0], way[1]))

        travel = content["range"]["travel"]
        low, high = band(scenario, "toe_change")
        for share in (-1, -0.5, 0.5, 1):
            assert low <= at_pose(share * travel, 0.0)[3] - rows["Static toe"] <= high
        step = 0.01
        gain = (at_pose(step, 0.0)[2] - at_pose(-step, 0.0)[2]) / (2 * step)
        assert band(scenario, "camber_gain")[0] <= gain <= band(scenario, "camber_gain")[1]

        lock = content["range"]["lock"]
        here, there = at_pose(0.0, lock), at_pose(0.0, -lock)
        places = [_contact(*pose[:2], rows["Tyre radius"]) for pose in (here, there)]
        steers = (-here[3], there[3])
        turned = Turn(places[0], places[1] * [1, -1], *steers,
                      rows["Wheel centre"][0] - content["car"]["wheelbase"])  # fmt: skip
        assert band(scenario, "ackermann")[0] <= turned.percentage <= band(scenario, "ackermann")[1]
        assert band(scenario, "inner_angle")[0] <= turned.inner <= band(scenario, "inner_angle")[1]
        assert turned.radius <= band(scenario, "turning_radius")[1]


def _contact(centre, way, radius):
    """The lowest point of a disc, in plan: down its plane from the centre."""
    down = np.array([0.0, 0.0, -1.0]) + way * way[2]
    return (centre + down / np.linalg.norm(down) * radius)[:2]


# Where numbers come from


def test_every_number_says_where_it_comes_from(cars):
    for _, content, scenario, story in cars:
        whole = {".".join(path) for path in leaves(scenario.content)} - {"title", "unit"}
        assert whole == set(story.sources)
        given = {".".join(path) for path in leaves(content)}
        assert given == {key for key, text in story.sources.items() if text == "Given."}
        assert sum(story.counts().values()) == sum(
            _numbers(at(scenario.content, tuple(key.split(".")))[1]) for key in whole
        )
        assert story.counts()["given"] == sum(_numbers(at(content, p)[1]) for p in leaves(content))


def _numbers(value):
    if isinstance(value, (list, dict)):
        return sum(map(_numbers, value.values() if isinstance(value, dict) else value))
    return 0 if isinstance(value, str) else 1


WORDS = {
    "As the demonstration has it.": lambda track, tyre, base: 1.0,
    "In proportion to the front track.": lambda track, tyre, base: track,
    "In proportion to the tyre radius.": lambda track, tyre, base: tyre,
    "In proportion to the wheelbase.": lambda track, tyre, base: base,
    "In proportion to the front track or the tyre radius, the less of both.":
        lambda track, tyre, base: min(track, tyre),
    "In proportion to the tyre radius, squared.": lambda track, tyre, base: tyre**2,
}  # fmt: skip


def _flat(value):
    """The numbers and words within lists and tables."""
    if not isinstance(value, (list, dict)):
        return [value]
    inside = value.values() if isinstance(value, dict) else value
    return [each for part in inside for each in _flat(part)]


def test_what_is_in_proportion_is(cars):
    """To the three digits that are kept."""
    for _, content, scenario, story in cars:
        track = content["car"]["front_track"] / LAPWING["car"]["front_track"]
        base = content["car"]["wheelbase"] / LAPWING["car"]["wheelbase"]
        radius = LAPWING["corner"]["front"]["Tyre radius"]
        tyre = content["corner"]["front"]["Tyre radius"] / radius
        seen = set()
        for key, text in story.sources.items():
            path = tuple(key.split("."))
            if text not in WORDS or path[0] in ("corner", "column", "adjusters", "drive"):
                continue
            seen.add(text)
            theirs, ours = at(LAPWING, path)[1], at(scenario.content, path)[1]
            for their, our in zip(_flat(theirs), _flat(ours), strict=True):
                if isinstance(our, str):
                    assert our == their
                    continue
                assert our == pytest.approx(WORDS[text](track, tyre, base) * their, rel=5.1e-3)
        assert seen == set(WORDS)


def test_every_key_of_a_car_has_a_rule_of_its_own():
    """Nothing of the demonstration's is copied for want of a rule but what is named here."""
    _, story = completed({"car": {"wheelbase": 1700}, "range": {"lock": 45}})
    own = ("wanted.", "adjusters.")
    copied = {
        key for key, text in story.sources.items()
        if text == "As the demonstration has it." and not key.startswith(own)
    }  # fmt: skip
    assert copied == {
        "corner.front.Tyre radius", "corner.front.Static camber", "corner.front.Static toe",
        "corner.front.Rod mount", "corner.front.Crown radius",
            "corner.beam.Static camber", "corner.beam.Static toe",
        "car.front_brake_share", "car.front_share", "spring.bar_motion_ratio",
        "bar.outer", "bar.wall",
        "turn.lateral_acceleration", "turn.friction", "turn.driving", "steering.wheel_radius",
        "steering.efficiency", "steering.rolling", "steering.parking_friction",
        "tyre.peak_slip", "tyre.residual", "tyre.trail_gone", "tyre.sensitivity",
        "tyre.turn_share", "tyre.camber_coefficient", "joints.ball",
            "joints.rod_end", "joints.rack_end", "first.steer",
        "locked.slip_stiffness", "look.roll",
        # Brakes and motor are bought: those of the demonstration until others are typed.
        "bearings.holds", "bearings.chain_angle", "bearings.pads_angle",
        *(f"brakes.{name}" for name in LAPWING["brakes"] if not name.endswith("_radius")),
        *(f"drive.{name}" for name in LAPWING["drive"]),
        # Persons do not grow with the car, nor do heights about them; a body is another car's.
        *(f"driver.{name}" for name in LAPWING["driver"]
          if not name.endswith(("_x", "_width")) and name != "knee_side"),
        *(f"body.{name}" for name in ("stations", "wall", "frame_underside", "frame_top",
                                       "thigh_radius")),
    }  # fmt: skip


# Parts of a corner


def test_the_demonstration_from_three_numbers_is_like_itself():
    """Its points come back within the movement that solving is allowed: 0.4 tyre radii."""
    content = {
        "car": {"wheelbase": 1580, "front_track": 1120}, "corner": {"front": {"Tyre radius": 262}},
    }  # fmt: skip
    scenario, _ = completed(content)
    assert missed(scenario) == []
    for label, place in LAPWING["corner"]["front"].items():
        if isinstance(place, list) and not label.startswith(("R", "S")):
            ours = scenario.content["corner"]["front"][label]
            assert max(map(abs, np.subtract(ours, place))) < 0.45 * 262, label


@pytest.mark.parametrize("left_out", ["Tie rod inner", "Upper front pickup", "Spring frame"])
def test_one_row_left_out_of_a_whole_corner(left_out):
    rows = {k: v for k, v in LAPWING["corner"]["front"].items() if k != left_out}
    scenario, story = completed({**_tables(), "corner": {**LAPWING["corner"], "front": rows}})
    now = scenario.content["corner"]["front"]
    assert list(now) == list(LAPWING["corner"]["front"])
    assert {k: v for k, v in now.items() if k != left_out} == rows
    assert story.counts()["solved"] == 3
    assert story.counts()["in proportion"] == 0
    assert call("CHECK", block(scenario), "mm") == "ok"
    away = np.subtract(now[left_out], LAPWING["corner"]["front"][left_out])
    assert max(map(abs, away)) < 60.0


def _tables():
    return {k: v for k, v in LAPWING.items() if isinstance(v, dict) and k != "corner"}


def test_a_scenario_that_is_whole_is_left_alone():
    mistakes = Mistakes()
    scenario = Scenario(find("scenarios", "lapwing"), mistakes)
    assert begin(scenario, mistakes) is None
    assert scenario.content is scenario.file.content
    assert scenario.sources == {}


def test_a_spring_without_a_rocker_gets_none():
    front = {"Tyre radius": 262, "Rod outer": [0, 440, 170], "Spring frame": [0, 330, 420]}
    scenario, _ = completed(
        {"car": {"wheelbase": 1580, "front_track": 1120}, "corner": {"front": front}}
    )
    rows = scenario.content["corner"]["front"]
    assert "Rocker pivot" not in rows
    assert rows["Rod outer"] == [0, 440, 170]
    assert call("CHECK", block(scenario), "mm").startswith("ok")


def test_names_of_rows_are_taken_as_the_formulas_take_them():
    content = {
        "car": {"wheelbase": 1600, "front_track": 1100},
        "corner": {"front": {"tyre-radius": 250, "TIE ROD INNER": [-70, 200, 190]}},
    }
    scenario, _ = completed(content)
    rows = scenario.content["corner"]["front"]
    assert rows["tyre-radius"] == 250
    assert rows["TIE ROD INNER"] == [-70, 200, 190]
    assert "Tyre radius" not in rows
    assert "Tie rod inner" not in rows
    assert scenario.value("corner.front.Tyre radius", "length", "mm") == 250
    assert missed(scenario) == []


def test_a_row_of_ones_own_may_be_named_nearly_as_a_known_one():
    rows = LAPWING["corner"]["front"].items()
    front = {k: [n / 25.4 for n in v] if isinstance(v, list) else v for k, v in rows}
    front |= {k: front[k] / 25.4 for k in ("Tyre radius", "Crown radius")}
    own = {"Upper ball joint2": [1.5, 18, 15], "Static camber2": -0.25}
    scenario, _ = completed({"corner": {"front": front | own}}, unit="in")
    assert own.items() <= scenario.content["corner"]["front"].items()


def test_sizes_follow_from_a_wheel_centre():
    content = {"corner": {"front": {"Wheel centre": [0, 500, 270], "Static camber": 0}}}
    scenario, story = completed(content)
    assert scenario.content["corner"]["front"]["Tyre radius"] == 270
    assert scenario.content["car"]["front_track"] == 1000
    assert scenario.content["car"]["wheelbase"] == pytest.approx(1580 * 1000 / 1120, abs=0.5)
    assert story.sources["car.front_track"] == "As the wheel centre has it."


# Wishes


def test_an_aim_that_is_given_is_come_to():
    content = {
        "car": {"wheelbase": 1700, "front_track": 1150}, "corner": {"front": {"Tyre radius": 260}},
        "wanted": {"caster": 9.5, "roll_centre": 30},
    }  # fmt: skip
    scenario, _ = completed(content)
    # A wish that is given stands as it is: an aim, and no limits that nobody asked for.
    assert scenario.wish("caster", "angle", "mm") == [None, 9.5, None]
    assert call("CASTER", block(scenario)) == pytest.approx(9.5, abs=0.2)
    assert call("ROLL_CENTRE", block(scenario)) == pytest.approx(30, abs=3)


def test_wishes_in_one_table_are_read_too():
    from cornerbook.book.study.begin.wishes import given_wish

    one = {"wanted": {"trail": {"from": 15, "aim": 22, "to": 30}}}
    two = {"wanted": {"trail": 22}, "target": {"trail": [15, 30]}}
    assert given_wish(one, "trail") == given_wish(two, "trail") == (15, 22, 30)
    assert given_wish({"wanted": {"trail": {"aim": 22}}}, "trail") == (None, 22, None)
    assert given_wish({"first": {"caster": 7}}, "caster") == (None, 7, None)
    assert given_wish({"target": {"trail": ["15", 30]}}, "trail") == (None, None, 30)


def test_a_wish_is_read_in_every_form_as_the_sheet_reads_it():
    """The points are solved for the band that the sheet Wanted shows."""
    from cornerbook.book.study.begin.wishes import given_wish

    car = {"car": {"wheelbase": 1700}, "corner": {"front": {"Tyre radius": 280}}}
    forms = ({"from": 40, "to": 60}, [40, 60], {"from": 40, "aim": 50, "to": 60}, 50)
    for form in forms:
        content = {**car, "wanted": {"trail": form}}
        scenario, _ = completed(content)
        assert list(given_wish(content, "trail")) == scenario.wish("trail", "length", "mm")
        assert 40 <= call("TRAIL", block(scenario)) <= 60, form


def test_every_wish_of_an_inch_scenario_is_in_its_own_units():
    """Also those that place no point: the kinds are those of the rows of the sheet Wanted."""
    kinds = {
        row["wish"]: row["kind"]
        for sheet in TextFile(find("chapters", "wanted")).content["sheet"]
        for table in sheet["block"] if table["kind"] == "wishes" for row in table["rows"]
    }  # fmt: skip
    car = {"wheelbase": 1580, "front_track": 1120}
    inches, _ = completed({"car": {k: v / 25.4 for k, v in car.items()},
                           "corner": {"front": {"Tyre radius": 262 / 25.4}}}, "in")  # fmt: skip
    compared = 0
    for name, wish in LAPWING["wanted"].items():
        for end, number in wish.items():
            ours = inches.content["wanted"][name][end]
            expected = units.converted(number, kinds[name], "mm", "in")
            assert ours == pytest.approx(expected, rel=6e-3, abs=1e-9), (name, end)
            compared += expected != number
    assert compared > 20


def test_a_row_that_fights_a_wish_is_named():
    """A ball joint far inboard: no axis through it has both the inclination and the scrub."""
    content = {
        "car": {"wheelbase": 1700, "front_track": 1100},
        "corner": {"front": {"Tyre radius": 260, "Lower ball joint": [5, 440, 150]}},
    }
    scenario, story = completed(content)
    assert "scrub" in missed(scenario) or "inclination" in missed(scenario)
    assert any('fights the row "Lower ball joint" that is given' in line for line in story.unmet)


def test_wishes_that_fight_are_named_each():
    """So much anti-dive tilts the arms, and a side view that is level is wanted as well."""
    content = {
        "car": {"wheelbase": 1600, "front_track": 1100},
        "corner": {"front": {"Tyre radius": 260}},
        "target": {"anti_dive": [60, 80], "side_angle": [-1, 1]},
    }
    scenario, story = completed(content)
    lost = [name for name in missed(scenario) if name in ("anti_dive", "side_angle")]
    assert len(lost) >= 1
    line = next(line for line in story.unmet if line.startswith(("- Anti-dive", "- Side swing")))
    assert "side swing arm angle" in line.lower()
    assert "anti-dive" in line.lower()


def test_a_scenario_in_inches_is_rounded_in_inches():
    content = {
        "car": {"wheelbase": 66.9, "front_track": 39.4}, "corner": {"front": {"Tyre radius": 11}},
    }  # fmt: skip
    scenario, _ = completed(content, "in")
    metric, _ = completed({
        "car": {"wheelbase": 66.9 * 25.4, "front_track": 39.4 * 25.4},
        "corner": {"front": {"Tyre radius": 11 * 25.4}},
    })  # fmt: skip
    assert call("CHECK", block(scenario), "in") == "ok"
    assert band(scenario, "trail", "in") == pytest.approx(
        [end / 25.4 for end in band(metric, "trail")], rel=6e-3
    )
    for label, place in scenario.content["corner"]["front"].items():
        if label in ("Lower ball joint", "Tie rod outer", "Rod inner"):
            steps = np.array(place) / 0.0005
            assert steps == pytest.approx(np.round(steps), abs=1e-6)
    gain = call("CAMBER_GAIN", block(scenario)) / 25.4
    assert gain == pytest.approx(call("CAMBER_GAIN", block(metric)), rel=0.05)


def test_what_may_be_blank_stays_so_in_a_car_that_is_whole():
    few, _ = completed({"car": {"wheelbase": 1700}})
    assert at(few.content, ("frame", "torsional_stiffness"))[0]
    whole, _ = completed({"car": {"wheelbase": 1700}, "spring": {"tyre_rate": 120}})
    assert not at(whole.content, ("frame", "torsional_stiffness"))[0]
    assert not at(whole.content, ("bar", "outer"))[0]
    assert at(whole.content, ("spring", "bar_motion_ratio"))[0]


def test_the_driver_moves_with_the_car_and_does_not_grow():
    """Along the car all about the hips is as far from them; across it goes by the track."""
    given = {"wheelbase": 1817.0, "front_track": 1232.0}
    scenario, story = completed({"car": given})
    own, theirs = scenario.content["driver"], LAPWING["driver"]
    assert own["hip_x"] == pytest.approx(theirs["hip_x"] * 1817.0 / 1580.0, abs=0.05)
    moved = own["hip_x"] - theirs["hip_x"]
    for name, value in theirs.items():
        if name.endswith("_x"):
            assert own[name] == pytest.approx(value + moved, abs=0.06), name
        elif name.endswith("_z") or name in ("back_angle", "persons", "hold"):
            assert own[name] == value, name
        elif name.endswith("_width") or name == "knee_side":
            assert own[name] == pytest.approx(value * 1.1, rel=5e-3), name
    wheel, was = (s["column"]["Steering wheel"] for s in (scenario.content, LAPWING))
    assert wheel[0] == pytest.approx(was[0] + moved, abs=0.1)
    assert wheel[2] == was[2]
    assert "does not grow" in story.sources["driver.pedal_x"]
    assert story.sources["driver.hip_x"] == "In proportion to the wheelbase."
    # A hip joint that is given takes the others with it.
    scenario, _ = completed({"car": given, "driver": {"hip_x": -1000.0}})
    assert scenario.content["driver"]["heel_x"] == theirs["heel_x"] - 1000.0 - theirs["hip_x"]


@pytest.mark.parametrize(("failed", "solved"), [(0, 1), (3, 4), (MOST_FAILED + 1, 1)])
def test_wishes_are_not_tried_again_from_the_same_nor_all_of_a_car_that_is_none(
    monkeypatch, failed, solved
):
    """A wheel typed far off its track kept one waiting for a minute."""
    names = list(MEASURES)[:failed]
    monkeypatch.setattr("cornerbook.book.study.begin.corner._failed", lambda *_: names)
    task = FakeTask()
    assert solve(task) == (task, "as they are")
    assert FakeTask.times == solved


class FakeTask:
    """A `Task` of which nothing is solved."""

    times = 0
    counts: ClassVar = {}

    def __init__(self):
        FakeTask.times = 0

    def changed(self, **_):
        return self

    def solved(self):
        FakeTask.times += 1
        return "as they are"
