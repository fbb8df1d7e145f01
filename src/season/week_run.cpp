// SPDX-License-Identifier: MIT
#include "week_run.h"

#include <algorithm>
#include <cmath>

namespace ovendays::season {
namespace {

/// Of two cooks that do not work, did `a` get further than `b`? Of two that get done, but unsafe,
/// the one that is less long in the danger zone.
bool got_further(const task::CookResult& a, const task::CookResult& b) {
  if (a.done != b.done) return a.done;
  if (a.done) return a.danger_s < b.danger_s;
  if (a.hold_s != b.hold_s) return a.hold_s > b.hold_s;
  return a.peak_core_K > b.peak_core_K;
}

double hold_share(const task::Task& t, const task::CookResult& r, double target_K) {
  if (r.done) return 1.0;
  const double hold =
      t.hold_s > 0.0 ? std::min(1.0, r.hold_s / t.hold_s) : (r.peak_core_K >= target_K ? 1.0 : 0.0);
  const double air = t.oven_air_s > 0.0 ? std::min(1.0, r.air_s / t.oven_air_s) : 1.0;
  return std::min(hold, air);
}
}  // namespace

WeekRun::WeekRun(const Setup& setup, int first_day, int days, const SeasonOptions& options)
    : setup_(setup),
      first_day_(first_day),
      days_(static_cast<std::size_t>(days)),
      options_(options),
      audits_(days_ * (setup.c->tasks.size() + 1)),
      results_(days_ * setup.c->tasks.size()) {}

AuditTotal WeekRun::audit(std::size_t day) const {
  AuditTotal sum;
  for (std::size_t place = day; place < audits_.size(); place += days_) sum += audits_[place];
  return sum;
}

std::vector<task::CookResult> WeekRun::try_times(std::size_t t,
                                                 const std::vector<std::size_t>& days,
                                                 std::size_t from,
                                                 std::size_t to,
                                                 task::Forerunners& forerunners) {
  std::vector<Trial> trials;
  trials.reserve(days.size() * (to - from));
  for (const std::size_t day : days) {
    const int index = day_index(day);
    const CookDay today{index, &drive_->days[day], &empty_[day]};
    for (std::size_t time = from; time < to; ++time) trials.push_back({today, time});
  }
  std::vector<task::CookResult> cooks = cook_trials(setup_, t, trials, options_, forerunners);
  for (std::size_t i = 0; i < cooks.size(); ++i) {
    const auto day = static_cast<std::size_t>(trials[i].day.index - first_day_);
    audits_[(t + 1) * days_ + day] += cooks[i].run;
  }
  return cooks;
}

DayTask WeekRun::tell(std::size_t t,
                      std::span<const task::CookResult> cooks,
                      std::size_t first_time) const {
  const task::Task& task = setup_.c->tasks[t];
  const double target_K = task::effective_target_K(task, setup_.boiling_K);
  DayTask told;
  std::size_t best = 0;
  while (best + 1 < cooks.size() && cooks[best].overtaken) ++best;
  bool any_works = false;
  bool hot = false;
  for (std::size_t i = 0; i < cooks.size(); ++i) {
    const task::CookResult& r = cooks[i];
    const double load_s = setup_.load_times_s[first_time + i];
    hot = hot || r.done;
    if (works(r)) {
      if (told.window_count++ == 0) told.window_first_s = static_cast<float>(load_s);
      told.window_last_s = static_cast<float>(load_s);
    }
    if (r.overtaken) continue;  // one that is not got at least as far
    const bool better =
        works(r) ? !any_works || r.finish_s - load_s <
                                     cooks[best].finish_s - setup_.load_times_s[first_time + best]
                 : !any_works && (i == best || got_further(r, cooks[best]));
    if (better) best = i;
    any_works = any_works || works(r);
  }
  told.outcome = any_works ? Outcome::kCooked : hot ? Outcome::kUnsafe : Outcome::kShort;
  if (cooks.empty()) return told;
  const task::CookResult& r = cooks[best];
  told.load_s = static_cast<float>(setup_.load_times_s[first_time + best]);
  if (r.done) {
    told.finish_s = static_cast<float>(r.finish_s);
    told.margin_s = static_cast<float>(task.finish_by_s - r.finish_s);
  }
  told.peak_core_K = static_cast<float>(r.peak_core_K);
  told.shortfall_K = r.done ? 0.0F : static_cast<float>(std::max(0.0, target_K - r.peak_core_K));
  told.hold_share = static_cast<float>(hold_share(task, r, target_K));
  told.danger_s = static_cast<float>(r.danger_s);
  told.evaporated_kg = static_cast<float>(r.evaporated_kg);
  return told;
}

std::vector<std::size_t> WeekRun::days_to_cook(std::size_t t) {
  std::vector<std::size_t> days;
  for (std::size_t day = 0; day < days_; ++day) {
    DayTask& result = results_[t * days_ + day];
    result.cause = setup_.stay_in[static_cast<std::size_t>(day_index(day))];
    if (result.cause == Cause::kNone) {
      days.push_back(day);
    } else {
      result.outcome = Outcome::kNoGo;
    }
  }
  return days;
}

void WeekRun::cook_in_full(std::size_t t) {
  const std::size_t times = usable_times(setup_, t);
  const std::vector<std::size_t> days = days_to_cook(t);
  task::Forerunners forerunners(setup_.models[t]);
  const std::vector<task::CookResult> cooks = try_times(t, days, 0, times, forerunners);
  for (std::size_t i = 0; i < days.size(); ++i) {
    results_[t * days_ + days[i]] = tell(t, std::span(cooks).subspan(i * times, times), 0);
  }
}

void WeekRun::cook_days_only(std::size_t t) {
  std::vector<std::size_t> left = days_to_cook(t);
  std::vector<std::vector<task::CookResult>> tried(days_);
  for (const std::size_t day : left) tried[day].resize(usable_times(setup_, t));
  task::Forerunners forerunners(setup_.models[t]);
  for (const auto& [from, to] : rounds_of(usable_times(setup_, t), options_.outcomes_only)) {
    const std::vector<task::CookResult> cooks = try_times(t, left, from, to, forerunners);
    std::vector<std::size_t> now;
    for (std::size_t i = 0; i < left.size(); ++i) {
      const std::span round = std::span(cooks).subspan(i * (to - from), to - from);
      std::copy(round.begin(), round.end(), tried[left[i]].begin() + static_cast<long>(from));
      if (std::none_of(round.begin(), round.end(), works)) continue;
      DayTask told = tell(t, round, from);
      told.window_first_s = told.window_last_s = -1.0F;
      told.window_count = 0;
      results_[t * days_ + left[i]] = told;
      now.push_back(left[i]);
    }
    take_out(left, now);
  }
  for (const std::size_t day : left) results_[t * days_ + day] = tell(t, tried[day], 0);
}

void WeekRun::prepare() {
  drive_ = days_of(setup_, first_day_, static_cast<int>(days_));
  std::vector<std::size_t> wanted;
  std::vector<NightJob> before;
  for (std::size_t day = 0; day < days_; ++day) {
    const auto index = static_cast<std::size_t>(day_index(day));
    if (options_.days_only && setup_.stay_in[index] != Cause::kNone) continue;  // nobody loads it
    wanted.push_back(day);
    before.push_back({day_index(day), day == 0 ? &drive_->eve : &drive_->days[day - 1]});
  }
  const std::vector<Midnight> nights = run_nights(setup_, before, options_.integrator);
  std::vector<EmptyJob> jobs;
  for (std::size_t i = 0; i < wanted.size(); ++i)
    jobs.push_back({day_index(wanted[i]), nights[i], &drive_->days[wanted[i]]});
  const Until until = options_.days_only ? Until::kLastLoading : Until::kMidnight;
  std::vector<EmptyDay> ran = run_empty_days(setup_, jobs, until, options_.integrator);
  nights_.resize(days_);
  empty_.resize(days_);
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    audits_[wanted[i]] += ran[i].run;
    nights_[wanted[i]] = nights[i];
    empty_[wanted[i]] = std::move(ran[i]);
  }
}

void WeekRun::let_go() {
  drive_.reset();
  empty_ = {};
}

void WeekRun::cook(std::size_t task) {
  if (options_.days_only) {
    cook_days_only(task);
  } else {
    cook_in_full(task);
  }
}
}  // namespace ovendays::season
