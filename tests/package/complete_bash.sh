#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# complete_bash.sh SCRIPT: what bash offers at the end of a line typed so far.
set -uo pipefail
script=$(realpath "$1")
bash -n "$script" || exit 1
# shellcheck source=/dev/null
source "$script"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
touch my-yard.toml "two words.toml" season.h5 year.epw
mkdir plots
failures=0

# offered WORD...: the words of the line; the last is the one being completed. Sorted, one a line.
offered() {
  COMP_WORDS=("$@")
  COMP_CWORD=$(($# - 1))
  COMP_LINE="$*"
  COMP_POINT=${#COMP_LINE}
  COMPREPLY=()
  _ovendays
  printf '%s\n' "${COMPREPLY[@]}" | sort
}

# expect WHAT WORD...: WHAT holds what must be offered, with "|" between.
expect() {
  local wanted=$1 got
  shift
  got=$(offered "$@" | paste -sd '|')
  [ "$got" = "$wanted" ] && return
  echo "ovendays ${*:2}: offered '$got', wanted '$wanted'"
  failures=$((failures + 1))
}

complete -p ovendays >/dev/null || failures=1
expect 'season' ovendays sea
expect 'weather' ovendays we
expect '--help|--version' ovendays --
expect 'season' ovendays help sea
expect '--spread|--spread-out|--spread-svg' ovendays season --spr
expect '--seed' ovendays weather make --se
expect '' ovendays weather --se
expect 'C|F' ovendays season my-yard.toml --units ''
expect 'F' ovendays season --units F
# Readline cuts at "=".
expect 'C|F' ovendays season --units =
expect 'F' ovendays season --units = F
expect 'my-yard.toml|plots|two words.toml' ovendays season ''
expect 'plots|season.h5' ovendays report ''
expect 'make' ovendays weather ma
expect 'my-yard.toml|plots|season.h5|two words.toml' ovendays wait ''
expect 'season.h5' ovendays season --out s
expect 'year.epw' ovendays season --weather y
expect 'plots' ovendays report season.h5 --pictures ''
expect 'calendar=' ovendays report season.h5 --svg cal
expect 'season.h5' ovendays report season.h5 --svg calendar = sea
expect 'season.h5' ovendays report season.h5 --svg = calendar = sea
expect '' ovendays season --threads ''
expect '' ovendays nothing --x
COMP_WORDBREAKS=' '
expect '--units=F' ovendays season --units=F
expect '--svg=calendar=season.h5' ovendays report --svg=calendar=sea
exit $((failures > 0))
