// SPDX-License-Identifier: MIT
#include "week_run.h"

#include <algorithm>
#include <cmath>

namespace ovendays::season {
namespace {

/// What may be taken away, in the order of the causes; the last is all of it.
constexpr std::array<Without, 5> kWithout = {Without{true, false, false, false},
                                             Without{false, true, false, false},
                                             Without{false, false, true, false},
                                             Without{false, false, false, true},
                                             Without{true, true, true, true}};
constexpr int kAsItIs = -1;
constexpr int kWithoutAll = 4;

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

bool good(const task::CookResult& cook) { return cook.done && cook.safe; }

/// Loading times in rounds, the morning's later half first: where one time works, it is most often
/// there. Where no more is asked than whether any does, one of them goes ahead.
std::array<std::array<std::size_t, 2>, 4> rounds_of(std::size_t times, bool one_ahead) {
  const std::size_t first = times / 4;
  const std::size_t last = std::min(first + 4, times);
  const std::size_t ahead = one_ahead ? std::min(first + 1, last) : first;
  return {{{first, ahead}, {ahead, last}, {last, times}, {0, first}}};
}

/// Takes out of `days` those that are in `found` (both ascending).
void take_out(std::vector<std::size_t>& days, const std::vector<std::size_t>& found) {
  std::vector<std::size_t> rest;
  std::set_difference(
      days.begin(), days.end(), found.begin(), found.end(), std::back_inserter(rest));
  days = std::move(rest);
}
}  // namespace

task::CookSetup cook_setup(const Setup& setup,
                           const EmptyJob& job,
                           const EmptyDay& empty,
                           std::size_t task,
                           std::size_t time) {
  task::CookSetup cook;
  cook.load_s = setup.load_times_s[time];
  cook.forcing = forcing_of(*job.today, setup.load_of_task[task]);
  cook.sunset_s = setup.sky_day(job.day_index).light.sunset_s;
  cook.oven = setup.c->routine.preheat
                  ? empty.at_load[time]
                  : heat::uniform_state(air_at(*job.today, cook.load_s).start.ambient_K);
  return cook;
}

void DayAudit::add(const heat::RunSummary& run) {
  ++runs;
  steps += run.steps;
  rejected += run.rejected;
  in_J += run.audit.in_J;
  out_J += run.audit.out_J;
  stored_J += run.audit.stored_J;
  residual_J += std::abs(run.audit.residual_J());
  if (run.audit.in_J > 1e5)
    worst_share = std::max(worst_share, std::abs(run.audit.residual_J()) / run.audit.in_J);
}

WeekRun::WeekRun(const Setup& setup, int first_day, int days, const SeasonOptions& options)
    : setup_(setup),
      first_day_(first_day),
      options_(options),
      audits_(static_cast<std::size_t>(days)) {
  for (auto& variants : variants_) variants.resize(audits_.size());
}

std::size_t WeekRun::usable_times(std::size_t t) const {
  const std::vector<double>& times = setup_.load_times_s;
  return static_cast<std::size_t>(
      std::lower_bound(times.begin(), times.end(), setup_.c->tasks[t].finish_by_s) - times.begin());
}

std::vector<task::CookResult> WeekRun::cook(std::size_t t,
                                            const std::vector<Trial>& trials,
                                            int which,
                                            task::Forerunners& forerunners) {
  std::vector<task::CookSetup> setups(trials.size());
  for (std::size_t i = 0; i < trials.size(); ++i) {
    const auto [day, time] = trials[i];
    if (which == kAsItIs) {
      const GainDay& gains = setup_.days[static_cast<std::size_t>(day_index(day))];
      setups[i] = cook_setup(setup_, {day_index(day), &gains}, empty_[day], t, time);
    } else {
      const Variant& variant = *variants_[static_cast<std::size_t>(which)][day];
      setups[i] = cook_setup(setup_, {day_index(day), &variant.gains}, variant.empty, t, time);
    }
  }
  std::vector<task::CookResult> results(setups.size());
  task::run_cooks(setup_.c->tasks[t],
                  setup_.c->routine,
                  setup_.models[t],
                  setups,
                  results,
                  options_.integrator,
                  options_.follow_all ? nullptr : &forerunners);
  for (std::size_t i = 0; i < trials.size(); ++i) {
    if (results[i].run.failed()) {
      fail_run("task '" + setup_.c->tasks[t].name + "'",
               setup_.sky_day(day_index(trials[i].day)).date,
               results[i].run);
    }
    audits_[trials[i].day].add(results[i].run);
  }
  return results;
}

DayTask WeekRun::tell(std::size_t t,
                      std::span<const task::CookResult> cooks,
                      std::size_t first_time) const {
  const task::Task& task = setup_.c->tasks[t];
  const double target_K = task::effective_target_K(task, setup_.boiling_K);
  DayTask told;
  std::size_t best = 0;
  while (best + 1 < cooks.size() && cooks[best].overtaken) ++best;
  bool works = false;
  bool hot = false;
  for (std::size_t i = 0; i < cooks.size(); ++i) {
    const task::CookResult& r = cooks[i];
    const double load_s = setup_.load_times_s[first_time + i];
    hot = hot || r.done;
    if (good(r)) {
      if (told.window_count++ == 0) told.window_first_s = static_cast<float>(load_s);
      told.window_last_s = static_cast<float>(load_s);
    }
    if (r.overtaken) continue;  // one that is not got at least as far
    const bool better =
        good(r) ? !works || r.finish_s - load_s <
                                cooks[best].finish_s - setup_.load_times_s[first_time + best]
                : !works && (i == best || got_further(r, cooks[best]));
    if (better) best = i;
    works = works || good(r);
  }
  told.outcome = works ? Outcome::kCooked : hot ? Outcome::kUnsafe : Outcome::kShort;
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

std::vector<WeekRun::Trial> WeekRun::trials_of(const std::vector<std::size_t>& days,
                                               std::size_t from,
                                               std::size_t to) {
  std::vector<Trial> trials;
  for (const std::size_t day : days) {
    for (std::size_t time = from; time < to; ++time) trials.push_back({day, time});
  }
  return trials;
}

std::vector<std::size_t> WeekRun::days_to_cook(std::size_t t) {
  std::vector<std::size_t> days;
  for (std::size_t day = 0; day < empty_.size(); ++day) {
    DayTask& result = results_[t * empty_.size() + day];
    result.cause = setup_.stay_in[static_cast<std::size_t>(day_index(day))];
    if (result.cause == Cause::kNone) {
      days.push_back(day);
    } else {
      result.outcome = Outcome::kNoGo;
    }
  }
  return days;
}

void WeekRun::cook_task(std::size_t t) {
  const std::size_t times = usable_times(t);
  const std::vector<std::size_t> days = days_to_cook(t);
  task::Forerunners forerunners(setup_.models[t]);
  const std::vector<task::CookResult> cooks =
      cook(t, trials_of(days, 0, times), kAsItIs, forerunners);
  for (std::size_t i = 0; i < days.size(); ++i) {
    results_[t * empty_.size() + days[i]] = tell(t, std::span(cooks).subspan(i * times, times), 0);
  }
}

void WeekRun::cook_days_only(std::size_t t) {
  std::vector<std::size_t> left = days_to_cook(t);
  std::vector<std::vector<task::CookResult>> tried(empty_.size());
  for (const std::size_t day : left) tried[day].resize(usable_times(t));
  task::Forerunners forerunners(setup_.models[t]);
  for (const auto& [from, to] : rounds_of(usable_times(t), options_.outcomes_only)) {
    const std::vector<task::CookResult> cooks =
        cook(t, trials_of(left, from, to), kAsItIs, forerunners);
    std::vector<std::size_t> now;
    for (std::size_t i = 0; i < left.size(); ++i) {
      const std::span round = std::span(cooks).subspan(i * (to - from), to - from);
      std::copy(round.begin(), round.end(), tried[left[i]].begin() + static_cast<long>(from));
      if (std::none_of(round.begin(), round.end(), good)) continue;
      DayTask told = tell(t, round, from);
      told.window_first_s = told.window_last_s = -1.0F;
      told.window_count = 0;
      results_[t * empty_.size() + left[i]] = told;
      now.push_back(left[i]);
    }
    take_out(left, now);
  }
  for (const std::size_t day : left) results_[t * empty_.size() + day] = tell(t, tried[day], 0);
}

void WeekRun::make_variants(const std::vector<std::size_t>& days, int which) {
  auto& variants = variants_[static_cast<std::size_t>(which)];
  std::vector<EmptyJob> jobs;
  std::vector<std::size_t> made;
  for (const std::size_t day : days) {
    if (variants[day]) continue;
    variants[day] = std::make_unique<Variant>();
    const sky::SkyDay& sky = setup_.sky_day(day_index(day));
    variants[day]->gains =
        make_gain_day(setup_.gains, sky, kWithout[static_cast<std::size_t>(which)], false);
    jobs.push_back({day_index(day), &variants[day]->gains});
    made.push_back(day);
  }
  std::vector<EmptyDay> empty =
      run_empty_days(setup_, jobs, Until::kLastLoading, options_.integrator);
  for (std::size_t i = 0; i < made.size(); ++i) variants[made[i]]->empty = std::move(empty[i]);
}

std::vector<std::size_t> WeekRun::works_without(std::size_t t,
                                                const std::vector<std::size_t>& days,
                                                int which) {
  if (days.empty()) return {};
  make_variants(days, which);
  std::vector<std::size_t> left = days;
  std::vector<std::size_t> found;
  task::Forerunners forerunners(setup_.models[t]);
  for (const auto& [from, to] : rounds_of(usable_times(t), true)) {
    const std::vector<Trial> trials = trials_of(left, from, to);
    const std::vector<task::CookResult> cooks = cook(t, trials, which, forerunners);
    std::vector<std::size_t> now;
    for (std::size_t i = 0; i < trials.size(); ++i) {
      if (good(cooks[i]) && (now.empty() || now.back() != trials[i].day))
        now.push_back(trials[i].day);
    }
    take_out(left, now);
    found.insert(found.end(), now.begin(), now.end());
  }
  std::sort(found.begin(), found.end());
  return found;
}

void WeekRun::find_causes(std::size_t t) {
  std::vector<std::size_t> lost;
  for (std::size_t day = 0; day < empty_.size(); ++day) {
    const Outcome outcome = result(t, day).outcome;
    if (outcome == Outcome::kShort || outcome == Outcome::kUnsafe) lost.push_back(day);
  }
  const auto settle = [&](int which, Cause cause) {
    const std::vector<std::size_t> found = works_without(t, lost, which);
    for (const std::size_t day : found) results_[t * empty_.size() + day].cause = cause;
    take_out(lost, found);
  };
  if (!setup_.scene.open()) settle(0, Cause::kObstruction);
  settle(1, Cause::kCloud);
  // What all four together cannot save is the season's; asked before the two that seldom help.
  std::vector<std::size_t> hopeful = works_without(t, lost, kWithoutAll);
  for (const std::size_t day : lost) results_[t * empty_.size() + day].cause = Cause::kSeason;
  lost = std::move(hopeful);
  settle(2, Cause::kAim);
  settle(3, Cause::kWind);
  for (const std::size_t day : lost) results_[t * empty_.size() + day].cause = Cause::kSeveral;
}

void WeekRun::run_empty() {
  std::vector<EmptyJob> jobs;
  std::vector<std::size_t> wanted;
  for (std::size_t day = 0; day < audits_.size(); ++day) {
    const auto index = static_cast<std::size_t>(day_index(day));
    if (options_.days_only && setup_.stay_in[index] != Cause::kNone) continue;  // nobody loads it
    jobs.push_back({day_index(day), &setup_.days[index]});
    wanted.push_back(day);
  }
  const Until until = options_.days_only ? Until::kLastLoading : Until::kMidnight;
  std::vector<EmptyDay> ran = run_empty_days(setup_, jobs, until, options_.integrator);
  empty_.resize(audits_.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    audits_[wanted[i]].add(ran[i].run);
    empty_[wanted[i]] = std::move(ran[i]);
  }
}

void WeekRun::run() {
  run_empty();
  const std::size_t tasks = setup_.c->tasks.size();
  results_.assign(tasks * empty_.size(), DayTask{});
  for (std::size_t t = 0; t < tasks; ++t) {
    if (options_.days_only) {
      cook_days_only(t);
    } else {
      cook_task(t);
    }
    if (options_.causes) find_causes(t);
  }
}
}  // namespace ovendays::season
