"""Node.js for the tests that run what Excel's side is made of: Pyodide, Microsoft's schema.

The npm packages are those of `package.json` beside this file, at the versions of its lock
file, in `node_modules` beside it, which git ignores. None of them is shipped.
"""

import functools
import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.support.patience import HANGING

HERE = Path(__file__).parent
NEEDED = "CORNERBOOK_NEEDS_NODE"
"""Set in the environment, it turns a skip for want of Node or a download into a failure."""

OLDEST = 18
"""The oldest Node that the package pyodide says it runs on."""


class NodeMissing(Exception):
    """Node, npm, or a package of theirs is not to be had here; says what to do."""


def run(script, job):
    """What a script beside this file answers to a job; both are JSON.

    A script reads its job from standard input and writes its answer to standard output.
    """
    command = [found(), str(HERE / script)]
    done = subprocess.run(
        command, input=json.dumps(job), capture_output=True, text=True, timeout=HANGING, cwd=HERE
    )
    if done.returncode:
        raise AssertionError(f"{script} failed:\n{done.stderr[-4000:]}")
    return json.loads(done.stdout)


def or_skip(needs):
    """What `needs()` gives; skips the test if something is missing, unless it is required."""
    try:
        return needs()
    except NodeMissing as problem:
        if os.environ.get(NEEDED):
            pytest.fail(str(problem))
        pytest.skip(str(problem))


@functools.cache
def found():
    """The path of Node, with our npm packages in place."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if node is None or npm is None:
        raise NodeMissing(
            "Node.js or npm is missing (Debian, Ubuntu, Mint: sudo apt install nodejs npm)"
        )
    told = subprocess.run([node, "--version"], capture_output=True, text=True).stdout.strip()
    if int(told.lstrip("v").split(".")[0]) < OLDEST:
        raise NodeMissing(f"Node.js {told} is too old; {OLDEST} or newer is needed")
    if not _in_place():
        _install(npm)
    return node


def _in_place():
    """Whether `node_modules` holds what the lock file names."""
    kept = HERE / "node_modules" / ".package-lock.json"
    if not kept.is_file():
        return False
    wanted = json.loads((HERE / "package-lock.json").read_text(encoding="utf-8"))["packages"]
    present = json.loads(kept.read_text(encoding="utf-8"))["packages"]
    return all(
        present.get(name, {}).get("version") == package["version"]
        for name, package in wanted.items()
        if name and not package.get("optional")
    )


def _install(npm):
    # The packages' own scripts are not run: none of what is used here needs them.
    command = [npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"]
    done = subprocess.run(command, cwd=HERE, capture_output=True, text=True, timeout=HANGING)
    if done.returncode:
        raise NodeMissing(f"the npm packages could not be installed: {done.stderr.strip()[-500:]}")
