"""The catalogue's examples under a real Python 3.8, with nothing installed."""

import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest
from cornerbook.catalogue import FORMULAS

from tests.calc.examples import raw_arguments
from tests.catalogue.test_check_values import assert_same
from tests.support.patience import HANGING

ADDIN = Path(__file__).parents[2] / "addin"

_RUN = """
import json, sys
from cornerbook.catalogue import call
assert not {"numpy", "pandas", "openpyxl"} & set(sys.modules)
print(json.dumps({name: call(name, *raw) for name, raw in json.load(sys.stdin).items()}))
"""


def _python_3_8():
    """A Python 3.8 that runs, or None."""
    pyenv = Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv"))
    candidates = [*sorted(pyenv.glob("versions/3.8*/bin/python"), reverse=True)]
    if shutil.which("python3.8"):
        candidates.append(Path(shutil.which("python3.8")))
    for candidate in candidates:
        try:
            version = subprocess.run(
                [str(candidate), "-c", "import sys; print(sys.version_info[:2])"],
                capture_output=True, text=True, timeout=HANGING,
            )  # fmt: skip
        except OSError:
            continue
        if version.stdout.strip() == "(3, 8)":
            return candidate
    return None


def test_the_examples_under_python_3_8():
    python = _python_3_8()
    if python is None:
        pytest.skip("no Python 3.8 here (looked in pyenv's versions and for python3.8)")
    # Rows arrive as lists, as they would from another host.
    raw = {name: raw_arguments(formula) for name, formula in FORMULAS.items()}
    run = subprocess.run(
        [str(python), "-S", "-c", _RUN], input=json.dumps(raw), capture_output=True, text=True,
        env={**os.environ, "PYTHONPATH": str(ADDIN), "PYTHONDONTWRITEBYTECODE": "1"},
        timeout=HANGING,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    results = json.loads(run.stdout)
    for name, formula in FORMULAS.items():
        assert_same(_tuples(results[name]), formula.check)


def _tuples(value):
    return tuple(map(_tuples, value)) if isinstance(value, list) else value
