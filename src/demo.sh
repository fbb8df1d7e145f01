#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Installs what is missing, builds, runs the demo season and says where the report is.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
# shellcheck source=src/setup.sh
source "$root/src/setup.sh"
need "${build_packages[@]}"
mkdir -p "$root/build"
configure "$root/build/demo" -DOVENDAYS_TESTS=OFF
cmake --build "$root/build/demo" --target ovendays
out=$root/results/my-demo
"$root/build/demo/ovendays" season --demo --out "$out.h5" --csv "$out.csv" --svg "$out.svg" --html "$out.html"
ln -sf demo/ovendays "$root/build/ovendays" 2>/dev/null || true
echo
echo "The report: $out.html (open it in a browser)"
