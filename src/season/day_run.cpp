// SPDX-License-Identifier: MIT
#include "day_run.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"

namespace ovendays::season {
namespace {

constexpr double kNoon_s = 43200.0;

/// What may be taken away, in the order of the causes; the last is all of it.
constexpr std::array<Without, 5> kWithout = {Without{true, false, false, false},
                                             Without{false, true, false, false},
                                             Without{false, false, true, false},
                                             Without{false, false, false, true},
                                             Without{true, true, true, true}};

/// Remembers the empty oven's state at the ends of hours and its peaks.
class EmptyWatcher : public heat::StepWatcher {
 public:
  explicit EmptyWatcher(EmptyDay& day) : day_(day) {}
  bool on_step(const heat::Step& step) override {
    const double hours = step.end_s / base::kSecondsPerHour;
    const double whole = std::round(hours);
    if (std::abs(hours - whole) < 1e-6 && whole >= 1.0) {
      day_.hour_end[static_cast<std::size_t>(whole) - 1] = step.y1.copy();
    } else {
      // An hour's end within the step, where segments are cut elsewhere (clocks off by minutes).
      const double next = std::floor(step.end_s / base::kSecondsPerHour);
      const double share =
          (next * base::kSecondsPerHour - step.start_s) / (step.end_s - step.start_s);
      if (next >= 1.0 && share > 0.0) {
        heat::State& state = day_.hour_end[static_cast<std::size_t>(next) - 1];
        for (int node = 0; node < heat::kNodes; ++node)
          state[static_cast<std::size_t>(node)] = step.at(node, share);
      }
    }
    day_.peak_air_K = std::max(day_.peak_air_K, step.y1[heat::kNodeAir]);
    day_.peak_liner_K = std::max(day_.peak_liner_K, step.y1[heat::kNodeLiner]);
    return true;
  }

