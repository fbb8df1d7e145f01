// SPDX-License-Identifier: MIT
#include "ovendays/season/day_trace.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cause_search.h"
#include "day_block.h"
#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::season {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

/// Records chosen nodes at every whole minute.
class MinuteReader : public heat::StepWatcher {
 public:
  struct Column {
    int node;
    double MinuteTrace::*member;
  };
  MinuteReader(std::vector<MinuteTrace>& minutes, std::vector<Column> columns)
      : minutes_(minutes), columns_(std::move(columns)) {}

  bool on_step(const heat::Step& step) override {
    const double span_s = step.end_s - step.start_s;
    if (!(span_s > 0.0)) return true;
    const long last = std::lround(std::floor(step.end_s / base::kSecondsPerMinute));
    for (long m = std::lround(std::ceil(step.start_s / base::kSecondsPerMinute)); m <= last; ++m) {
      const double t = base::kSecondsPerMinute * static_cast<double>(m);
      MinuteTrace& minute = minutes_[static_cast<std::size_t>(m)];
      for (const Column& column : columns_) {
        minute.*column.member = step.at(column.node, (t - step.start_s) / span_s);
      }
    }
    return true;
  }

 private:
  std::vector<MinuteTrace>& minutes_;
  std::vector<Column> columns_;
};

/// Also finds the moment at which the core first reaches the target.
class CookReader : public MinuteReader {
 public:
  CookReader(DayTrace& trace, const heat::HeatModel& model)
      : MinuteReader(trace.minutes,
                     {{heat::kNodeAir, &MinuteTrace::air_K},
                      {heat::kNodeLiner, &MinuteTrace::liner_K},
                      {heat::kNodeVessel, &MinuteTrace::vessel_K},
                      {model.core_node(), &MinuteTrace::core_K}}),
        trace_(trace),
        core_(model.core_node()) {}

  bool on_step(const heat::Step& step) override {
    const double share = step.crossing(core_, trace_.target_K);
    if (!trace_.target_s && step.y1[static_cast<std::size_t>(core_)] >= trace_.target_K &&
        share <= 1.0) {
      trace_.target_s = step.start_s + share * (step.end_s - step.start_s);
    }
    return MinuteReader::on_step(step);
  }

 private:
  DayTrace& trace_;
  int core_;
};

// Segments are linear in time, so a minute is interpolated between the ends of its segment.
void fill_minute_light(const FineDay& day,
                       const sky::SkyDay& sky,
                       std::vector<MinuteTrace>& minutes) {
  std::size_t segment = 0;
  for (MinuteTrace& minute : minutes) {
    while (segment + 1 < day.segments.air.size() &&
           minute.time_s >= day.segments.air[segment].end_s)
      ++segment;
    const heat::AirSegment& air = day.segments.air[segment];
    const double share = (minute.time_s - air.start_s) / (air.end_s - air.start_s);
    const auto at = [share](double from, double to) { return from + (to - from) * share; };
    const auto both = [&at](const double(&ends)[2]) { return at(ends[0], ends[1]); };
    const LightSegment& light = day.light[segment];
    minute.visible_share = both(light.visible);
    minute.beam_mouth_Wm2 = both(light.beam_mouth_Wm2);
    minute.open_beam_mouth_Wm2 = both(light.open_beam_mouth_Wm2);
    minute.diffuse_mouth_Wm2 = both(light.diffuse_mouth_Wm2);
    minute.ambient_K = at(air.start.ambient_K, air.end.ambient_K);
    minute.wind_ms = at(air.start.wind_ms, air.end.wind_ms);
    const base::Direction sun = sky::sun_at(sky, minute.time_s);
    minute.sun_zenith_rad = std::acos(std::clamp(sun.z, -1.0, 1.0));
    minute.sun_azimuth_rad = base::azimuth_of(sun);
  }
}

std::vector<MinuteTrace> blank_minutes() {
  std::vector<MinuteTrace> minutes(kMinutes + 1);
  for (std::size_t i = 0; i < minutes.size(); ++i) {
    minutes[i].time_s = base::kSecondsPerMinute * static_cast<double>(i);
    for (double MinuteTrace::*member : {&MinuteTrace::air_K,
                                        &MinuteTrace::liner_K,
                                        &MinuteTrace::vessel_K,
                                        &MinuteTrace::core_K}) {
      minutes[i].*member = kNone;
    }
  }
  return minutes;
}

/// Index of a loading time among the candidates; inserts it if it is not one of them.
std::size_t candidate_of(double load_s, std::vector<double>& times_s) {
  auto at = std::lower_bound(times_s.begin(), times_s.end(), load_s - 0.5);
  if (at == times_s.end() || std::abs(*at - load_s) > 0.5) at = times_s.insert(at, load_s);
  return static_cast<std::size_t>(at - times_s.begin());
}

