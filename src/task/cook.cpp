// SPDX-License-Identifier: MIT
#include "ovendays/task/cook.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <vector>

#include "ovendays/base/check.h"

namespace ovendays::task {
namespace {

/// Adds up the times above and between levels, step by step, and finds the moment all is met.
class CookWatcher : public heat::StepWatcher {
 public:
  CookWatcher(const Task& task,
              const heat::HeatModel& model,
              const CookSetup& setup,
              CookResult& result)
      : task_(task),
        rule_(danger_rule_of(task)),
        core_(model.core_node()),
        target_K_(effective_target_K(task, model.boiling_K)),
        boiling_K_(model.boiling_K),
        sunset_s_(setup.sunset_s),
        result_(result),
        also_(setup.also) {}

  bool on_step(const heat::Step& step) override {
    std::array<double, 6> cut{};
    const std::size_t cuts = cuts_of(step, cut);
    note_peak(step);
    for (std::size_t i = 0; i + 1 < cuts && !result_.done; ++i) piece(step, cut[i], cut[i + 1]);
    const bool go_on = also_ == nullptr || also_->on_step(step);
    return go_on && !result_.done && !hopeless(step);
  }

 private:
  /// Shares of the step at which any of the watched conditions changes, 0 and 1 included,
  /// ascending.
  std::size_t cuts_of(const heat::Step& step, std::array<double, 6>& cut) const {
    std::size_t count = 0;
    cut[count++] = 0.0;
    const auto add = [&](double share) {
      if (share > 0.0 && share < 1.0) cut[count++] = share;
    };
    add(step.crossing(core_, target_K_));
    add(step.crossing(core_, rule_.low_K));
    add(step.crossing(core_, rule_.high_K));
    if (task_.oven_air_K) add(step.crossing(heat::kNodeAir, *task_.oven_air_K));
    cut[count++] = 1.0;
    for (std::size_t i = 1; i < count; ++i) {  // at most six: sorted by insertion
      for (std::size_t k = i; k > 0 && cut[k] < cut[k - 1]; --k) std::swap(cut[k], cut[k - 1]);
    }
    return count;
  }

  void note_peak(const heat::Step& step) {
    const auto core = static_cast<std::size_t>(core_);
    result_.peak_core_K = std::max({result_.peak_core_K, step.y0[core], step.y1[core]});
    if (result_.boiling_from_s < 0.0) {
      const double share = step.crossing(heat::kNodeFood, boiling_K_ - 0.05);
      if (share <= 1.0) result_.boiling_from_s = step.start_s + share * (step.end_s - step.start_s);
    }
  }

  void piece(const heat::Step& step, double from, double to) {
    const double middle = 0.5 * (from + to);
    const double length_s = (to - from) * (step.end_s - step.start_s);
    const double core_K = step.at(core_, middle);
    const bool hot = core_K >= target_K_;
    const bool air = !task_.oven_air_K || step.at(heat::kNodeAir, middle) >= *task_.oven_air_K;
    if (!hot && task_.unbroken) result_.hold_s = 0.0;
    reached_ = reached_ || hot;
    const double hold_left_s = std::max(0.0, task_.hold_s - result_.hold_s);
    const double air_left_s =
        task_.oven_air_K ? std::max(0.0, task_.oven_air_s - result_.air_s) : 0.0;
    const bool hold_met = reached_ && (hold_left_s <= 0.0 || (hot && hold_left_s <= length_s));
    const bool air_met = air_left_s <= 0.0 || (air && air_left_s <= length_s);
    double used_s = length_s;
    if (hold_met && air_met) {
      used_s = std::max(hold_left_s, air_left_s);
      result_.done = true;
      result_.finish_s = step.start_s + from * (step.end_s - step.start_s) + used_s;
    }
    if (hot) result_.hold_s += used_s;
    if (air && task_.oven_air_K) result_.air_s += used_s;
    if (core_K > rule_.low_K && core_K < rule_.high_K) result_.danger_s += used_s;
  }

  /// After sunset a core that cools below its target, in an oven that cools too, will not come
  /// back.
  [[nodiscard]] bool hopeless(const heat::Step& step) const {
    if (step.end_s < sunset_s_) return false;
    const auto core = static_cast<std::size_t>(core_);
    return step.rise1[core] < 0.0 && step.rise1[heat::kNodeLiner] < 0.0 &&
           step.y1[core] < target_K_;
  }

  const Task& task_;
  const DangerRule& rule_;
  int core_;
  double target_K_;
  double boiling_K_;
  double sunset_s_;
  CookResult& result_;
  heat::StepWatcher* also_;
  bool reached_ = false;
};

/// When the lid stands open: at loading, and at the routine's looks and stirs while somebody is
/// home.
std::vector<heat::LidOpening> lid_openings(const Routine& routine, double load_s) {
  std::vector<heat::LidOpening> open{{load_s, load_s + routine.lid_open_s}};
  for (const double after_s : routine.lid_open_after_s) {
    const double from_s = load_s + after_s;
    if (from_s < open.back().to_s || from_s < routine.home_from_s || from_s > routine.home_until_s)
      continue;
    open.push_back({from_s, from_s + routine.lid_open_s});
  }
  return open;
}

}  // namespace

void run_cooks(const Task& task,
               const Routine& routine,
               const heat::HeatModel& model,
               std::span<const CookSetup> setups,
               std::span<CookResult> results,
               const heat::IntegratorOptions& options) {
  OVENDAYS_CHECK(setups.size() == results.size());
  // The longest first: what is left at last is short, and the integrator's lanes stay full.
  std::vector<std::size_t> order(setups.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return setups[a].load_s < setups[b].load_s;
  });
  std::vector<heat::Run> runs(setups.size());
  std::vector<std::vector<heat::LidOpening>> lids(setups.size());
  std::vector<CookWatcher> watchers;
  watchers.reserve(setups.size());
  for (std::size_t i = 0; i < setups.size(); ++i) {
    const CookSetup& setup = setups[order[i]];
    CookResult& result = results[order[i]];
    result = CookResult{};
    result.peak_core_K = task.start_K;
    lids[i] = lid_openings(routine, setup.load_s);
    watchers.emplace_back(task, model, setup, result);
    heat::Run& run = runs[i];
    run.forcing = setup.forcing;
    run.start_s = setup.load_s;
    run.end_s = std::min(task.finish_by_s, 86400.0);
    run.state = setup.oven;
    for (const int node : {heat::kNodeVessel,
                           heat::kNodeFood,
                           heat::kNodeShell1,
                           heat::kNodeShell2,
                           heat::kNodeShell3,
                           heat::kNodeShell4}) {
      run.state[static_cast<std::size_t>(node)] = task.start_K;
    }
    run.state[heat::kNodeWater] = 100.0;
    run.lid_open = lids[i];
    run.watcher = &watchers[i];
  }
  std::vector<heat::RunSummary> summaries(runs.size());
  heat::integrate(model, runs, summaries, options);
  for (std::size_t i = 0; i < results.size(); ++i) {
    CookResult& result = results[order[i]];
    result.run = summaries[i];
    result.evaporated_kg = summaries[i].evaporated_kg;
    result.safe = !task.spoils || result.danger_s <= danger_rule_of(task).limit_s;
  }
}
}  // namespace ovendays::task
