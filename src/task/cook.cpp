// SPDX-License-Identifier: MIT
#include "ovendays/task/cook.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <numeric>
#include <optional>
#include <vector>

#include "ovendays/base/check.h"

namespace ovendays::task {
namespace {

/// Adds up the times above the target and in the danger zone, and finds the moment at which all
/// demands of the task are met. It declares steps quiet in which none of the levels can be crossed,
/// so that the integrator need not show them.
class CookWatcher : public heat::StepWatcher {
 public:
  CookWatcher(const Task& task,
              const heat::HeatModel& model,
              const CookSetup& setup,
              CookResult& result,
              DominancePruning* pruning)
      : task_(task),
        rule_(danger_rule_of(task)),
        model_(model),
        core_(model.core_node()),
        target_K_(effective_target_K(task, model.boiling_K)),
        setup_(setup),
        seen_until_s_(setup.load_s),
        result_(result),
        pruning_(setup.also == nullptr ? pruning : nullptr) {
    if (pruning_ != nullptr) day_ = &pruning_->day(setup.forcing);
  }

  bool on_step(const heat::Step& step) override {
    add_quiet_time(step.start_s - seen_until_s_);
    // The step is divided where a temperature crosses a level, so that conditions hold throughout a
    // part and times are exact to the interpolation, not to the step.
    const double hopeless = hopeless_from(step);
    std::array<double, 6> cut{};
    const std::size_t cuts = cuts_of(step, std::min(hopeless, 1.0), cut);
    for (std::size_t i = 0; i + 1 < cuts && !result_.done; ++i) add_part(step, cut[i], cut[i + 1]);
    const double until = result_.done
                             ? (result_.finish_s - step.start_s) / (step.end_s - step.start_s)
                             : std::min(hopeless, 1.0);
    note_peak(step, result_.done ? until : 1.0);
    const bool go_on = setup_.also == nullptr || setup_.also->on_step(step);
    const bool ends = result_.done || hopeless <= 1.0;
    if (ends) {
      note_evaporation(step, until);
    } else {
      declare_quiet(step);
    }
    if (pruning_ != nullptr && (ends || step.end_s >= end_s())) offer_history();
    return go_on && !ends;
  }

  bool on_mark(const heat::Mark& mark) override {
    if (mark.time_s < lid_shut_from_s_) return true;  // an open lid would drive cooks apart
    const double since_s = mark.time_s - seen_until_s_;
    const CookState now{mark.number,
                        mark.y,
                        result_.hold_s + (conditions_.hot ? since_s : 0.0),
                        result_.air_s + (conditions_.air && task_.oven_air_K ? since_s : 0.0)};
    const double peak_K = std::max(
        {result_.peak_core_K, mark.passed_peak_K, mark.y[static_cast<std::size_t>(core_)]});
    result_.pruned = pruning_->dominates(*day_, now, peak_K);
    if (result_.pruned) {
      pruning_->give_back(std::move(history_));
      return false;
    }
    if (!history_) history_ = pruning_->take_history();
    history_->note(now);
    return true;
  }
  /// Before this time the lid is opened, and cooks that were loaded at different times are not
  /// under the same conditions.
  void set_lid_shut_from(double time_s) { lid_shut_from_s_ = time_s; }
  [[nodiscard]] bool wants_marks() const { return pruning_ != nullptr; }
  [[nodiscard]] double end_s() const { return std::min(task_.finish_by_s, 86400.0); }

  /// Water that had left the food when the cook was done or became hopeless [kg]; without a value
  /// if the run ended otherwise.
  [[nodiscard]] std::optional<double> evaporated_kg() const { return evaporated_kg_; }

 private:
  /// Shares of the step, up to `last`, at which a condition changes; ascending, with 0 and `last`.
  std::size_t cuts_of(const heat::Step& step, double last, std::array<double, 6>& cut) const {
    std::size_t count = 0;
    cut[count++] = 0.0;
    const auto add = [&](double share) {
      if (share > 0.0 && share < last) cut[count++] = share;
    };
    add(step.crossing(core_, target_K_));
    add(step.crossing(core_, rule_.low_K));
    add(step.crossing(core_, rule_.high_K));
    if (task_.oven_air_K) add(step.crossing(heat::kNodeAir, *task_.oven_air_K));
    cut[count++] = last;
    for (std::size_t i = 1; i < count; ++i) {  // at most six: sorted by insertion
      for (std::size_t k = i; k > 0 && cut[k] < cut[k - 1]; --k) std::swap(cut[k], cut[k - 1]);
    }
    return count;
  }