void trace_cook(const Setup& setup,
                const DayQuestion& question,
                const DayForcing& forcing,
                const EmptyDay& empty,
                std::size_t candidate,
                const heat::IntegratorOptions& options,
                DayTrace& trace) {
  const task::Task& task = setup.c->tasks[question.task];
  const heat::HeatModel& model = setup.models[question.task];
  CookReader reader(trace, model);
  task::CookSetup cook =
      cook_setup(setup, {question.day_index, &forcing, &empty, candidate}, question.task);
  cook.also = &reader;
  task::run_cooks(
      task, setup.c->routine, model, std::span(&cook, 1), std::span(&trace.cook, 1), options);
  if (trace.cook.run.failed())
    fail_run("task '" + task.name + "'", setup.sky_day(question.day_index).date, trace.cook.run);
  trace.load_s = cook.load_s;
  trace.end_s = trace.cook.done ? trace.cook.finish_s : trace.cook.run.end_s;
  for (MinuteTrace& minute : trace.minutes)
    minute.core_K = model.food_temperature_K(minute.core_K);  // not a number stays so
  // The last step may reach beyond the end of the cook, when the pot has been taken out.
  for (MinuteTrace& minute : trace.minutes) {
    if (minute.time_s <= trace.end_s) continue;
    minute.air_K = minute.liner_K = minute.vessel_K = minute.core_K = kNone;
  }
  if (trace.target_s && *trace.target_s > trace.end_s) trace.target_s.reset();
}

/// The cause of one lost day of one task, as a season finds it.
Cause cause_of(const Setup& setup,
               const DayQuestion& question,
               std::span<const Midnight> midnight,
               const DayTask& result,
               const SeasonOptions& options) {
  std::vector<DayTask> results(setup.c->tasks.size());
  results[question.task] = result;
  AuditTotal unused;  // a trace reports the balance of its own cook only
  CauseSearch(setup, options, question.day_index, midnight, results, std::span(&unused, 1)).run();
  return results[question.task].cause;
}

void fill_question(const Setup& setup, const DayQuestion& question, DayTrace& trace) {
  const Case& c = *setup.c;
  const task::Task& task = c.tasks[question.task];
  const sky::SkyDay& sky = setup.sky_day(question.day_index);
  trace.date = sky.date;
  trace.light = sky.light;
  trace.spot_name = c.spot.name;
  trace.oven_name = c.oven.name;
  trace.task_name = task.name;
  trace.vessel_name = task.vessel;
  trace.target_K = task::effective_target_K(task, setup.boiling_K);
  trace.asked_target_K = task.target_K;
  trace.boiling_K = setup.boiling_K;
  trace.hold_s = task.hold_s;
  trace.unbroken = task.unbroken;
  trace.oven_air_K = task.oven_air_K;
  trace.oven_air_s = task.oven_air_s;
  trace.finish_by_s = task.finish_by_s;
  trace.overdone_after_s = task.overdone_after_s;
  if (!task.spoils) return;
  trace.rule = task.rule;
  trace.rule_limit_s = task::danger_rule_of(task).limit_s;
}
}  // namespace

DayTrace trace_one_day(const Case& c,
                       const weather::WeatherYear& year,
                       const DayQuestion& question,
                       const SeasonOptions& options) {
  OVENDAYS_CHECK(question.day_index >= 0 && question.day_index < kDays);
  OVENDAYS_CHECK(question.task < c.tasks.size());
  OVENDAYS_CHECK(!options.days_only);
  // The sky of the whole year is made, as for a season, so that the day's bits are the same.
  Setup setup(c, thread_count(options.threads));
  make_setup(c, year, options, setup);
  DayTrace trace;
  trace.minutes = blank_minutes();
  trace.site_name = year.place.name;
  trace.place = year.place;
  fill_question(setup, question, trace);
  // A block of one day, run with the candidate loading times only, as in a season.
  DayBlock block(setup, question.day_index, 1, options);
  block.prepare();
  block.cook(question.task);
  trace.season = block.result(question.task, 0);
  if (options.causes)
    trace.season.cause = cause_of(setup, question, block.midnights(), trace.season, options);
  const bool cooked = trace.season.load_s >= 0.0F;
  const double season_load_s =
      cooked ? static_cast<double>(trace.season.load_s) : setup.load_times_s.front();
  const double load_s = question.load_s.value_or(season_load_s);
  if (load_s >= trace.finish_by_s) {
    throw base::RunError("task '" + trace.task_name + "': every loading time lies after " +
                         base::clock_text(trace.finish_by_s) + ", when it is to be done");
  }
  trace.as_season = cooked && std::abs(load_s - season_load_s) <= 0.5;
  // Steps end at candidate times, so a new one changes the empty oven, by less than the tolerance.
  const std::size_t candidate = candidate_of(load_s, setup.load_times_s);
  const std::size_t group = setup.group_of_task[question.task];
  const DayForcing& forcing = block.forcing().days[group].front();
  trace.aims = forcing.aims;
  const sky::SkyDay& sky = setup.sky_day(question.day_index);
  FineDay fine;
  make_day_forcing(setup.forcing, sky, {}, setup.groups[group], &fine);
  fill_minute_light(fine, sky, trace.minutes);
  MinuteReader empty_reader(trace.minutes, {{heat::kNodeAir, &MinuteTrace::empty_air_K}});
  const DayForcing& empty_forcing = block.forcing().days[0].front();
  const EmptyJob job{question.day_index, block.midnights().front(), &empty_forcing, &empty_reader};
  const std::vector<EmptyDay> empty =
      run_empty_days(setup, std::span(&job, 1), Until::kMidnight, options.integrator);
  trace_cook(setup, question, forcing, empty.front(), candidate, options.integrator, trace);
  return trace;
}
}  // namespace ovendays::season
