#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Fuzzes every reader for a bounded time, with address and undefined-behaviour checks.
# Usage: tests/fuzz/run.sh [SECONDS_EACH [BUILD_FOLDER [TARGET...]]]
# Seeds are read from tests/data/fuzz and left alone; what is found stays in the build folder. The
# target edited_results is run only where it is named: HDF5 itself may fall over damaged files that
# carry a valid seal. Ends with a summary line, and with 1 where something was found. The random
# numbers start at OVENDAYS_FUZZ_SEED (1): the same input gives the same finding; 0 takes another
# start each time, for longer searches.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
# shellcheck source=src/setup.sh
source "$root/src/setup.sh"
seconds=${1:-10}
build=${2:-$root/build-fuzz}
shift $(($# < 2 ? $# : 2))
targets=("$@")
[ ${#targets[@]} -gt 0 ] || targets=(weather epw tmy3 nsrdb pvgis edited_year horizon normals case
                                     quantity results)
mkdir -p "$build"
build=$(cd "$build" && pwd)
cxx=${CXX:-clang++-14}
cc=${CC:-clang-14}
command -v "$cxx" >/dev/null || { echo "fuzzing needs clang ($cxx is not there)" >&2; exit 1; }

cmake -S "$root" -B "$build" -G Ninja -Wno-dev "${unity[@]}" \
  -DCMAKE_C_COMPILER="$cc" -DCMAKE_CXX_COMPILER="$cxx" -DCMAKE_BUILD_TYPE=Release -DOVENDAYS_FUZZ=ON \
  -DOVENDAYS_SANITIZE=fuzzer-no-link,address,undefined >"$build/configure.log" 2>&1 || {
  cat "$build/configure.log" >&2
  exit 1
}
cmake --build "$build" --target fuzz_targets -j "$(nproc)" >"$build/build.log" 2>&1 || {
  tail -n 60 "$build/build.log" >&2
  exit 1
}

export ASAN_OPTIONS=detect_leaks=1:allocator_may_return_null=0
export UBSAN_OPTIONS=print_stacktrace=1
export LSAN_OPTIONS=suppressions=$root/tests/fuzz/leaks.txt:print_suppressions=0
found=0
runs=0
for target in "${targets[@]}"; do
  folder=$build/fuzzing/$target
  mkdir -p "$folder/corpus" "$folder/findings" "$folder/empty"
  # New inputs go into the first folder, a killed run's temporary files into the build folder.
  code=0
  (cd "$folder/empty" && TMPDIR=$folder timeout $((seconds + 120)) "$build/fuzz_$target" \
    -seed="${OVENDAYS_FUZZ_SEED:-1}" -max_total_time="$seconds" -timeout=20 -rss_limit_mb=2048 -max_len=8192 -print_final_stats=1 \
    -artifact_prefix="$folder/findings/" "$folder/corpus" "$root/tests/data/fuzz/$target" \
    >"$folder/log" 2>&1) || code=$?
  done_runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$folder/log")
  runs=$((runs + ${done_runs:-0}))
  if [ "$code" -eq 0 ]; then
    printf '%-15s %8s runs, nothing found\n' "$target" "${done_runs:-0}"
  else
    found=$((found + 1))
    printf '%-15s FOUND (code %s); log %s\n' "$target" "$code" "$folder/log"
    grep -a -E 'ERROR|runtime error|what\(\)|SUMMARY|terminate|Test unit written' "$folder/log" | head -n 12 || true
  fi
done
echo "Fuzzing: ${#targets[@]} targets, $seconds s each, $runs runs, $found with findings"
[ "$found" -eq 0 ]
