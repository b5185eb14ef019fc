"""Which Python the code may use, and what may import what.

LibreOffice's own Python is 3.8 on some systems and has no packages, so what runs there
keeps to that version and to the standard library.
"""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "addin" / "cornerbook"
COMPONENT = PACKAGE / "hosts" / "calc" / "component.py"

IN_CALC = [
    *sorted((PACKAGE / "geometry").rglob("*.py")),
    *sorted((PACKAGE / "catalogue").rglob("*.py")),
    COMPONENT,
    PACKAGE / "hosts" / "calc" / "names.py",
    PACKAGE / "hosts" / "calc" / "__init__.py",
    PACKAGE / "hosts" / "__init__.py",
    PACKAGE / "__init__.py",
]

FROM_CALC = {"uno", "unohelper", "com"}
"""What LibreOffice brings along, for its component only."""

PARTS = {
    "geometry": {"geometry"},
    "catalogue": {"geometry", "catalogue"},
    "hosts": {"catalogue", "hosts"},
    "book": {"geometry", "catalogue", "book"},
}
"""Which parts of the package a part may import. Modules beside them may import all."""


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


@pytest.mark.parametrize("part", PARTS)
def test_imports_run_one_way(part):
    wrong = []
    for path in (PACKAGE / part).rglob("*.py"):
        for line, module in imports(path):
            inside = module.split(".")[1:] if module.startswith("cornerbook.") else []
            # The package's own version is anyone's to read.
            if inside and inside[0] not in {*PARTS[part], "__version__"}:
                wrong.append(f"{_name(path)}, line {line}: {module}")
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


def test_every_part_is_known():
    found = {path.name for path in PACKAGE.iterdir() if (path / "__init__.py").exists()}
    assert found == set(PARTS), "say in PARTS what a new part may import"


def test_relative_imports_are_resolved():
    """The reading of imports itself: the component's own are among those found."""
    found = {module for _, module in imports(COMPONENT)}
    assert "cornerbook.catalogue.FORMULAS" in found
    assert "uno" in found
    axis = {module for _, module in imports(PACKAGE / "geometry" / "axis.py")}
    assert "cornerbook.geometry.vec.Vec" in axis
