"""Our wheel in Pyodide, the Python in which xlwings runs formulas inside Excel.

The wheel is built as pip builds it, held to be pure, and run in the real Pyodide under Node.
Its results are held to those of the Python that runs this test. Where packages come from
here there is no NumPy for Pyodide, so only what the formulas need runs there; that this needs
no NumPy is part of what is tested.
"""

import importlib.metadata
import math

import pytest
from cornerbook.catalogue import FORMULAS, call
from packaging.requirements import Requirement

from tests.excel import pyodide, wheels
from tests.excel.asked import calls
from tests.excel.node import or_skip

NEAR = 1e-12
"""How far Pyodide's mathematical library may take a result, as a part of it."""


def as_json_gives(value):
    """A result after the way through JSON: tuples as lists."""
    return [as_json_gives(one) for one in value] if isinstance(value, tuple) else value


def assert_same(value, expected, about):
    """Numbers to NEAR, everything else as it is."""
    if isinstance(expected, list):
        assert isinstance(value, list) and len(value) == len(expected), about
        for one, other in zip(value, expected, strict=True):
            assert_same(one, other, about)
    elif isinstance(expected, float):
        assert isinstance(value, float), (about, value)
        assert math.isclose(value, expected, rel_tol=NEAR, abs_tol=NEAR), (about, value, expected)
    else:
        assert value == expected, about


@pytest.fixture(scope="module")
def wheel(once):
    """Our wheel, built afresh in each run."""
    return wheels.ours(once)


@pytest.fixture(scope="module")
def lock():
    """What the installed Pyodide says of itself and of the packages built for it."""
    return or_skip(pyodide.lock)


@pytest.fixture(scope="module")
def ran(once, lock):
    """What `run_catalogue.py` told from inside Pyodide, with our wheel alone."""
    return pyodide.catalogue_told(once)


class TestWheel:
    def test_it_is_for_every_system(self, wheel):
        assert wheel.name.endswith("-py3-none-any.whl")
        lines = wheels.read(wheel, "WHEEL").splitlines()
        assert "Root-Is-Purelib: true" in lines and "Tag: py3-none-any" in lines

    def test_nothing_in_it_is_compiled(self, wheel):
        compiled = (".so", ".pyd", ".dll", ".dylib", ".a", ".o", ".pyc", ".wasm", ".exe")
        assert not [name for name in wheels.members(wheel) if name.lower().endswith(compiled)]

    def test_it_carries_the_package_and_what_is_read_at_run_time(self, wheel):
        carried = set(wheels.members(wheel))
        package = wheels.ROOT / "addin" / "cornerbook"
        expected = {
            f"cornerbook/{p.relative_to(package).as_posix()}" for p in package.rglob("*.py")
        }
        for folder, pattern in (
            ("templates", "*.toml"),
            ("chapters", "*.toml"),
            ("scenarios", "*.toml"),
            ("pictures", "*"),
        ):
            found_there = list((wheels.ROOT / "workbooks" / folder).glob(pattern))
            assert found_there, folder
            expected |= {f"cornerbook/workbooks/{folder}/{p.name}" for p in found_there}
        assert expected <= carried, sorted(expected - carried)

    def test_nothing_else_is_in_it(self, wheel):
        tops = {name.split("/")[0] for name in wheels.members(wheel)}
        assert {top for top in tops if not top.endswith(".dist-info")} == {"cornerbook"}

    def test_what_it_asks_for_can_be_had_in_pyodide(self, wheel, lock):
        """In the set that Pyodide is published with, or as a pure wheel that runs anywhere."""
        asked = [
            Requirement(line.partition(":")[2].strip())
            for line in wheels.read(wheel, "METADATA").splitlines()
            if line.startswith("Requires-Dist:")
        ]
        version = ".".join(lock["info"]["python"].split(".")[:2])
        there = {"python_version": version, "extra": "", "sys_platform": "emscripten"}
        asked = [one for one in asked if one.marker is None or one.marker.evaluate(there)]
        assert {one.name for one in asked} >= {"numpy", "openpyxl"}  # the reading above works
        for one in asked:
            built = lock["packages"].get(one.name.lower())
            if built is not None:
                assert one.specifier.contains(built["version"]), (one.name, built["version"])
                continue
            tags = importlib.metadata.distribution(one.name).read_text("WHEEL") or ""
            assert "Tag: py3-none-any" in tags, f"{one.name} is not pure and not in Pyodide"


class TestCatalogueInPyodide:
    def test_it_is_pyodide(self, ran, lock):
        assert ran["platform"] == "emscripten"
        assert ran["python"].startswith(lock["info"]["python"])

    def test_every_result_is_that_of_other_pythons(self, ran):
        asked = calls()
        assert len(ran["results"]) == len(asked) > 5 * len(FORMULAS)
        for (name, *raw), value in zip(asked, ran["results"], strict=True):
            assert_same(value, as_json_gives(call(name, *raw)), (name, raw[1:]))

    def test_every_example_gives_its_check_value(self, ran):
        for (name, formula), value in zip(FORMULAS.items(), ran["results"], strict=False):
            expected = as_json_gives(formula.check)
            if isinstance(expected, float):
                assert value == pytest.approx(expected, rel=1e-9, abs=1e-12), name
            elif isinstance(expected, str):
                assert value == expected, name
            else:
                for row, other in zip(value, expected, strict=True):
                    for cell, wanted in zip(row, other, strict=True):
                        number = isinstance(wanted, float)
                        assert cell == (pytest.approx(wanted, 1e-9) if number else wanted), name

    def test_imports_need_the_standard_library_alone(self, ran):
        for stage in ("package", "catalogue"):
            loaded = ran[stage][1]
            assert loaded, stage
            strangers = {name.split(".")[0] for name in loaded} - set(ran["standard"])
            assert strangers <= {"cornerbook"}, (stage, strangers)

    def test_importing_the_package_loads_no_part_of_it(self, ran):
        assert ran["package"][1] == ["cornerbook"]

    def test_it_is_quick_enough_for_a_sheet(self, ran):
        """In calls, which no busy machine changes: 20 000 for the import, done in 60 ms, and 423
        for a cell, done in 70 us, were measured."""
        assert 1_000 < ran["package"][0] + ran["catalogue"][0] < 100_000
        assert 100 < min(ran["camber_calls"]) <= max(ran["camber_calls"]) < 2_000


def test_a_wrong_result_would_be_seen():
    with pytest.raises(AssertionError):
        assert_same(1.0, 1.0 + 1e-11, "")
    with pytest.raises(AssertionError):
        assert_same([["x", 1.0]], [["x", 1.0 + 1e-11]], "")
    with pytest.raises(AssertionError):
        assert_same(None, 1.0, "")
