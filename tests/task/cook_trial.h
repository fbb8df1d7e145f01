// SPDX-License-Identifier: MIT
// A made oven with a pot in it, cooked under a made sun; and the same run second by second at a
// tolerance a hundred times finer, whose counts are the cook's oracle.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "made_network.h"
#include "ovendays/base/constants.h"
#include "ovendays/task/cook.h"

namespace ovendays::test {

inline constexpr double kC = base::kZeroCelsius_K;

struct CookTrial {
  heat::HeatModel model = made_network(1, false);
  MadeForcing sun = made_forcing(8.0, 420.0);
  task::Task task;
  task::Routine routine;
  double load_s = 3600.0;
  double sunset_s = 86400.0;
  double oven_K = 350.0;  ///< the empty oven at loading

  CookTrial() {
    task.name = "trial";
    task.start_K = kC + 4.0;
    task.target_K = kC + 75.0;
    task.finish_by_s = 8.0 * 3600;
    routine.lid_open_s = 0.0;
  }

  [[nodiscard]] task::CookSetup setup() const {
    task::CookSetup one;
    one.oven = heat::uniform_state(oven_K);
    one.forcing = sun.view();
    one.load_s = load_s;
    one.sunset_s = sunset_s;
    return one;
  }

  [[nodiscard]] task::CookResult cook(heat::StepWatcher* also = nullptr) const {
    task::CookSetup one = setup();
    one.also = also;
    task::CookResult result;
    task::run_cooks(task, routine, model, {&one, 1}, {&result, 1}, {});
    return result;
  }
};

/// Core and oven air at every whole second of a fine run.
struct Seconds : heat::StepWatcher {
  explicit Seconds(int the_core) : core(the_core) {}
  bool on_step(const heat::Step& step) override {
    for (auto second = static_cast<long>(std::ceil(step.start_s));
         static_cast<double>(second) < step.end_s;
         ++second) {
      const auto t = static_cast<double>(second);
      const double share = (t - step.start_s) / (step.end_s - step.start_s);
      core_K.push_back(step.at(core, share));
      air_K.push_back(step.at(heat::kNodeAir, share));
    }
    return true;
  }
  int core;
  std::vector<double> core_K;
  std::vector<double> air_K;

  /// Seconds up to `end` (from loading) in which the core lies between two temperatures.
  [[nodiscard]] double between_s(double low_K, double high_K, double end_s) const {
    double count = 0.0;
    const auto last = std::min(core_K.size(), static_cast<std::size_t>(std::max(0.0, end_s)));
    for (std::size_t i = 0; i < last; ++i) count += core_K[i] > low_K && core_K[i] < high_K;
    return count;
  }
};

inline Seconds fine_run(const CookTrial& trial) {
  heat::Run run;
  run.forcing = trial.sun.view();
  run.start_s = trial.load_s;
  run.end_s = trial.task.finish_by_s;
  run.state = heat::uniform_state(trial.oven_K);
  for (const int node : {heat::kNodeVessel,
                         heat::kNodeFood,
                         heat::kNodeShell1,
                         heat::kNodeShell2,
                         heat::kNodeShell3,
                         heat::kNodeShell4})
    run.state[static_cast<std::size_t>(node)] = trial.task.start_K;
  run.state[heat::kNodeWater] = 100.0;
  std::vector<heat::LidOpening> lids;
  if (trial.routine.lid_open_s > 0.0)
    lids.push_back({trial.load_s, trial.load_s + trial.routine.lid_open_s});
  run.lid_open = lids;
  Seconds seconds(trial.model.core_node());
  run.watcher = &seconds;
  heat::IntegratorOptions fine;
  fine.tolerance_K = 2e-4;
  fine.longest_step_s = 60.0;
  heat::integrate(trial.model, run, fine);
  return seconds;
}

/// First second, counted from loading, by which the core was at `level_K` for `hold_s` in all, or
/// in one go; < 0 never.
inline double hold_met_s(const std::vector<double>& K, double level_K, double hold_s, bool one_go) {
  double held_s = 0.0;
  for (std::size_t i = 0; i < K.size(); ++i) {
    if (K[i] >= level_K) {
      held_s += 1.0;
    } else if (one_go) {
      held_s = 0.0;
    }
    if (held_s > 0.0 && held_s >= hold_s) return static_cast<double>(i);
  }
  return -1.0;
}
}  // namespace ovendays::test
