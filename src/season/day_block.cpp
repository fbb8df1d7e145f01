// SPDX-License-Identifier: MIT
#include "day_block.h"

#include <algorithm>
#include <cmath>

namespace ovendays::season {
namespace {

/// A cook that got no hotter than this above an earlier one is taken as equal: dominance pruning
/// (task/dominance.h) stops later cooks that could get ahead by less.
constexpr double kSameHeat_K = 0.25;

/// Orders cooks that do not work by how near they came. Done but unsafe beats not done; of two
/// unsafe ones the one with less time in the danger zone is better.
bool got_further(const task::CookResult& a, const task::CookResult& b) {
  if (a.done != b.done) return a.done;
  if (a.done) return a.danger_s < b.danger_s;
  if (a.hold_s != b.hold_s) return a.hold_s > b.hold_s;
  return a.peak_core_K > b.peak_core_K + kSameHeat_K;
}

/// How much of the demands on time was met. A target without a hold is either reached or not; a
/// baking task also needs the air to be hot for long enough, and the lesser of the two shares
/// counts.
double hold_share(const task::Task& t, const task::CookResult& r, double target_K) {
  if (r.done) return 1.0;
  const double hold =
      t.hold_s > 0.0 ? std::min(1.0, r.hold_s / t.hold_s) : (r.peak_core_K >= target_K ? 1.0 : 0.0);
  const double air = t.oven_air_s > 0.0 ? std::min(1.0, r.air_s / t.oven_air_s) : 1.0;
  return std::min(hold, air);
}
}  // namespace

DayBlock::DayBlock(const Setup& setup, int first_day, int days, const SeasonOptions& options)
    : setup_(setup),
      first_day_(first_day),
      days_(static_cast<std::size_t>(days)),
      options_(options),
      audits_(days_ * (setup.c->tasks.size() + 1)),
      results_(days_ * setup.c->tasks.size()) {}

// Tasks are cooked in any order, so each has its own sums. They are added up here in a fixed order.
AuditTotal DayBlock::audit(std::size_t day) const {
  AuditTotal sum;
  for (std::size_t place = day; place < audits_.size(); place += days_) sum += audits_[place];
  return sum;
}

std::vector<task::CookResult> DayBlock::try_times(std::size_t t,
                                                  const std::vector<std::size_t>& days,
                                                  std::size_t from,
                                                  std::size_t to,
                                                  task::DominancePruning& pruning) {
  std::vector<PlannedCook> cooks;
  cooks.reserve(days.size() * (to - from));
  const std::vector<DayForcing>& forcing = forcing_->days[setup_.group_of_task[t]];
  for (const std::size_t day : days) {
    for (std::size_t time = from; time < to; ++time)
      cooks.push_back({day_index(day), &forcing[day], &empty_[day], time});
  }
  std::vector<task::CookResult> results = run_planned_cooks(setup_, t, cooks, options_, pruning);
  for (std::size_t i = 0; i < cooks.size(); ++i) {
    const auto day = static_cast<std::size_t>(cooks[i].day_index - first_day_);
    audits_[(t + 1) * days_ + day] += results[i].run;
  }
  return results;
}

DayTask DayBlock::summarise(std::size_t t,
                            std::span<const task::CookResult> cooks,
                            std::size_t first_time) const {
  const task::Task& task = setup_.c->tasks[t];
  const double target_K = task::effective_target_K(task, setup_.boiling_K);
  DayTask day;
  std::size_t best = 0;  // the first cook that was followed to its end, to begin with
  while (best + 1 < cooks.size() && cooks[best].pruned) ++best;
  bool any_works = false;
  bool hot = false;
  for (std::size_t i = 0; i < cooks.size(); ++i) {
    const task::CookResult& r = cooks[i];
    const double load_s = setup_.load_times_s[first_time + i];
    hot = hot || r.done;
    if (works(r)) {
      if (day.window_count++ == 0) day.window_first_s = static_cast<float>(load_s);
      day.window_last_s = static_cast<float>(load_s);
    }
    // A cook is pruned only behind one of the same day that failed and got at least as far.
    if (r.pruned) continue;
    const bool better =
        works(r) ? !any_works || r.finish_s - load_s <
                                     cooks[best].finish_s - setup_.load_times_s[first_time + best]
                 : !any_works && (i == best || got_further(r, cooks[best]));
    if (better) best = i;
    any_works = any_works || works(r);
  }
  day.outcome = any_works ? Outcome::kCooked : hot ? Outcome::kUnsafe : Outcome::kShort;
  if (cooks.empty()) return day;
  const task::CookResult& r = cooks[best];
  day.load_s = static_cast<float>(setup_.load_times_s[first_time + best]);
  if (r.done) {
    day.finish_s = static_cast<float>(r.finish_s);
    day.margin_s = static_cast<float>(task.finish_by_s - r.finish_s);
  }
  day.peak_core_K = static_cast<float>(r.peak_core_K);
  day.shortfall_K = r.done ? 0.0F : static_cast<float>(std::max(0.0, target_K - r.peak_core_K));
  day.hold_share = static_cast<float>(hold_share(task, r, target_K));
  day.air_short_s = static_cast<float>(std::max(0.0, task.oven_air_s - r.air_s));
  day.danger_s = static_cast<float>(r.danger_s);
  day.evaporated_kg = static_cast<float>(r.evaporated_kg);
  return day;
}

std::vector<std::size_t> DayBlock::days_to_cook(std::size_t t) {
  // A case that is read has a notch for every task; one whose amounts are varied may have none.
  const bool nowhere = task::no_notch(setup_.groups[setup_.group_of_task[t]].notches);
  std::vector<std::size_t> days;
  for (std::size_t day = 0; day < days_; ++day) {
    DayTask& result = results_[t * days_ + day];
    if (!setup_.simulated(day_index(day))) continue;  // stays a no-go without a cause
    result.cause = setup_.stay_in[static_cast<std::size_t>(day_index(day))];
    if (result.cause == Cause::kNone && nowhere) result.cause = Cause::kTilt;
    if (result.cause == Cause::kNone) {
      days.push_back(day);
    } else {
      result.outcome = Outcome::kNoGo;
    }
  }
  return days;
}

void DayBlock::cook_all_times(std::size_t t) {
  const std::size_t times = usable_times(setup_, t);
  const std::vector<std::size_t> days = days_to_cook(t);
  task::DominancePruning pruning(setup_.models[t]);
  const std::vector<task::CookResult> cooks = try_times(t, days, 0, times, pruning);
  for (std::size_t i = 0; i < days.size(); ++i) {
    results_[t * days_ + days[i]] = summarise(t, std::span(cooks).subspan(i * times, times), 0);
  }
}

// A day leaves the rounds with the first loading time that works. Days on which none does have seen
// all times at the end and are summarised in full.
void DayBlock::cook_until_one_works(std::size_t t) {
  std::vector<std::size_t> left = days_to_cook(t);
  std::vector<std::vector<task::CookResult>> tried(days_);
  for (const std::size_t day : left) tried[day].resize(usable_times(setup_, t));
  task::DominancePruning pruning(setup_.models[t]);
  for (const auto& [from, to] : rounds_of(usable_times(setup_, t), options_.outcomes_only)) {
    const std::vector<task::CookResult> cooks = try_times(t, left, from, to, pruning);
    std::vector<std::size_t> now;
    for (std::size_t i = 0; i < left.size(); ++i) {
      const std::span round = std::span(cooks).subspan(i * (to - from), to - from);
      std::copy(round.begin(), round.end(), tried[left[i]].begin() + static_cast<long>(from));
      if (std::none_of(round.begin(), round.end(), works)) continue;
      DayTask day = summarise(t, round, from);
      // Other times were not tried, so the window is not known.
      day.window_first_s = day.window_last_s = -1.0F;
      day.window_count = 0;
      results_[t * days_ + left[i]] = day;
      now.push_back(left[i]);
    }
    remove_days(left, now);
  }
  for (const std::size_t day : left) results_[t * days_ + day] = summarise(t, tried[day], 0);
}

void DayBlock::prepare() {
  forcing_ = block_forcing(setup_, first_day_, static_cast<int>(days_));
  std::vector<std::size_t> wanted;
  std::vector<NightJob> before;
  for (std::size_t day = 0; day < days_; ++day) {
    if (options_.days_only && !setup_.sets_out(day_index(day))) continue;  // nobody cooks
    wanted.push_back(day);
    before.push_back({day_index(day), day == 0 ? &forcing_->eve : &forcing_->days[0][day - 1]});
  }
  const std::vector<Midnight> midnights = run_nights(setup_, before, options_.integrator);
  std::vector<EmptyJob> jobs;
  for (std::size_t i = 0; i < wanted.size(); ++i)
    jobs.push_back({day_index(wanted[i]), midnights[i], &forcing_->days[0][wanted[i]]});
  const Until until = options_.days_only ? Until::kLastLoading : Until::kMidnight;
  std::vector<EmptyDay> ran = run_empty_days(setup_, jobs, until, options_.integrator);
  midnights_.resize(days_);
  empty_.resize(days_);
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    audits_[wanted[i]] += ran[i].run;
    midnights_[wanted[i]] = midnights[i];
    empty_[wanted[i]] = std::move(ran[i]);
  }
}

void DayBlock::release() {
  forcing_.reset();
  empty_ = {};
}

void DayBlock::cook(std::size_t task) {
  if (options_.days_only) {
    cook_until_one_works(task);
  } else {
    cook_all_times(task);
  }
}
}  // namespace ovendays::season
