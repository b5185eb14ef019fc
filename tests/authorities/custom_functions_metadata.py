"""What Microsoft says the metadata of Excel's custom functions must be.

Source: Microsoft, "Manually create JSON metadata for custom functions" (Office Add-ins
documentation, dated 2025-10-27): the tables of functions, parameters, results, options and
enums, put into sentences here. The limits on lengths and letters are in the JSON schema of
the app manifest, which `tests/excel/metadata_check.mjs` applies as published; `as_manifest`
says how the one file's spelling differs from the other's. An older schema, published for this
file alone, knows neither `id` nor optional parameters nor the type "any", all of which the
documentation asks for or allows; so it is not used.
"""

import copy

TYPES = {"boolean", "number", "string", "any"}
DIMENSIONS = {"scalar", "matrix"}
TOP = {"allowCustomDataForDataTypeAny", "allowErrorForDataTypeAny", "functions", "enums"}
FUNCTION = {"description", "helpUrl", "id", "name", "options", "parameters", "result"}
PARAMETER = {
    "description", "dimensionality", "name", "type", "cellValueType", "customEnumId",
    "optional", "repeating",
}  # fmt: skip
RESULT = {"dimensionality", "type"}
OPTIONS = {
    "cancelable", "capturesCallingObject", "excludeFromAutoComplete", "linkedEntityLoadService",
    "requiresAddress", "requiresParameterAddresses", "requiresStreamAddress",
    "requiresStreamParameterAddresses", "stream", "volatile",
}  # fmt: skip

TOGETHER = [
    ("stream", "cancelable"),
    ("stream", "requiresAddress"),
    ("stream", "volatile"),
    ("excludeFromAutoComplete", "linkedEntityLoadService"),
]
"""Options of which a function can't use both."""


def mistakes(metadata):
    """Sentences on all that the documentation does not allow; an empty list for good metadata."""
    found = _unknown("the file", metadata, TOP)
    for key in ("allowCustomDataForDataTypeAny", "allowErrorForDataTypeAny"):
        if not isinstance(metadata.get(key, False), bool):
            found.append(f"{key} is not true or false")
    functions = metadata.get("functions")
    if not functions:
        return [*found, "there are no functions"]
    enums = {enum["id"].lower() for enum in metadata.get("enums", [])}
    for key in ("id", "name"):
        seen = [str(function.get(key)).lower() for function in functions]
        found += [f"{key} {one} is given twice" for one in sorted(set(seen)) if seen.count(one) > 1]
    for function in functions:
        found += _in_function(function, enums)
    return found


def _in_function(function, enums):
    about = f"function {function.get('id')}"
    found = _unknown(about, function, FUNCTION)
    for key in ("id", "name", "parameters", "result"):
        if key not in function:
            found.append(f"{about} has no {key}")
    letters = str(function.get("id", "")).replace(".", "").replace("_", "")
    # The page says letters, digits and periods; Microsoft's generator takes "_" too.
    if not (letters.isascii() and letters.isalnum()):
        found.append(f"{about}: an id is made of letters, digits, periods and underscores")
    result = function.get("result", {})
    found += _unknown(f"{about}, result", result, RESULT)
    found += _typed(f"{about}, result", result)
    options = function.get("options", {})
    found += _unknown(f"{about}, options", options, OPTIONS)
    found += [f"{about}: {k} is not true or false" for k, v in options.items() if v not in (0, 1)]
    for one, other in TOGETHER:
        if options.get(one) and options.get(other):
            found.append(f"{about} has both {one} and {other}")
    if options.get("requiresParameterAddresses") and result.get("dimensionality") != "matrix":
        found.append(f"{about}: requiresParameterAddresses needs a result that is a matrix")
    left_out = False
    names = [parameter.get("name") for parameter in function.get("parameters", [])]
    found += [f"{about}: two parameters {n}" for n in sorted(set(names)) if names.count(n) > 1]
    for parameter in function.get("parameters", []):
        here = f"{about}, parameter {parameter.get('name')}"
        found += _unknown(here, parameter, PARAMETER)
        found += _typed(here, parameter)
        if not parameter.get("name"):
            found.append(f"{here}: it has no name")
        if parameter.get("customEnumId", "").lower() not in {"", *enums}:
            found.append(f"{here}: there is no enum {parameter['customEnumId']}")
        optional = parameter.get("optional") or parameter.get("repeating")
        # Not on the page, but in the nature of a call: who leaves one out leaves out the rest.
        if left_out and not optional:
            found.append(f"{here}: a required parameter stands after an optional one")
        left_out = left_out or bool(optional)
    return found


def _unknown(about, given, known):
    return [f"{about}: {key} is not known" for key in sorted(set(given) - known)]


def _typed(about, given):
    found = []
    if given.get("type", "any") not in TYPES:
        found.append(f"{about}: there is no type {given['type']}")
    if given.get("dimensionality", "scalar") not in DIMENSIONS:
        found.append(f"{about}: there is no dimensionality {given['dimensionality']}")
    return found


def as_manifest(metadata):
    """The same functions as the app manifest spells them, for its published JSON schema.

    There the options are fields of the function itself and one of them ends in "Address";
    a result has no type; and that errors may be arguments is not said at all.
    """
    manifest = copy.deepcopy(metadata)
    manifest.pop("allowErrorForDataTypeAny", None)
    for function in manifest["functions"]:
        options = function.pop("options", {})
        if "requiresParameterAddresses" in options:
            options["requiresParameterAddress"] = options.pop("requiresParameterAddresses")
        function.update(options)
        function["result"].pop("type", None)
    return manifest


def as_typescript(metadata):
    """A source that declares the same functions, for Microsoft's generator of metadata.

    Source of its tags: "Custom Functions Metadata Specification", in the generator's package.
    """
    return "\n".join(map(_declaration, metadata["functions"]))


TAGS = {
    "requiresAddress": "@requiresAddress",
    "requiresParameterAddresses": "@requiresParameterAddresses",
    "volatile": "@volatile",
    "excludeFromAutoComplete": "@excludeFromAutoComplete",
}


def _declaration(function):
    lines = [
        function.get("description", ""),
        f"@customfunction {function['id']} {function['name']}",
    ]
    if "helpUrl" in function:
        lines.append(f"@helpurl {function['helpUrl']}")
    written = []
    for parameter in function["parameters"]:
        lines.append(f"@param {parameter['name']} {parameter.get('description', '')}")
        mark = "?" if parameter.get("optional") else ""
        dots = "..." if parameter.get("repeating") else ""
        written.append(f"{dots}{parameter['name']}{mark}: {_type(parameter, dots)}")
    options = {key for key, value in function.get("options", {}).items() if value}
    lines += [TAGS[key] for key in sorted(options)]
    if options & {"requiresAddress", "requiresParameterAddresses"}:
        written.append("invocation: CustomFunctions.Invocation")
    body = "\n".join(f" * {line}" for line in lines)
    name = function["id"].replace(".", "_").lower()
    return (
        f"/**\n{body}\n */\n"
        f"function {name}({', '.join(written)}): {_type(function['result'])} {{ return null; }}\n"
    )


def _type(given, dots=""):
    brackets = "[][]" if given.get("dimensionality") == "matrix" else ""
    return given.get("type", "any") + brackets + ("[]" if dots else "")
