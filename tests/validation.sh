#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Holds the model against every published figure of a measured oven: builds what is needed and prints
# the figures, the ratio of each, and the summary. tests/data/README.md says what the ovens are.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
# shellcheck source=src/setup.sh
source "$root/src/setup.sh"
need "${build_packages[@]}" "${test_packages[@]}"
mkdir -p "$root/build"
configure "$root/build/tests" -DOVENDAYS_DEVELOPER=ON
cmake --build "$root/build/tests" --target validation >"$root/build/validation.log" 2>&1 || {
  tail -n 40 "$root/build/validation.log"
  exit 1
}
"$root/build/tests/validation"
