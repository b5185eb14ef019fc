"""Which Python the code may use, and what may import what.

LibreOffice's own Python is 3.8 on some systems and has no packages, so what runs there
keeps to that version and to the standard library.
"""

import ast
import functools
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "addin" / "cornerbook"
COMPONENT = PACKAGE / "hosts" / "calc" / "component.py"

IN_CALC = [
    *sorted((PACKAGE / "geometry").rglob("*.py")),
    *sorted((PACKAGE / "cells").rglob("*.py")),
    *sorted((PACKAGE / "catalogue").rglob("*.py")),
    COMPONENT,
    PACKAGE / "hosts" / "calc" / "names.py",
    PACKAGE / "hosts" / "calc" / "__init__.py",
    PACKAGE / "hosts" / "__init__.py",
    PACKAGE / "__init__.py",
]

FROM_CALC = {"uno", "unohelper", "com"}
"""What LibreOffice brings along, for its component only."""

WINGS = {
    "geometry": (),
    "cells": ("geometry",),
    "catalogue": ("cells", "geometry"),
    "hosts": ("catalogue", "cells"),
    "book.file": (),
    "book.formula": ("book.file", "catalogue", "cells"),
    "book.make": ("book.formula", "book.file", "catalogue", "cells"),
    "book.plain": ("book.formula", "book.file", "catalogue", "cells", "geometry"),
    "book.study": ("book.formula", "book.make", "book.file", "catalogue", "cells", "geometry"),
    "book.picture": ("book.formula", "book.file", "catalogue", "cells", "geometry"),
    "book.points": ("book.study", "book.formula", "book.make", "book.file", "catalogue",
                    "cells", "geometry"),
    "any_array": ("geometry",),
    "front": ("any_array", "book.points", "book.formula", "book.file", "catalogue", "cells"),
    "scripts": ("front", "book.plain", "book.file", "hosts", "catalogue", "cells"),
    "commands": ("scripts", "book.points", "book.picture", "book.study", "book.plain",
                 "book.make", "book.formula", "book.file", "hosts"),
}  # fmt: skip
"""Each wing of the package (any_array, front and scripts are single files), and the wings that it
may import besides itself. They stand in an order in which each imports only from wings above it."""

INNER = {
    "geometry": (
        "numbers", "vec", "corner", "front_axle", "springing", "placing", "steering", "forces",
        "car", "driver", "set_up",
    ),
    "catalogue": (
        "corner", "front_axle", "springing", "placing", "steering", "forces", "car", "driver",
        "set_up", "study",
    ),
    "book.make": (
        "texts", "sheet", "formulas", "kinds", "templates", "written", "page", "asked", "build",
        "new",
    ),
}  # fmt: skip
"""The rooms of a wing, in an order in which each imports only from those before it."""


def _name(path):
    return str(path.relative_to(PACKAGE))


def imports(path):
    """(line, module in full) for each import of a file, relative ones resolved."""
    package = ("cornerbook", *path.relative_to(PACKAGE).parent.parts)
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield node.lineno, alias.name
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(package[: len(package) + 1 - node.level]) if node.level else ""
            module = ".".join(filter(None, [base, node.module]))
            # `from . import name` may bring a module of that name.
            for alias in node.names:
                yield node.lineno, f"{module}.{alias.name}"


@pytest.mark.parametrize("path", IN_CALC, ids=_name)
def test_syntax_is_that_of_python_3_8(path):
    ast.parse(path.read_text(encoding="utf-8"), feature_version=(3, 8))


def _vermin(*paths):
    """Run vermin for Python 3.8 and later; its exit code and what it says."""
    pytest.importorskip("vermin", reason="vermin is not installed")
    run = subprocess.run(
        [sys.executable, "-c", "import vermin; vermin.main()", "-t=3.8-", "--violations",
         "--no-tips", *map(str, paths)],
        capture_output=True, text=True,
    )  # fmt: skip
    return run.returncode, run.stdout + run.stderr


def test_nothing_is_newer_than_python_3_8():
    code, said = _vermin(*IN_CALC)
    assert code == 0, said
    assert "Minimum required versions" in said


def test_vermin_sees_what_is_newer(tmp_path):
    newer = tmp_path / "newer.py"
    newer.write_text("print('ab'.removeprefix('a'))\n", encoding="utf-8")
    code, said = _vermin(newer)
    assert code != 0
    assert "removeprefix" in said