 private:
  EmptyDay& day_;
};

heat::Forcing forcing_of(const GainDay& day, std::size_t load) {
  return {day.air, day.gains[load]};
}

[[noreturn]] void fail(const std::string& what,
                       const base::Date& date,
                       const heat::RunSummary& run) {
  throw base::RunError(what + " on " + base::month_name(date.month) + " " +
                       std::to_string(date.day) + ": the integration failed at " +
                       base::clock_text(run.end_s));
}

/// Of two cooks that do not work, did `a` get further than `b`?
bool got_further(const task::CookResult& a, const task::CookResult& b) {
  if (a.done != b.done) return a.done;
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

DayRun::DayRun(const Setup& setup, int day_index, const SeasonOptions& options)
    : setup_(setup), day_(day_index), options_(options) {}

EmptyDay DayRun::run_empty(const GainDay& today) {
  EmptyDay empty;
  const GainDay& before = setup_.days[static_cast<std::size_t>((day_ + kDays - 1) % kDays)];
  const auto noon = std::find_if(before.air.begin(),
                                 before.air.end(),
                                 [](const heat::AirSegment& a) { return a.end_s > kNoon_s; });
  heat::Run run;
  run.forcing = forcing_of(before, 0);
  run.start_s = kNoon_s;
  run.end_s = base::kSecondsPerDay;
  run.state = heat::uniform_state(noon->start.ambient_K);
  const base::Date date = setup_.sky[static_cast<std::size_t>(day_)].date;
  heat::RunSummary part = heat::integrate(setup_.empty, run, options_.integrator);
  if (part.failed()) fail("the empty oven", date, part);
  EmptyWatcher watcher(empty);
  run.forcing = forcing_of(today, 0);
  run.watcher = &watcher;
  run.end_s = 0.0;
  const auto run_to = [&](double to_s) {
    if (to_s <= run.end_s) return;
    run.start_s = run.end_s;
    run.end_s = to_s;
    run.first_step_s = part.next_step_s;
    part = heat::integrate(setup_.empty, run, options_.integrator);
    if (part.failed()) fail("the empty oven", date, part);
    empty.run.steps += part.steps;
    empty.run.rejected += part.rejected;
    empty.run.audit += part.audit;
  };
  for (const double load_s : setup_.load_times_s) {
    run_to(load_s);
    empty.at_load.push_back(run.state);
  }
  run_to(base::kSecondsPerDay);
  return empty;
}

std::size_t DayRun::usable_times(std::size_t t) const {
  const std::vector<double>& times = setup_.load_times_s;
  return static_cast<std::size_t>(
      std::lower_bound(times.begin(), times.end(), setup_.c->tasks[t].finish_by_s) - times.begin());
}

std::vector<task::CookResult> DayRun::cook(
    std::size_t t, const GainDay& day, const EmptyDay& empty, std::size_t from, std::size_t to) {
  std::vector<task::CookSetup> setups(to - from);
  for (std::size_t i = from; i < to; ++i) {
    task::CookSetup& setup = setups[i - from];
    setup.load_s = setup_.load_times_s[i];
    setup.forcing = forcing_of(day, setup_.load_of_task[t]);
    setup.sunset_s = setup_.sky[static_cast<std::size_t>(day_)].light.sunset_s;
    if (setup_.c->routine.preheat) {
      setup.oven = empty.at_load[i];
    } else {
      const auto later =
          std::find_if(day.air.begin(), day.air.end(), [&](const heat::AirSegment& a) {
            return a.end_s > setup.load_s;
          });
      setup.oven = heat::uniform_state(later->start.ambient_K);
    }
  }
  std::vector<task::CookResult> results(setups.size());
  task::run_cooks(setup_.c->tasks[t],
                  setup_.c->routine,
                  setup_.models[t],
                  setups,
                  results,
                  options_.integrator);
  for (const task::CookResult& result : results) {
    if (result.run.failed()) {
      fail("task '" + setup_.c->tasks[t].name + "'",
           setup_.sky[static_cast<std::size_t>(day_)].date,
           result.run);
    }
    audit_.add(result.run);
  }
  return results;
}

DayTask DayRun::cook_all(std::size_t t) {
  const task::Task& task = setup_.c->tasks[t];
  const double target_K = task::effective_target_K(task, setup_.boiling_K);
  DayTask told;
  task::CookResult best;
  std::size_t best_index = 0;
  bool any = false;
  bool works = false;
  bool hot = false;
  const std::vector<task::CookResult> cooks =
      cook(t, setup_.days[static_cast<std::size_t>(day_)], empty_, 0, usable_times(t));
  for (std::size_t i = 0; i < cooks.size(); ++i) {
    const double load_s = setup_.load_times_s[i];
    const task::CookResult& r = cooks[i];
    hot = hot || r.done;
    const bool good = r.done && r.safe;
    if (good) {
      if (told.window_count++ == 0) told.window_first_s = static_cast<float>(load_s);
      told.window_last_s = static_cast<float>(load_s);
    }
    const bool better =
        good ? (!works || r.finish_s - load_s < best.finish_s - setup_.load_times_s[best_index])
             : (!works && (!any || got_further(r, best)));
    if (better) {
      best = r;
      best_index = i;
    }
    any = true;
    works = works || good;
  }
  told.outcome = works ? Outcome::kCooked : hot ? Outcome::kUnsafe : Outcome::kShort;
  if (!any) return told;
  told.load_s = static_cast<float>(setup_.load_times_s[best_index]);
  if (best.done) {
    told.finish_s = static_cast<float>(best.finish_s);
    told.margin_s = static_cast<float>(task.finish_by_s - best.finish_s);
  }
  told.peak_core_K = static_cast<float>(best.peak_core_K);
  told.shortfall_K = static_cast<float>(std::max(0.0, target_K - best.peak_core_K));
  told.hold_share = static_cast<float>(hold_share(task, best, target_K));
  told.danger_s = static_cast<float>(best.danger_s);
  told.evaporated_kg = static_cast<float>(best.evaporated_kg);
  return told;
}

bool DayRun::works_without(std::size_t t, const Without& without) {
  const auto which =
      static_cast<std::size_t>(std::find_if(kWithout.begin(),
                                            kWithout.end(),
                                            [&](const Without& w) {
                                              return w.obstruction == without.obstruction &&
                                                     w.cloud == without.cloud &&
                                                     w.aim == without.aim && w.wind == without.wind;
                                            }) -
                               kWithout.begin());
  Variant& variant = variants_[which];
  if (!variant.made) {
    variant.day = make_gain_day(setup_.gains, setup_.sky[static_cast<std::size_t>(day_)], without);
    variant.empty = run_empty(variant.day);
    variant.made = true;
  }
  // Eight at a time, the morning's later half first: where one works, it is most often one of
  // those.
  const std::size_t count = usable_times(t);
  constexpr std::size_t kBatch = 8;
  const std::size_t first = std::min(count / 4, count > kBatch ? count - kBatch : 0);
  const auto any_good = [](const std::vector<task::CookResult>& results) {
    return std::any_of(
        results.begin(), results.end(), [](const task::CookResult& r) { return r.done && r.safe; });
  };
  const std::size_t last = std::min(first + kBatch, count);
  if (any_good(cook(t, variant.day, variant.empty, first, last))) return true;
  if (first > 0 && any_good(cook(t, variant.day, variant.empty, 0, first))) return true;
  return last < count && any_good(cook(t, variant.day, variant.empty, last, count));
}

Cause DayRun::cause_of(std::size_t t) {
  if (!works_without(t, kWithout[4])) return Cause::kSeason;
  constexpr std::array<Cause, 4> kCause = {
      Cause::kObstruction, Cause::kCloud, Cause::kAim, Cause::kWind};
  for (std::size_t w = 0; w < kCause.size(); ++w) {
    if (w == 0 && setup_.scene.open()) continue;
    if (works_without(t, kWithout[w])) return kCause[w];
  }
  return Cause::kSeveral;
}

bool DayRun::no_go(DayTask& result) const {
  const task::Routine& routine = setup_.c->routine;
  const sky::SkyDay& sky = setup_.sky[static_cast<std::size_t>(day_)];
  result.outcome = Outcome::kNoGo;
  if (!task::cooks_on(routine, day_)) {
    result.cause = Cause::kRoutine;
    return true;
  }
  if (sky.rain_m > routine.stay_in_rain_m && !setup_.c->spot.roofed) {
    result.cause = Cause::kRain;
    return true;
  }
  double windiest_ms = 0.0;
  for (const sky::SkySegment& s : sky.segments) {
    if (s.end_s <= routine.set_out_s || s.start_s >= routine.latest_load_s) continue;
    windiest_ms =
        std::max(windiest_ms, 0.5 * (s.start.wind_ms + s.end.wind_ms) * setup_.c->spot.wind_factor);
  }
  result.cause = Cause::kWind;
  return windiest_ms > routine.stay_in_wind_ms;
}

void DayRun::run(std::span<DayTask> out) {
  empty_ = run_empty(setup_.days[static_cast<std::size_t>(day_)]);
  audit_.add(empty_.run);
  for (std::size_t t = 0; t < out.size(); ++t) {
    out[t] = {};
    if (no_go(out[t])) continue;
    out[t] = cook_all(t);
    if (out[t].outcome != Outcome::kCooked && options_.causes) out[t].cause = cause_of(t);
  }
}
}  // namespace ovendays::season
