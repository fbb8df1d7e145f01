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

/// Adds up the times above and between levels and finds the moment all is met. Between the steps it
/// asks to see, nothing it watches crosses a level.
class CookWatcher : public heat::StepWatcher {
 public:
  CookWatcher(const Task& task,
              const heat::HeatModel& model,
              const CookSetup& setup,
              CookResult& result,
              Forerunners* forerunners)
      : task_(task),
        rule_(danger_rule_of(task)),
        model_(model),
        core_(model.core_node()),
        target_K_(effective_target_K(task, model.boiling_K)),
        setup_(setup),
        seen_until_s_(setup.load_s),
        result_(result),
        forerunners_(setup.also == nullptr ? forerunners : nullptr) {
    if (forerunners_ != nullptr) day_ = &forerunners_->day(setup.forcing);
  }

  bool on_step(const heat::Step& step) override {
    pass_over(step.start_s - seen_until_s_);
    const double last = given_up(step);
    std::array<double, 6> cut{};
    const std::size_t cuts = cuts_of(step, std::min(last, 1.0), cut);
    for (std::size_t i = 0; i + 1 < cuts && !result_.done; ++i) piece(step, cut[i], cut[i + 1]);
    const double until = result_.done
                             ? (result_.finish_s - step.start_s) / (step.end_s - step.start_s)
                             : std::min(last, 1.0);
    note_peak(step, result_.done ? until : 1.0);
    const bool go_on = setup_.also == nullptr || setup_.also->on_step(step);
    const bool ends = result_.done || last <= 1.0;
    if (ends) {
      settle(step, until);
    } else {
      look_ahead(step);
    }
    if (forerunners_ != nullptr && (ends || step.end_s >= end_s())) hand_in_track();
    return go_on && !ends;
  }

  bool on_mark(const heat::Mark& mark) override {
    if (mark.time_s < lids_shut_s_) return true;  // from now on both are driven alike
    const double since_s = mark.time_s - seen_until_s_;
    const Standing now{mark.number,
                       mark.y,
                       result_.hold_s + (holds_on_.hot ? since_s : 0.0),
                       result_.air_s + (holds_on_.air && task_.oven_air_K ? since_s : 0.0)};
    const double peak_K = std::max(
        {result_.peak_core_K, mark.passed_peak_K, mark.y[static_cast<std::size_t>(core_)]});
    result_.overtaken = forerunners_->leads(*day_, now, peak_K);
    if (result_.overtaken) {
      forerunners_->give_back(std::move(track_));
      return false;
    }
    if (!track_) track_ = forerunners_->take_track();
    track_->note(now);
    return true;
  }
  /// From when on the lid stays shut.
  void set_lids_shut(double time_s) { lids_shut_s_ = time_s; }
  [[nodiscard]] bool asks_at_marks() const { return forerunners_ != nullptr; }
  [[nodiscard]] double end_s() const { return std::min(task_.finish_by_s, 86400.0); }

  /// What has left the food by the moment the cook was done or given up [kg]; nothing while
  /// neither.
  [[nodiscard]] std::optional<double> evaporated_kg() const { return evaporated_kg_; }

 private:
  /// Shares of the step up to `last` at which any of the watched conditions changes, 0 and `last`
  /// included, ascending.
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
  [[nodiscard]] double boiling_level_K() const { return model_.boiling_K - 0.05; }

  /// What holds all along a piece in which nothing crosses a level.
  struct Holds {
    bool hot = false, air = false, danger = false;
  };
  [[nodiscard]] Holds holds(double core_K, double air_K) const {
    return {core_K >= target_K_,
            !task_.oven_air_K || air_K >= *task_.oven_air_K,
            core_K > rule_.low_K && core_K < rule_.high_K};
  }
  /// What is missing still while that holds on; nothing where it is not enough.
  [[nodiscard]] std::optional<double> left_s(const Holds& now) const {
    const double hold_s = std::max(0.0, task_.hold_s - result_.hold_s);
    const double air_s = task_.oven_air_K ? std::max(0.0, task_.oven_air_s - result_.air_s) : 0.0;
    if (!reached_ || (hold_s > 0.0 && !now.hot) || (air_s > 0.0 && !now.air)) return {};
    return std::max(hold_s, air_s);
  }
  void add(const Holds& now, double length_s) {
    if (now.hot) result_.hold_s += length_s;
    if (now.air && task_.oven_air_K) result_.air_s += length_s;
    if (now.danger) result_.danger_s += length_s;
  }

  void piece(const heat::Step& step, double from, double to) {
    const double middle = 0.5 * (from + to);
    const double length_s = (to - from) * (step.end_s - step.start_s);
    const Holds now = holds(step.at(core_, middle), step.at(heat::kNodeAir, middle));
    if (!now.hot && task_.unbroken) result_.hold_s = 0.0;
    reached_ = reached_ || now.hot;
    const std::optional<double> left = left_s(now);
    result_.done = left && *left <= length_s;
    if (result_.done) result_.finish_s = step.start_s + from * (step.end_s - step.start_s) + *left;
    add(now, result_.done ? *left : length_s);
  }