@pytest.mark.parametrize("path", IN_CALC, ids=_name)
def test_only_the_standard_library_is_imported(path):
    allowed = set(sys.stdlib_module_names) | {"cornerbook"}
    if path == COMPONENT:
        allowed |= FROM_CALC
    wrong = [f"line {n}: {m}" for n, m in imports(path) if m.split(".")[0] not in allowed]
    assert not wrong, wrong


def wing_of(module):
    """The wing of a module named without "cornerbook."; None for the package's own modules."""
    found = [wing for wing in WINGS if module == wing or module.startswith(wing + ".")]
    return found[0] if found else None


@functools.cache
def modules():
    """{module: the modules of the package that it imports}, without the package's own name."""
    files = {}
    for path in PACKAGE.rglob("*.py"):
        parts = path.relative_to(PACKAGE).with_suffix("").parts
        files[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    found = {}
    for module, path in files.items():
        found[module] = set()
        for _, imported in imports(path):
            if not imported.startswith("cornerbook."):
                continue
            inside = imported[len("cornerbook.") :]
            # The longest beginning that is a file: `book.file.save.hold_free` is of book.file.save.
            while inside and inside not in files:
                inside = inside.rpartition(".")[0]
            if inside and inside != module:
                found[module].add(inside)
    return found


@pytest.mark.parametrize("wing", WINGS)
def test_imports_run_one_way(wing):
    wrong = [
        f"{module} imports {imported}"
        for module, found in modules().items()
        if wing_of(module) == wing
        for imported in found
        if wing_of(imported) not in {wing, *WINGS[wing]}
    ]
    assert not wrong, wrong


def test_wings_stand_in_order():
    """What a wing may import stands above it, so no wings go in a circle."""
    order = list(WINGS)
    for wing, below in WINGS.items():
        assert all(order.index(each) < order.index(wing) for each in below), wing


@pytest.mark.parametrize("wing", INNER)
def test_rooms_of_a_wing_stand_in_order(wing):
    """The wing's own `__init__` alone brings all of them together."""

    def room(module):
        inside = module.startswith(wing + ".")
        return module[len(wing) + 1 :].split(".")[0] if inside else None

    order = INNER[wing]
    within = {module: found for module, found in modules().items() if room(module)}
    assert {room(module) for module in within} == set(order)
    wrong = [
        f"{module} imports {imported}"
        for module, found in within.items()
        for imported in found
        if imported == wing
        or (room(imported) and order.index(room(imported)) > order.index(room(module)))
    ]
    assert not wrong, wrong


def test_no_files_import_each_other():
    """Neither at their head nor inside a function, by whatever way round."""
    known = modules()
    state = {}

    def visit(module, way):
        assert state.get(module) != "open", " -> ".join([*way[way.index(module) :], module])
        if module not in state:
            state[module] = "open"
            for imported in sorted(known[module]):
                visit(imported, [*way, module])
            state[module] = "done"

    # `cornerbook/__init__.py` offers the front and the catalogue when asked; they read its version.
    known.pop("")
    for module in known:
        known[module].discard("")
        visit(module, [])


def test_no_name_repeats_its_folder():
    """A file's folder has said already what its name need not say again."""
    wrong = [
        _name(path)
        for path in PACKAGE.rglob("*.py")
        if path.parent != PACKAGE and path.stem.startswith(path.parent.name)
    ]
    assert not wrong, wrong


def test_geometry_imports_math_alone():
    """It names no kind of number but the float: arrays and others bring their own functions."""
    modules = {
        module
        for path in (PACKAGE / "geometry").rglob("*.py")
        for _, module in imports(path)
        if not module.startswith("cornerbook.")
    }
    assert modules == {"math"}


def test_every_wing_is_known():
    # The command itself, and what starts it, stand on top of all.
    strange = [
        m for m in modules() if wing_of(m) is None and m not in ("", "book", "cli", "__main__")
    ]
    assert not strange, f"say in WINGS what a new wing may import: {strange}"


def test_relative_imports_are_resolved():
    """The reading of imports itself: the component's own are among those found."""
    found = {module for _, module in imports(COMPONENT)}
    assert "cornerbook.catalogue.FORMULAS" in found
    assert "uno" in found
    axis = {module for _, module in imports(PACKAGE / "geometry" / "corner" / "axis.py")}
    assert "cornerbook.geometry.vec.Vec" in axis
