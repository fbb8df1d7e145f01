// SPDX-License-Identifier: MIT
// Whole seasons: the starter case with all its tasks, and studies of 1, 10 and 100 ovens.
#include <benchmark/benchmark.h>

#include <cstdlib>

#include "study_scene.h"

namespace ovendays::bench {
namespace {

/// Days cooked of each task, computed by this program when the benchmark was made: a guard against
/// being fast and wrong. Three days of slack, since shade edges and thresholds decide single days.
constexpr std::array<int, 8> kDaysCooked = {271, 339, 255, 227, 253, 181, 195, 281};
constexpr int kSlack_days = 3;

void season_full(benchmark::State& state) {
  const season::Case c = starter();
  const weather::WeatherYear year = season::load_weather(c);
  season::SeasonOptions options;
  options.threads = static_cast<int>(state.range(0));
  options.causes = state.range(1) != 0;
  season::SeasonResult result;
  for (auto _ : state) {
    result = season::run_season(c, year, options);
    benchmark::DoNotOptimize(result.days.data());
  }
  state.counters["runs"] = static_cast<double>(result.audit.runs);
  state.counters["runs_per_s"] = benchmark::Counter(
      static_cast<double>(result.audit.runs * state.iterations()), benchmark::Counter::kIsRate);
  bool as_stored = true;
  std::string cooked = "days cooked:";
  for (std::size_t t = 0; t < kDaysCooked.size(); ++t) {
    const int days = test::cooked_days(result, t);
    cooked += " " + std::to_string(days);
    as_stored = as_stored && std::abs(days - kDaysCooked[t]) <= kSlack_days;
  }
  if (!as_stored) state.SkipWithError(cooked.c_str());
}
BENCHMARK(season_full)
    ->ArgNames({"threads", "causes"})
    ->Args({1, 1})
    ->Args({2, 1})
    ->Args({1, 0})
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

/// Better insulation and clearer glass may not lose more than the stray day that thresholds cost
/// (eight tasks: two days), and the best oven must gain over the poorest.
void study(benchmark::State& state, Varied varied) {
  const season::Case c = starter();
  const weather::WeatherYear year = season::load_weather(c);
  const auto count = static_cast<int>(state.range(0));
  StudyOutcome outcome;
  for (auto _ : state) outcome = run_study(c, year, varied, count);
  state.counters["per_season"] =
      benchmark::Counter(static_cast<double>(count) * static_cast<double>(state.iterations()),
                         benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
  if (outcome.first_days <= 0) state.SkipWithError("no day was cooked");
  if (count == 1) return;
  if (outcome.worst_fall > 2) state.SkipWithError("a better oven lost days");
  if (outcome.last_days <= outcome.first_days) state.SkipWithError("the best oven gained nothing");
}
BENCHMARK_CAPTURE(study, insulation, Varied::kInsulation)
    ->Arg(1)
    ->Arg(10)
    ->Arg(100)
    ->Unit(benchmark::kMillisecond)
    ->Iterations(1)
    ->MeasureProcessCPUTime();
BENCHMARK_CAPTURE(study, panes, Varied::kPanes)
    ->Arg(1)
    ->Arg(10)
    ->Arg(100)
    ->Unit(benchmark::kMillisecond)
    ->Iterations(1)
    ->MeasureProcessCPUTime();
}  // namespace
}  // namespace ovendays::bench
