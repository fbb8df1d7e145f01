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
  ./bench_parts --benchmark_min_time=0.001 | tee parts.txt
  ./bench_process --benchmark_min_time=0.001 --benchmark_filter='demo|/1/' | tee process.txt
  ! grep -h 'ERROR OCCURRED' parts.txt process.txt
  ./work_precision 1 quick.csv quick >quick.txt || { cat quick.txt; exit 1; }
  echo "Every benchmark's answer holds."
  exit 0
fi

aggregates=(--benchmark_repetitions="$repetitions" --benchmark_report_aggregates_only=true)
in_json() { echo "--benchmark_out=$1.json" --benchmark_out_format=json; }
echo "Running the parts, cooks and seasons, $repetitions times"
# shellcheck disable=SC2046
./bench_parts "${aggregates[@]}" $(in_json parts) >parts.txt 2>&1
echo "Running whole processes, $repetitions times, and a hundred seasons once"
# shellcheck disable=SC2046
./bench_process "${aggregates[@]}" --benchmark_filter='demo|/10?/' $(in_json process) >process.txt 2>&1
# shellcheck disable=SC2046
./bench_process --benchmark_filter='/100/' $(in_json hundred) >hundred.txt 2>&1
/usr/bin/python3 "$root/tests/bench/rows.py" "$root" parts.json process.json hundred.json
echo
./work_precision "$repetitions" "$root/results/bench/work-precision.csv" \
  "$(/usr/bin/python3 "$root/tests/bench/rows.py" "$root")" | tee work-precision.txt
/usr/bin/python3 "$root/tests/bench/plot.py" "$root/results/bench/work-precision.csv" \
  "$root/results/bench/work-precision.svg"
