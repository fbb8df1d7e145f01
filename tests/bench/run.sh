#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Builds the benchmarks, runs them, prints medians and adds a row for each to results/bench/CPU.csv;
# results/bench/work-precision.csv and .svg hold error against time of one cook, beside CVODE and
# SciPy. Usage: tests/bench/run.sh [repetitions, 5] [--quick: each once, answers checked, no rows]
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
# shellcheck source=src/setup.sh
source "$root/src/setup.sh"
need "${build_packages[@]}" "${test_packages[@]}" libbenchmark-dev python3-scipy
repetitions=5
quick=no
for word in "$@"; do
  case $word in
    --quick) quick=yes ;;
    [1-9] | [1-9][0-9]) repetitions=$word ;;
    *)
      echo "run.sh: '$word', allowed --quick or a number of repetitions, 1 to 99" >&2
      exit 2
      ;;
  esac
done
build=$root/build/bench
mkdir -p "$build" "$root/results/bench"
configure "$build" -DOVENDAYS_DEVELOPER=ON -DOVENDAYS_BENCH=ON -DCMAKE_BUILD_TYPE=Release
cmake --build "$build" --target benches
cd "$build"

if [ "$quick" = yes ]; then
  # Google Benchmark ends with 0 whatever a benchmark says of its answer: look for its word.
  ./bench_parts --benchmark_min_time=0.001 --benchmark_filter='-study.*/100/' | tee parts.txt
  ./bench_process --benchmark_min_time=0.001 --benchmark_filter='demo|/1/' | tee process.txt
  ! grep -h 'ERROR OCCURRED' parts.txt process.txt
  ./work_precision 1 quick.csv quick >quick.txt || { cat quick.txt; exit 1; }
  echo "Every benchmark's answer holds."
  exit 0
fi

aggregates=(--benchmark_repetitions="$repetitions" --benchmark_report_aggregates_only=true)
for part in parts process; do
  echo "Running bench_$part, $repetitions times"
  "./bench_$part" "${aggregates[@]}" --benchmark_filter='-study.*/100/' --benchmark_out="$part.json" \
    --benchmark_out_format=json >"$part.txt" 2>&1
  "./bench_$part" --benchmark_filter='study.*/100/' --benchmark_out="$part-100.json" \
    --benchmark_out_format=json >>"$part.txt" 2>&1
done
/usr/bin/python3 "$root/tests/bench/rows.py" "$root" parts.json parts-100.json process.json process-100.json
echo
./work_precision "$repetitions" "$root/results/bench/work-precision.csv" \
  "$(/usr/bin/python3 "$root/tests/bench/rows.py" "$root")" | tee work-precision.txt
/usr/bin/python3 "$root/tests/bench/plot.py" "$root/results/bench/work-precision.csv" \
  "$root/results/bench/work-precision.svg"
