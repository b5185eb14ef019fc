"""The wheels that go into Pyodide: ours, built here, and that of xlwings."""

import functools
import importlib.metadata
import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

from tests.excel.node import NodeMissing
from tests.support.patience import HANGING

ROOT = Path(__file__).parents[2]
CACHE = Path(__file__).parent / ".cache"


class PipFailed(Exception):
    """What pip said when it could not do what was asked."""


def ours(once):
    """The path of this project's wheel, built once in a run as a user's pip would build it.

    By uv where it is at hand and reaches what it needs, in a fifth of the time that pip takes to
    ask the same builder.
    """

    def build():
        with tempfile.TemporaryDirectory() as folder:
            if not _built_by_uv(folder):
                pip("wheel", str(ROOT), "--no-deps", "--wheel-dir", folder)
            (wheel,) = Path(folder).glob("*.whl")
            once.file(wheel.name, wheel.read_bytes)
        return wheel.name.encode()

    return once.folder / once.file("wheel.txt", build).read_text()


def _built_by_uv(folder):
    uv = shutil.which("uv", path=Path(sys.executable).parent)
    if uv is None:
        return False
    command = [uv, "build", "--quiet", "--wheel", "--python", sys.executable, "--out-dir", folder]
    done = subprocess.run([*command, str(ROOT)], capture_output=True, timeout=HANGING)
    return done.returncode == 0


@functools.cache
def xlwings(python, abi):
    """The path of the wheel that xlwings publishes for Pyodide, of the installed version.

    python, abi: of the Pyodide, such as "3.14.2" and "2026_0".
    """
    try:
        version = importlib.metadata.version("xlwings")
    except importlib.metadata.PackageNotFoundError:
        raise NodeMissing("xlwings is not installed") from None
    tag = "".join(python.split(".")[:2])
    kept = CACHE / f"xlwings-{version}-{tag}-{abi}"
    if not kept.is_dir():
        CACHE.mkdir(exist_ok=True)
        with tempfile.TemporaryDirectory(dir=CACHE) as folder:
            try:
                pip(
                    "download", f"xlwings=={version}", "--no-deps", "--only-binary=:all:",
                    "--platform", f"pyemscripten_{abi}_wasm32", "--python-version", tag,
                    "--dest", folder,
                )  # fmt: skip
            except PipFailed as problem:
                raise NodeMissing(
                    f"xlwings {version} for Pyodide could not be downloaded: {problem}"
                ) from problem
            shutil.copytree(folder, kept)
    (wheel,) = kept.glob("*.whl")
    return wheel


def pip(*words):
    """Run pip of this Python, quietly; raises `PipFailed` with what it said."""
    command = [sys.executable, "-m", "pip", "--quiet", "--disable-pip-version-check", *words]
    done = subprocess.run(command, capture_output=True, text=True, timeout=HANGING)
    if done.returncode:
        raise PipFailed(done.stderr.strip()[-500:])


def members(wheel):
    """The names of the files in a wheel."""
    with zipfile.ZipFile(wheel) as archive:
        return archive.namelist()


def read(wheel, name):
    """The text of a file in a wheel's folder of metadata, such as "WHEEL"."""
    with zipfile.ZipFile(wheel) as archive:
        (path,) = [n for n in archive.namelist() if n.endswith(f".dist-info/{name}")]
        return archive.read(path).decode("utf-8")
