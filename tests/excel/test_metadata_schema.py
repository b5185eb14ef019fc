"""The custom functions that Excel is told of, held to what Microsoft publishes.

Three outside authorities: the JSON schema of the app manifest and the generator of such
metadata, both Microsoft's own npm packages, and Microsoft's page on the file.
"""

import copy

import pytest
from cornerbook.catalogue import FORMULAS

from tests.authorities.custom_functions_metadata import as_manifest, as_typescript, mistakes
from tests.excel.metadata import metadata
from tests.excel.node import found, or_skip, run

SCHEMA = "v1.30"
"""The newest numbered manifest schema in the installed package."""


@pytest.fixture(scope="module")
def ours():
    """The metadata of the whole catalogue."""
    return metadata()


@pytest.fixture(scope="module")
def verdicts(ours):
    """{what is broken, or None: what Microsoft's packages say of it}"""
    or_skip(found)
    broken = {what: copy.deepcopy(ours) for what in BY_SCHEMA}
    for what, given in broken.items():
        BY_SCHEMA[what](given)
    cases = {None: ours, **broken}
    told = run("metadata_check.mjs", {"version": SCHEMA, "cases": [
        {"manifest": as_manifest(one), "source": as_typescript(one) if what in GENERATED else None}
        for what, one in cases.items()
    ]})  # fmt: skip
    return dict(zip(cases, told, strict=True))


@pytest.fixture(scope="module")
def verdict(verdicts):
    """What they say of the metadata as it is."""
    return verdicts[None]


def test_the_documentation_allows_it(ours):
    assert mistakes(ours) == []


def test_the_published_schema_allows_it(verdict):
    assert verdict["schema"] == []


def test_the_generator_has_no_complaint(verdict):
    assert verdict["generator"] == []


def test_the_generator_would_have_written_the_same(ours, verdict):
    generated = {function["id"]: function for function in verdict["generated"]["functions"]}
    assert list(generated) == [function["id"] for function in ours["functions"]]
    for function in ours["functions"]:
        assert with_defaults(generated[function["id"]]) == with_defaults(function)


def with_defaults(function):
    """A function with what is assumed where nothing is said; both spellings are valid."""
    function = copy.deepcopy(function)
    for typed in (function["result"], *function["parameters"]):
        typed.setdefault("type", "any")
        typed.setdefault("dimensionality", "scalar")
    for parameter in function["parameters"]:
        for key in ("optional", "repeating"):
            if not parameter.get(key):
                parameter.pop(key, None)
        # The generator's note on how it read the source's type.
        parameter.pop("cellValueType", None)
    function["options"] = {k: v for k, v in function.get("options", {}).items() if v}
    return function


def test_it_declares_the_catalogue_and_nothing_else(ours):
    declared = {function["name"]: function for function in ours["functions"]}
    assert set(declared) == {f"CORNER.{name}" for name in FORMULAS}
    for name, formula in FORMULAS.items():
        function = declared[f"CORNER.{name}"]
        assert function["description"].startswith(formula.help), name
        assert len(function["parameters"]) == len(formula.arguments), name
        for parameter, argument in zip(function["parameters"], formula.arguments, strict=True):
            # A word that Python keeps for itself has an ending: from_value for from.
            assert parameter["name"] in (argument.name, argument.name + "_value"), name
            assert argument.help in parameter["description"], (name, argument.name)
            assert bool(parameter.get("optional")) == (not argument.required), (name, argument.name)


def _put(where, key, value):
    def change(given):
        at = given
        for step in where:
            at = at[step]
        at[key] = value

    return change


BAD_NAME = "a name that starts with a digit"
GENERATED = (None, BAD_NAME)
"""Of which the generator is asked too, which takes half a second for each."""

BY_SCHEMA = {
    "a name with a space": _put(["functions", 0], "name", "CORNER. X"),
    BAD_NAME: _put(["functions", 0], "name", "9CORNER"),
    "a name too long": _put(["functions", 0], "name", "CORNER." + 60 * "X"),
    "a name too short": _put(["functions", 0], "name", "AT"),
    "a description too long": _put(["functions", 0], "description", 1025 * "x"),
    "an empty help": _put(["functions", 0, "parameters", 0], "description", ""),
    "a parameter's help too long": _put(
        ["functions", 0, "parameters", 0], "description", 513 * "x"
    ),
    "a third dimension": _put(["functions", 0, "result"], "dimensionality", "cube"),
    "an unknown field": _put(["functions", 0], "colour", "red"),
}


@pytest.mark.parametrize("what", BY_SCHEMA)
def test_the_published_schema_sees(what, verdicts):
    assert verdicts[what]["schema"]


def test_the_generator_sees_a_bad_name(verdicts):
    assert verdicts[BAD_NAME]["generator"]


BY_PAGE = {
    "no id": lambda given: given["functions"][0].pop("id"),
    "the same id twice": lambda given: given["functions"].append(given["functions"][0]),
    "an unknown type": _put(["functions", 0, "parameters", 0], "type", "date"),
    "an unknown option": _put(["functions", 0, "options"], "fast", True),
    "two options at odds": _put(["functions", 0, "options"], "stream", True),
    "addresses with one value": _put(["functions", 0, "result"], "dimensionality", "scalar"),
    "required after optional": _put(["functions", 0, "parameters", 0], "optional", True),
    "an unknown enum": _put(["functions", 0, "parameters", 0], "customEnumId", "NONE"),
}


@pytest.mark.parametrize("what", BY_PAGE)
def test_the_documentation_sees(what):
    given = {
        "allowErrorForDataTypeAny": True,
        "functions": [
            {
                "id": "ADD",
                "name": "CORNER.ADD",
                "options": {"requiresAddress": True, "requiresParameterAddresses": True},
                "parameters": [
                    {"name": "first", "type": "any", "dimensionality": "matrix"},
                    {"name": "second", "type": "any", "dimensionality": "matrix"},
                ],
                "result": {"type": "any", "dimensionality": "matrix"},
            }
        ],
    }
    assert mistakes(given) == []
    BY_PAGE[what](given)
    assert mistakes(given), what
