#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Installs what the build needs (Debian and kin) or says what to install. Sourced by the scripts.
# need PACKAGE...: installs those that are missing.
need() {
  local missing=()
  if ! command -v dpkg-query >/dev/null 2>&1; then
    if [ "${OVENDAYS_DEPS_OK:-}" != 1 ]; then
      echo "This is not a Debian-like system. Install the equivalents of: $*" >&2
      echo "then run again with OVENDAYS_DEPS_OK=1." >&2
      exit 1
    fi
    return 0
  fi
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q '^install ok installed' || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  local as_root=()
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null 2>&1; then
      echo "Missing packages, and no right to install them: ${missing[*]}" >&2
      exit 1
    fi
    as_root=(sudo)
  fi
  echo "Installing: ${missing[*]}"
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -qq
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}

build_packages=(g++ cmake ninja-build pkg-config libhdf5-dev libboost-program-options-dev
                libtomlplusplus-dev libudunits2-dev)
test_packages=(catch2 libsundials-dev python3 python3-h5py python3-numpy python3-venv netcdf-bin hdf5-tools
               chromium)

# Several files of a part are compiled as one, which halves a clean build.
unity=(-DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=16)

# configure FOLDER OPTION...: prepares a build folder.
configure() {
  local folder=$1
  shift
  cmake -S "$root" -B "$folder" -G Ninja -Wno-dev "${unity[@]}" "$@" >"$folder.log" 2>&1 || {
    cat "$folder.log" >&2
    exit 1
  }
}

# demo_season FOLDER: runs the demo season with the program in a build folder, and says where the report is.
demo_season() {
  local out=$root/results/my-demo
  "$1/ovendays" season --demo --out "$out.h5" --csv "$out.csv" --svg "$out.svg" --html "$out.html"
  ln -sf "$(basename "$1")/ovendays" "$root/build/ovendays" 2>/dev/null || true
  echo
  echo "The report: $out.html (open it in a browser)"
}