  void note_peak(const heat::Step& step, double until) {
    const auto core = static_cast<std::size_t>(core_);
    const double end_K = step.at(core_, until);
    result_.peak_core_K = std::max({result_.peak_core_K, step.passed_peak_K, step.y0[core], end_K});
    if (reached_) result_.peak_core_K = std::max(result_.peak_core_K, target_K_);
    if (result_.boiling_from_s < 0.0) {
      const double share = step.crossing(heat::kNodeFood, boiling_level_K());
      if (share <= 1.0) result_.boiling_from_s = step.start_s + share * (step.end_s - step.start_s);
    }
  }
  /// Boiling food is held within 0.1 K of the boiling point (ModelOptions::boil_WK).
  [[nodiscard]] double boiling_level_K() const { return model_.boiling_K - 0.05; }

  /// Conditions that hold while no level is crossed.
  struct Conditions {
    bool hot = false, air = false, danger = false;
  };
  [[nodiscard]] Conditions conditions(double core_K, double air_K) const {
    return {core_K >= target_K_,
            !task_.oven_air_K || air_K >= *task_.oven_air_K,
            core_K > rule_.low_K && core_K < rule_.high_K};
  }
  /// Time until the cook is done if these conditions last; without a value if it would not be.
  [[nodiscard]] std::optional<double> left_s(const Conditions& now) const {
    const double hold_s = std::max(0.0, task_.hold_s - result_.hold_s);
    const double air_s = task_.oven_air_K ? std::max(0.0, task_.oven_air_s - result_.air_s) : 0.0;
    if (!reached_ || (hold_s > 0.0 && !now.hot) || (air_s > 0.0 && !now.air)) return {};
    return std::max(hold_s, air_s);
  }
  void add(const Conditions& now, double length_s) {
    if (now.hot) result_.hold_s += length_s;
    if (now.air && task_.oven_air_K) result_.air_s += length_s;
    if (now.danger) result_.danger_s += length_s;
  }

  void add_part(const heat::Step& step, double from, double to) {
    const double middle = 0.5 * (from + to);
    const double length_s = (to - from) * (step.end_s - step.start_s);
    const Conditions now = conditions(step.at(core_, middle), step.at(heat::kNodeAir, middle));
    // Pasteurising counts only time without interruption, so cooling down starts the hold again.
    if (!now.hot && task_.unbroken) result_.hold_s = 0.0;
    reached_ = reached_ || now.hot;
    const std::optional<double> left = left_s(now);
    result_.done = left && *left <= length_s;
    if (result_.done) result_.finish_s = step.start_s + from * (step.end_s - step.start_s) + *left;
    add(now, result_.done ? *left : length_s);
  }

  /// Adds the time of steps that were not shown; the conditions of the last shown step held on.
  void add_quiet_time(double length_s) {
    if (length_s > 0.0) add(conditions_, length_s);
  }

  /// After sunset, a core below its target that cools in a cooling oven will not reach it again.
  /// @return the share of the step from which this is so; > 1: not in this step
  [[nodiscard]] double hopeless_from(const heat::Step& step) const {
    constexpr double kNotYet = 2.0;
    const auto core = static_cast<std::size_t>(core_);
    if (step.end_s < setup_.sunset_s || step.rise1[core] >= 0.0 ||
        step.rise1[heat::kNodeLiner] >= 0.0 || step.y1[core] >= target_K_)
      return kNotYet;
    const double sunset = (setup_.sunset_s - step.start_s) / (step.end_s - step.start_s);
    const double below = step.crossing(core_, target_K_);
    return std::max({std::min(sunset, 1.0),
                     step.peak_share(core_),
                     step.peak_share(heat::kNodeLiner),
                     below <= 1.0 ? below : 0.0});
  }

  /// At the end of a run: if the cook failed clearly, later ones are compared with it.
  void offer_history() {
    if (!history_) return;
    if (failed_clearly()) {
      pruning_->set_failed(*day_, std::move(history_), result_.peak_core_K);
    } else {
      pruning_->give_back(std::move(history_));
    }
  }
  [[nodiscard]] bool failed_clearly() const {
    if (result_.done) return false;
    if (result_.peak_core_K < target_K_ - pruning_->clear_K()) return true;
    // An interrupted hold starts again, so a short one says nothing about an unbroken task.
    const bool short_hold =
        !task_.unbroken && result_.hold_s < task_.hold_s - DominancePruning::kClear_s;
    return short_hold ||
           (task_.oven_air_K && result_.air_s < task_.oven_air_s - DominancePruning::kClear_s);
  }

  void note_evaporation(const heat::Step& step, double share) {
    if (model_.drying())
      evaporated_kg_ = 0.01 * model_.water_kg * (100.0 - step.at(heat::kNodeWater, share));
  }