  /// The time of the steps that were not shown.
  void pass_over(double length_s) {
    if (length_s > 0.0) add(holds_on_, length_s);
  }

  /// After sunset a core that cools below its target, in an oven that cools too, will not come
  /// back.
  /// @return the share of the step from which on that is so; beyond 1: not yet
  [[nodiscard]] double given_up(const heat::Step& step) const {
    constexpr double kNotYet = 2.0;
    const auto core = static_cast<std::size_t>(core_);
    if (step.end_s < setup_.sunset_s || step.rise1[core] >= 0.0 ||
        step.rise1[heat::kNodeLiner] >= 0.0 || step.y1[core] >= target_K_)
      return kNotYet;
    const double sunset = (setup_.sunset_s - step.start_s) / (step.end_s - step.start_s);
    const double below = step.crossing(core_, target_K_);
    return std::max({std::min(sunset, 1.0),
                     step.turn(core_),
                     step.turn(heat::kNodeLiner),
                     below <= 1.0 ? below : 0.0});
  }

  /// The run ends: if it failed clearly, those behind it need not go on.
  void hand_in_track() {
    if (!track_) return;
    if (failed_clearly()) {
      forerunners_->lead(*day_, std::move(track_), result_.peak_core_K);
    } else {
      forerunners_->give_back(std::move(track_));
    }
  }
  [[nodiscard]] bool failed_clearly() const {
    if (result_.done) return false;
    if (result_.peak_core_K < target_K_ - forerunners_->clear_K()) return true;
    const bool short_hold =
        !task_.unbroken && result_.hold_s < task_.hold_s - Forerunners::kClear_s;
    return short_hold ||
           (task_.oven_air_K && result_.air_s < task_.oven_air_s - Forerunners::kClear_s);
  }

  void settle(const heat::Step& step, double share) {
    if (model_.drying())
      evaporated_kg_ = 0.01 * model_.water_kg * (100.0 - step.at(heat::kNodeWater, share));
  }

  /// Which steps need not be shown: those in which no level is crossed, nothing gets done and that
  /// end before sunset.
  void look_ahead(const heat::Step& step) {
    const double core_K = step.y1[static_cast<std::size_t>(core_)];
    const double air_K = step.y1[heat::kNodeAir];
    seen_until_s_ = step.end_s;
    holds_on_ = holds(core_K, air_K);
    if (setup_.also != nullptr) return;  // it sees every step
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
    if (const std::optional<double> left = left_s(holds_on_))
      quiet.until_s = std::min(quiet.until_s, step.end_s + *left);
    set_quiet(quiet);
  }

  const Task& task_;
  const DangerRule& rule_;
  const heat::HeatModel& model_;
  int core_;
  double target_K_;
  const CookSetup& setup_;
  double seen_until_s_;  ///< end of the step last shown
  CookResult& result_;
  Holds holds_on_;  ///< from there on, until the next step shown
  bool reached_ = false;
  std::optional<double> evaporated_kg_;
  Forerunners* forerunners_;
  Forerunners::Day* day_ = nullptr;
  std::unique_ptr<Track> track_;
  double lids_shut_s_ = 0.0;
};

/// When the lid stands open: at loading, and at the routine's looks and stirs while somebody is
/// home.
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
               Forerunners* forerunners) {
  OVENDAYS_CHECK(setups.size() == results.size());
  // The longest first: what is left at last is short, and the integrator's lanes stay full.
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
    result.peak_core_K = task.start_K;
    const std::size_t first_lid = lids.size();
    add_lid_openings(routine, setup.load_s, lids);  // no more than there is room for
    watchers.emplace_back(task, model, setup, result, forerunners);
    watchers.back().set_lids_shut(lids.back().to_s);
    heat::Run& run = runs[i];
    run.forcing = setup.forcing;
    run.start_s = setup.load_s;
    run.end_s = watchers.back().end_s();
    run.marks = watchers.back().asks_at_marks();
    run.state = setup.oven;
    for (const int node : {heat::kNodeVessel,
                           heat::kNodeLid,
                           heat::kNodeFood,
                           heat::kNodeShell1,
                           heat::kNodeShell2,
                           heat::kNodeShell3,
                           heat::kNodeShell4}) {
      run.state[static_cast<std::size_t>(node)] = task.start_K;
    }
    run.state[heat::kNodeWater] = 100.0;
    run.lid_open = std::span(lids).subspan(first_lid);
    run.watcher = &watchers[i];
  }
  std::vector<heat::RunSummary> summaries(runs.size());
  heat::integrate(model, runs, summaries, options);
  for (std::size_t i = 0; i < results.size(); ++i) {
    CookResult& result = results[order[i]];
    result.run = summaries[i];
    result.evaporated_kg = watchers[i].evaporated_kg().value_or(summaries[i].evaporated_kg);
    result.safe = !task.spoils || result.danger_s <= danger_rule_of(task).limit_s;
  }
}
}  // namespace ovendays::task
