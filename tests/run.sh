#!/usr/bin/env bash
# Runs every test, after setting up what they need:
#   a virtual environment in .venv-test with this package and the test packages;
#   LibreOffice Calc with its Python part, through the system's package manager, where they
#   are missing and this user may install them (else a sentence says what to install), and
#   likewise Node.js, which runs the formulas in the runtime that Excel has for them, and
#   Gnumeric, which computes copies without the add-in.
# Arguments go to pytest: bash tests/run.sh -k calc
set -eu
cd "$(dirname "$0")/.."

has_calc() {
    command -v soffice >/dev/null 2>&1 && command -v unopkg >/dev/null 2>&1 || return 1
    for one in /usr/bin/python3 "$(dirname "$(readlink -f "$(command -v soffice)")")/python"; do
        if [ -x "$one" ] && "$one" -c 'import uno' >/dev/null 2>&1; then return 0; fi
    done
    return 1
}

has_node() {
    command -v node >/dev/null 2>&1 && command -v npm >/dev/null 2>&1
}

has_gnumeric() {
    command -v ssconvert >/dev/null 2>&1
}

as_root() {
    if [ "$(id -u)" = 0 ]; then "$@"
    elif command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then sudo "$@"
    else return 1
    fi
}

# Each with a command of its own: one that the system does not have keeps no other away.
install_missing_programs() {
    if command -v apt-get >/dev/null 2>&1; then
        get="as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends"
        as_root apt-get update -qq || return 0
        has_calc || $get libreoffice-calc python3-uno || true
        has_node || $get nodejs npm || true
        has_gnumeric || $get gnumeric || true
    elif command -v dnf >/dev/null 2>&1; then
        has_calc || as_root dnf install -y -q libreoffice-calc libreoffice-pyuno || true
        has_node || as_root dnf install -y -q nodejs npm || true
        has_gnumeric || as_root dnf install -y -q gnumeric || true
    fi
}

# Says of a program that is still missing how to install it.
# $1: its name; $2: its packages with apt; $3: what is done without it; $4: not empty if the tests
# must have it.
missing() {
    echo "$1 could not be installed. Install it"
    echo "(Debian, Ubuntu, Mint: sudo apt install $2) and run this again."
    if [ -n "$4" ]; then exit 1; fi
    echo "$3"
}

# The system's programs come beside what Python needs: each takes one processor for half a minute.
if ! { has_calc && has_node && has_gnumeric; }; then
    echo "Of Calc (with its Python part), Node.js (with npm) and Gnumeric something is missing;"
    echo "trying to install it ..."
    install_missing_programs </dev/null >/dev/null &
    trap wait EXIT
fi

# Of two of one version the system's own comes first: it is built with more care for speed than
# most others (here it took 0.94 of the time).
python=""
for candidate in "${PYTHON:-}" /usr/bin/python3.13 python3.13 /usr/bin/python3.12 python3.12 \
    /usr/bin/python3.11 python3.11 /usr/bin/python3.10 python3.10 python3 python; do
    if [ -n "$candidate" ] && command -v "$candidate" >/dev/null 2>&1 &&
        "$candidate" -c 'import sys, venv, ensurepip; sys.exit(sys.version_info < (3, 10))' \
            >/dev/null 2>&1; then
        python="$candidate"
        break
    fi
done
if [ -z "$python" ]; then
    echo "Python 3.10 or newer with the module venv is needed" >&2
    echo "(Debian, Ubuntu, Mint: sudo apt install python3-venv)." >&2
    exit 1
fi
if [ ! -x .venv-test/bin/python ]; then
    "$python" -m venv .venv-test
fi
# uv installs side by side what pip installs one after another. It does not read how pip was told
# to reach its packages: where that matters, pip does it. Without --no-compile pip would compile
# every file of every package, and most are never imported.
pip=".venv-test/bin/python -m pip install --quiet --disable-pip-version-check --no-compile"
install() {
    if [ -x .venv-test/bin/uv ] &&
        .venv-test/bin/uv pip install --quiet --python .venv-test/bin/python "$@"; then return; fi
    $pip "$@"
}
$pip uv || echo "uv could not be installed; pip installs the rest, which takes longer."
# IronCalc computes copies too; there is no wheel of it for every machine.
if ! install --only-binary ironcalc --editable '.[test,programs]'; then
    install --editable '.[test]'
    echo "IronCalc (the package ironcalc) could not be installed."
    if [ -n "${CORNERBOOK_NEEDS_IRONCALC:-}" ]; then exit 1; fi
    echo "The tests that need IronCalc are skipped."
fi

.venv-test/bin/ruff check .
.venv-test/bin/ruff format --check .
# Tests start many a Python: each would compile every file anew.
unset PYTHONDONTWRITEBYTECODE
# While mypy has one processor, another compiles what the tests import; else each test process would.
.venv-test/bin/python -m pytest --collect-only -q >/dev/null 2>&1 &
.venv-test/bin/mypy
wait

has_calc || missing "LibreOffice Calc with its Python part" "libreoffice-calc python3-uno" \
    "The tests that need Calc are skipped." "${CORNERBOOK_NEEDS_CALC:-}"
has_node || missing "Node.js, version 18 or newer, with npm," "nodejs npm" \
    "The tests that need Node.js are skipped." "${CORNERBOOK_NEEDS_NODE:-}"
has_gnumeric || missing "Gnumeric" "gnumeric" \
    "The tests that need Gnumeric are skipped." "${CORNERBOOK_NEEDS_GNUMERIC:-}"

# As many test processes as processors, each with a Calc of its own; more than eight would
# only wait for each other.
.venv-test/bin/python -m pytest --numprocesses logical --maxprocesses 8 --dist worksteal "$@"
