#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# complete_fish.sh SCRIPT: what fish offers at the end of a line typed so far.
set -uo pipefail
command -v fish >/dev/null || { echo "SKIPPED: no fish here"; exit 77; }
script=$(realpath "$1")
fish --no-execute "$script" || exit 1
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export HOME=$folder XDG_CONFIG_HOME=$folder/config XDG_DATA_HOME=$folder/data
mkdir "$folder/work"
cd "$folder/work" || exit 1
touch my-yard.toml season.h5
failures=0

# expect LINE WANTED: WANTED holds what must be offered, with "|" between.
expect() {
  local got
  got=$(fish --no-config -c "source '$script'; complete --do-complete '$1'" | cut -f1 | sort | paste -sd '|')
  [ "$got" = "$2" ] && return
  echo "$1: offered '$got', wanted '$2'"
  failures=$((failures + 1))
}

expect 'ovendays sea' 'season'
expect 'ovendays help sea' 'season'
expect 'ovendays season --spr' '--spread|--spread-out|--spread-svg'
expect 'ovendays weather make --se' '--seed'
expect 'ovendays weather --se' ''
expect 'ovendays season --units ' 'C|F'
expect 'ovendays season my' 'my-yard.toml'
expect 'ovendays report s' 'season.h5'
expect 'ovendays report season.h5 --svg cal' 'calendar='
exit $((failures > 0))
