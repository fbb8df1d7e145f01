// SPDX-License-Identifier: MIT
// Whole seasons: the starter case with all its tasks, nothing kept from one to the next.
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
  while (state.KeepRunning()) {
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
}  // namespace
}  // namespace ovendays::bench