  /// Declares the steps quiet that end before sunset and before the cook can be done, and in which
  /// no level is crossed.
  void declare_quiet(const heat::Step& step) {
    const double core_K = step.y1[static_cast<std::size_t>(core_)];
    const double air_K = step.y1[heat::kNodeAir];
    seen_until_s_ = step.end_s;
    conditions_ = conditions(core_K, air_K);
    if (setup_.also != nullptr) return;  // the other watcher sees every step
    heat::Quiet quiet;
    const auto bound = [](heat::Quiet::Band& band, double now_K, double level_K) {
      if (level_K <= now_K) band.low_K = std::max(band.low_K, level_K);
      if (level_K > now_K) band.high_K = std::min(band.high_K, level_K);
    };
    for (const double level_K : {target_K_, rule_.low_K, rule_.high_K})
      bound(quiet.core, core_K, level_K);
    if (task_.oven_air_K) bound(quiet.air, air_K, *task_.oven_air_K);
    if (result_.boiling_from_s < 0.0) quiet.food.high_K = boiling_level_K();
    quiet.until_s = setup_.sunset_s;
    if (const std::optional<double> left = left_s(conditions_))
      quiet.until_s = std::min(quiet.until_s, step.end_s + *left);
    set_quiet(quiet);
  }

  const Task& task_;
  const DangerRule& rule_;
  const heat::HeatModel& model_;
  int core_;
  double target_K_;
  const CookSetup& setup_;
  double seen_until_s_;  ///< end of the last shown step
  CookResult& result_;
  Conditions conditions_;  ///< from then until the next shown step
  bool reached_ = false;
  std::optional<double> evaporated_kg_;
  DominancePruning* pruning_;
  DominancePruning::Day* day_ = nullptr;
  std::unique_ptr<CookHistory> history_;
  double lid_shut_from_s_ = 0.0;
};

/// Adds the lid openings of a cook: at loading, and for the looks and stirs of the routine while
/// somebody is home.
void add_lid_openings(const Routine& routine, double load_s, std::vector<heat::LidOpening>& open) {
  open.push_back({load_s, load_s + routine.lid_open_s});
  for (const double after_s : routine.lid_open_after_s) {
    const double from_s = load_s + after_s;
    if (from_s < open.back().to_s || from_s < routine.home_from_s || from_s > routine.home_until_s)
      continue;
    open.push_back({from_s, from_s + routine.lid_open_s});
  }
}

}  // namespace

void run_cooks(const Task& task,
               const Routine& routine,
               const heat::HeatModel& model,
               std::span<const CookSetup> setups,
               std::span<CookResult> results,
               const heat::IntegratorOptions& options,
               DominancePruning* pruning) {
  OVENDAYS_CHECK(setups.size() == results.size());
  // The longest runs first: the runs left at the end are short, so the integrator's lanes stay
  // full.
  std::vector<std::size_t> order(setups.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return setups[a].load_s < setups[b].load_s;
  });
  std::vector<heat::Run> runs(setups.size());
  std::vector<heat::LidOpening> lids;
  lids.reserve(setups.size() * (1 + routine.lid_open_after_s.size()));
  std::vector<CookWatcher> watchers;
  watchers.reserve(setups.size());
  for (std::size_t i = 0; i < setups.size(); ++i) {
    const CookSetup& setup = setups[order[i]];
    CookResult& result = results[order[i]];
    result = CookResult{};
    result.peak_core_K = model.food_state_K(task.start_K);  // a state until the run is over
    const std::size_t first_lid = lids.size();
    add_lid_openings(
        routine, setup.load_s, lids);  // within the reserved capacity, so spans stay valid
    watchers.emplace_back(task, model, setup, result, pruning);
    watchers.back().set_lid_shut_from(lids.back().to_s);
    heat::Run& run = runs[i];
    run.forcing = setup.forcing;
    run.start_s = setup.load_s;
    run.end_s = watchers.back().end_s();
    run.marks = watchers.back().wants_marks();
    run.state = setup.oven;
    run.state[heat::kNodeVessel] = run.state[heat::kNodeLid] = task.start_K;
    for (const int node : {heat::kNodeFood,
                           heat::kNodeShell1,
                           heat::kNodeShell2,
                           heat::kNodeShell3,
                           heat::kNodeShell4}) {
      run.state[static_cast<std::size_t>(node)] = model.food_state_K(task.start_K);
    }
    run.state[heat::kNodeWater] = 100.0;  // percent of the food's water
    run.lid_open = std::span(lids).subspan(first_lid);
    run.watcher = &watchers[i];
  }
  std::vector<heat::RunSummary> summaries(runs.size());
  heat::integrate(model, runs, summaries, options);
  for (std::size_t i = 0; i < results.size(); ++i) {
    CookResult& result = results[order[i]];
    result.run = summaries[i];
    result.peak_core_K = model.food_temperature_K(result.peak_core_K);
    result.evaporated_kg = watchers[i].evaporated_kg().value_or(summaries[i].evaporated_kg);
    result.safe = !task.spoils || result.danger_s <= danger_rule_of(task).limit_s;
  }
}
}  // namespace ovendays::task
