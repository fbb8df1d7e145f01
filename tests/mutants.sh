#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Does the suite notice when the product is wrong? Builds a copy of the sources in which every fault of
# tests/mutants/faults.toml waits behind a run-time choice, and runs the tests once per fault until
# one fails. Prints which faults survive, and fails where any does.
#   tests/mutants.sh               all faults against all tests
#   tests/mutants.sh NAME...       these faults only
#   tests/mutants.sh --quick       every entry still fits the sources; the entries marked quick, against
#                                  the tests named beside them
#   tests/mutants.sh --check       every entry still fits the sources; nothing is built
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
# shellcheck source=src/setup.sh
source "$root/src/setup.sh"
need python3
plant=(python3 "$root/tests/mutants/plant.py")
"${plant[@]}" check
[ "${1:-}" = --check ] && exit 0
need "${build_packages[@]}" catch2 libsundials-dev

quick=0
[ "${1:-}" = --quick ] && { quick=1; shift; }
work=$root/build/mutants
export work quick
mkdir -p "$work/tree"
"${plant[@]}" plant "$work/tree"
copy=$work/tree
# configure() takes the sources from $root.
(root=$copy; configure "$work/build" -DCMAKE_BUILD_TYPE=Release "-DCMAKE_CXX_FLAGS=-w -include $copy/planted_fault.h")

if [ "$quick" = 1 ]; then
  "${plant[@]}" list --quick >"$work/list"
  targets=$(cut -f 2- "$work/list" | tr '\t' '\n' | cut -d ' ' -f 1 | sort -u | sed 's/$/_tests/')
  # shellcheck disable=SC2086
  cmake --build "$work/build" --target ovendays $targets
else
  "${plant[@]}" list >"$work/list"
  cmake --build "$work/build" -- -k 0
fi
for name in "$@"; do
  grep -q "^$name	" "$work/list" || { echo "no fault is called $name"; exit 2; }
done
if [ $# -gt 0 ]; then
  for name in "$@"; do grep "^$name	" "$work/list"; done >"$work/chosen"
  mv "$work/chosen" "$work/list"
fi

# run_stage STAGE FILTER: a stage's tests up to the first that fails, as ctest would place them. Nothing
# outside the copy may help: files that only some machines have are out of sight.
run_stage() {
  cd "$work/build/tests/$1" 2>/dev/null || cd "$work/build"
  OVENDAYS_SHARED=$work/nothing timeout 1200 "$work/build/$1_tests" ${2:+"$2"} --abort --reporter compact </dev/null
}
export -f run_stage

# try_fault NAME TEST...: the tests named first, then all stages from quick to slow.
try_fault() {
  local name=$1 test stage filter log=$work/logs/$1 code began=$SECONDS
  shift
  export OVENDAYS_FAULT=$name
  local all=("$@")
  [ "$quick" = 1 ] || while read -r _ stage; do all+=("$stage"); done <"$work/stages"
  for test in "${all[@]}"; do
    stage=${test%% *}
    filter=""
    [ "$stage" = "$test" ] || filter=${test#* }
    code=0
    run_stage "$stage" "$filter" >"$log" 2>&1 || code=$?
    if grep -q "No test cases matched\|No tests ran" "$log"; then
      echo "BROKEN   $name: no test of $stage is called '$filter'" | tee "$work/outcome/$name"
      return 0
    fi
    [ "$code" -eq 0 ] && continue
    local by
    by=$(grep -m 1 -o '[^/ ]*\.\(cpp\|h\):[0-9]*: failed' "$log" | sed 's/: failed//' || true)
    [ "$code" -eq 124 ] && by="no end in 20 min"
    echo "caught   $name: $stage, ${by:-ends with code $code} ($((SECONDS - began)) s)" | tee "$work/outcome/$name"
    return 0
  done
  echo "SURVIVED $name ($((SECONDS - began)) s)" | tee "$work/outcome/$name"
}
export -f try_fault

rm -rf "$work/logs" "$work/outcome"
mkdir -p "$work/logs" "$work/outcome"
if [ "$quick" = 0 ]; then
  # Without a fault all is well, and it is seen which stages are quick.
  : >"$work/stages"
  for tests in "$work/build"/*_tests; do
    stage=$(basename "${tests%_tests}")
    began=$(date +%s%N)
    run_stage "$stage" "" >"$work/logs/none-$stage" 2>&1 ||
      { tail -n 40 "$work/logs/none-$stage"; echo "$stage fails without any fault"; exit 1; }
    echo "$((($(date +%s%N) - began) / 1000000)) $stage" >>"$work/stages"
  done
  sort -n -o "$work/stages" "$work/stages"
  echo "without a fault, by stage [ms]:" $(cat "$work/stages")
fi

while IFS=$'\t' read -r -a fault; do printf '%s\0' "$(printf '%q ' "${fault[@]}")"; done <"$work/list" |
  xargs -0 -P "${OVENDAYS_MUTANT_JOBS:-$(nproc)}" -I{} bash -c 'try_fault {}'
tried=$(cat "$work/outcome"/* | wc -l)
left=$(cat "$work/outcome"/* | grep -c -v '^caught' || true)
echo
echo "$tried faults, $left not caught, $SECONDS s"
grep -h -v '^caught' "$work/outcome"/* || true
[ "$left" -eq 0 ]
