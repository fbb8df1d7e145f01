#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Installs what is missing, builds with warnings as errors, runs the demo season and all tests.
# Ends with ctest's summary.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
# shellcheck source=src/setup.sh
source "$root/src/setup.sh"
bash "$root/src/demo.sh"
need "${build_packages[@]}" "${test_packages[@]}"
configure "$root/build/tests" -DOVENDAYS_DEVELOPER=ON
cmake --build "$root/build/tests"
cd "$root/build/tests"
ctest --output-on-failure -j "$(nproc)" "$@"
