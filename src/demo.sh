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
demo_season "$root/build/demo"
