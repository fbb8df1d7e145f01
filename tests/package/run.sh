#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Makes the Debian packages, holds them against lintian, unpacks them and runs what is inside, and installs the build
# into a folder of its own to build the example against it.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
# shellcheck source=src/setup.sh
source "$root/src/setup.sh"
need "${build_packages[@]}" dpkg-dev fakeroot lintian file man-db
build=$root/build/deb
mkdir -p "$root/build"
configure "$build" -DOVENDAYS_TESTS=OFF -DCMAKE_INSTALL_PREFIX=/usr
rm -f "$build"/*.deb
cmake --build "$build" --target package >"$build.log" 2>&1 || { tail -n 40 "$build.log"; exit 1; }
packages=("$build"/ovendays_*.deb "$build"/libovendays-dev_*.deb)
for package in "${packages[@]}"; do
  [ -s "$package" ] || { echo "no package $package"; exit 1; }
done
lintian --allow-root --fail-on error "${packages[@]}"

place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
for package in "${packages[@]}"; do dpkg-deb --extract "$package" "$place/root"; done
program=$place/root/usr/bin/ovendays
mkdir "$place/anywhere"
(cd "$place/anywhere" && "$program" season --demo --no-causes --quiet && [ -s demo-season.h5 ])
# CMake and the changelog must name one version.
version=$(dpkg-parsechangelog -l "$root/src/package/debian/changelog" -S Version)
[ "$("$program" --version | head -n 1 | cut -d ' ' -f 2)" = "${version%-*}" ] || {
  echo "the newest entry of debian/changelog is $version, the program is $("$program" --version | head -n 1)"
  exit 1
}
MANPATH=$place/root/usr/share/man man -w ovendays-season >/dev/null || { echo "man does not find ovendays-season"; exit 1; }

bash "$root/tests/package/install_and_use.sh" "$build"
echo "Packages: ${packages[*]}"
