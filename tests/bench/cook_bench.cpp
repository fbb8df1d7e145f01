// SPDX-License-Identifier: MIT
// One cook alone and in packs, by the integrator and by task::run_cooks. The answer is CVODE's.
#include <benchmark/benchmark.h>

#include <cmath>

#include "cook_scene.h"
#include "cvode_oracle.h"
#include "ovendays/task/cook.h"

namespace ovendays::bench {
namespace {

/// What the integrator promises against CVODE (tests/data/README.md, "What has been checked against
/// what").
constexpr double kBound_K = 0.1;

/// Largest error at the end of any run [K].
double end_error_K(const CookScene& scene, const std::vector<heat::Run>& done) {
  const std::vector<heat::Run> fresh = pack_of(scene, done.size());
  double worst_K = 0.0;
  for (std::size_t i = 0; i < std::min<std::size_t>(8, done.size()); ++i) {
    test::CvodeOracle oracle(scene.model, fresh[i]);
    const heat::State& exact = oracle.at(fresh[i].end_s);
    for (std::size_t n = 0; n < heat::kNodeWater; ++n) {
      if (scene.model.present[n])
        worst_K = std::max(worst_K, std::abs(done[i].state[n] - exact[n]));
    }
  }
  return worst_K;
}

void count_cooks(benchmark::State& state, std::size_t each) {
  state.counters["cooks_per_s"] =
      benchmark::Counter(static_cast<double>(each) * static_cast<double>(state.iterations()),
                         benchmark::Counter::kIsRate);
}

/// As a season's cooks are integrated.
constexpr heat::IntegratorOptions kSeason{.precision = heat::Precision::kSingle};

void integrate_cooks(benchmark::State& state, SkyKind sky) {
  const CookScene scene = cook_scene(sky);
  const auto count = static_cast<std::size_t>(state.range(0));
  const std::vector<heat::Run> fresh = pack_of(scene, count);
  std::vector<heat::RunSummary> summaries(count);
  std::vector<heat::Run> runs;
  while (state.KeepRunning()) {
    runs = fresh;
    heat::integrate(scene.model, runs, summaries, kSeason);
    benchmark::DoNotOptimize(runs.data());
  }
  count_cooks(state, count);
  state.counters["steps"] = summaries.front().steps;
  const double error_K = end_error_K(scene, runs);
  if (!(error_K <= kBound_K)) state.SkipWithError("the cook ends more than 0.1 K off CVODE");
}
BENCHMARK_CAPTURE(integrate_cooks, clear, SkyKind::kClear)->Arg(1)->Arg(16)->Arg(64);
BENCHMARK_CAPTURE(integrate_cooks, broken, SkyKind::kBroken)->Arg(1)->Arg(16)->Arg(64);

/// The same through the public door of a cook. The target is out of reach, so that each cook lasts
/// till the end; its peak is then the highest of CVODE's minutes, within the bound.
void run_cooks(benchmark::State& state) {
  const CookScene scene = cook_scene(SkyKind::kBroken);
  task::Task task;
  task.target_K = 420.0;
  task.hold_s = 1e6;
  task.finish_by_s = 17.0 * kHour_s;
  task::Routine routine;
  routine.lid_open_after_s = {2.0 * kHour_s};
  routine.lid_open_s = 30.0;
  const auto count = static_cast<std::size_t>(state.range(0));
  const std::vector<heat::Run> pack = pack_of(scene, count);
  std::vector<task::CookSetup> setups(count);
  for (std::size_t i = 0; i < count; ++i)
    setups[i] = {pack[i].state, scene.day.view(), pack[i].start_s, 18.0 * kHour_s, nullptr};
  std::vector<task::CookResult> results(count);
  while (state.KeepRunning()) {
    task::run_cooks(task, routine, scene.model, setups, results, kSeason);
    benchmark::DoNotOptimize(results.data());
  }
  count_cooks(state, count);
  heat::Run run = pack.front();
  const std::vector<heat::LidOpening> lid = {{run.start_s, run.start_s + 30.0},
                                             {11.0 * kHour_s, 11.0 * kHour_s + 30.0}};
  run.lid_open = lid;
  test::CvodeOracle oracle(scene.model, run);
  double peak_K = 0.0;
  for (int minute = 0; run.start_s + 60.0 * minute <= run.end_s; ++minute)
    peak_K = std::max(peak_K, oracle.at(run.start_s + 60.0 * minute)[heat::kNodeFood]);
  if (!(std::abs(results.front().peak_core_K - peak_K) <= kBound_K))
    state.SkipWithError("the core's peak is more than 0.1 K off CVODE's");
}
BENCHMARK(run_cooks)->Arg(1)->Arg(16)->Arg(64);

/// The plain equations, as CVODE and SciPy call them. Checked by the energy they must conserve:
/// what flows into the nodes is what the sun gives less what leaves.
void right_hand_side(benchmark::State& state) {
  const CookScene scene = cook_scene(SkyKind::kClear);
  heat::State dydt{};
  heat::Flows flows{};
  while (state.KeepRunning()) {
    heat::right_hand_side(
        scene.model, scene.day.air.front(), scene.day.gains.front(), 0.5, scene.start, dydt, flows);
    benchmark::DoNotOptimize(dydt.data());
  }
  double stored_W = 0.0;
  for (std::size_t n = 0; n < heat::kNodeWater; ++n)
    stored_W += scene.model.present[n] ? scene.model.capacity_JK[n] * dydt[n] : 0.0;
  const double residual_W = flows.sun_W - flows.out_W - stored_W;
  if (!(std::abs(residual_W) <= 1e-9 * flows.sun_W))
    state.SkipWithError("the equations lose or make energy");
}
BENCHMARK(right_hand_side);
}  // namespace
}  // namespace ovendays::bench
