#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Installs what is missing, builds all once with warnings as errors, runs the demo season and all tests.
# Ends with ctest's summary.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
# shellcheck source=src/setup.sh
source "$root/src/setup.sh"
need "${build_packages[@]}" "${test_packages[@]}"
mkdir -p "$root/build"
configure "$root/build/tests" -DOVENDAYS_DEVELOPER=ON
cmake --build "$root/build/tests"
demo_season "$root/build/tests"
# pvlib, an outside library to compare whole years with, in an environment of its own. Where pip cannot
# reach its registry the test that wants it says SKIPPED.
venv=$root/build/tests/venv
if [ ! -x "$venv/bin/python" ] || ! "$venv/bin/python" -c 'import pvlib' 2>/dev/null; then
  { python3 -m venv "$venv" && timeout 180 "$venv/bin/pip" install -q pvlib; } >"$venv.log" 2>&1 ||
    echo "pvlib could not be installed (see $venv.log): the whole-year comparison will be SKIPPED"
fi
cd "$root/build/tests"
ctest --output-on-failure -j "$(nproc)" "$@"
