// SPDX-License-Identifier: MIT
#include "ovendays/season/season.h"

#include <algorithm>
#include <cmath>

#include "cause_search.h"
#include "ovendays/base/constants.h"
#include "trace.h"
#include "week_run.h"

namespace ovendays::season {
namespace {

/// Days that are run side by side: enough to keep the integrator's lanes full, few enough to share
/// out. The same on any number of threads, since it decides which cooks are overtaken and so what
/// the audit adds up; outcomes hold with any.
constexpr int kDaysSideBySide = 32;  // twelve shares; the empty oven's runs fill two packs

void tell_identity(const Case& c,
                   const weather::WeatherYear& year,
                   const Setup& setup,
                   SeasonResult& result) {
  result.site_name = year.place.name;
  result.spot_name = c.spot.name;
  result.oven_name = c.oven.name;
  result.place = year.place;
  result.boiling_K = setup.boiling_K;
  result.load_names = setup.load_names;
  for (const task::Task& t : c.tasks) {
    result.task_names.push_back(t.name);
    result.task_target_K.push_back(task::effective_target_K(t, setup.boiling_K));
  }
}

void tell_light_tables(const Setup& setup, SeasonResult& result) {
  for (const LoadOptics& load : setup.gains.loads) result.tables.push_back(load.anywhere->table);
  result.mask_january = setup.gains.masks[setup.gains.mask_of_month[0]];
  result.mask_july = setup.gains.masks[setup.gains.mask_of_month[6]];
}

void add_audit(const DayAudit& day, AuditTotal& total) {
  total.worst_share = std::max(total.worst_share, day.worst_share);
  total.in_J += day.in_J;
  total.out_J += day.out_J;
  total.stored_J += day.stored_J;
  total.residual_J += day.residual_J;
  total.runs += day.runs;
  total.steps += day.steps;
  total.rejected += day.rejected;
}

/// What one day leaves to the next: the empty oven at the first loading time, run from the noon
/// before, against the same day begun at midnight with the oven as cool as the air. Twelve days.
double overnight_memory_K(const Setup& setup, const SeasonOptions& options) {
  if (setup.load_times_s.empty()) return 0.0;
  std::array<double, 12> left_K{};
  std::array<heat::Run, 12> carried;  // from the noon before
  std::array<heat::Run, 12> fresh;
  for (std::size_t month = 0; month < 12; ++month) {
    const int d = base::day_index_365(static_cast<int>(month) + 1, 15);
    const auto cool = [&](int day) {
      return heat::uniform_state(setup.sky_day(day).states.front().dry_bulb_K);
    };
    heat::Run& before = carried[month];
    before.forcing = forcing_of(setup.days[static_cast<std::size_t>(d - 1)], 0);
    before.start_s = 43200.0;
    before.end_s = base::kSecondsPerDay;
    before.state = cool(d - 1);
    heat::Run& today = fresh[month];
    today.forcing = forcing_of(setup.days[static_cast<std::size_t>(d)], 0);
    today.start_s = 0.0;
    today.end_s = setup.load_times_s.front();
    today.state = cool(d);
  }
  const auto run = [&](std::span<heat::Run> runs) {
    std::array<heat::RunSummary, 12> summaries;
    heat::integrate(setup.empty, runs, summaries, options.integrator);
  };
  run(carried);
  for (std::size_t month = 0; month < 12; ++month) {
    const heat::State after = carried[month].state;
    carried[month] = fresh[month];
    carried[month].state = after;
  }
  run(carried);
  run(fresh);
  for (std::size_t month = 0; month < 12; ++month) {
    for (std::size_t i = 0; i < heat::kNodes; ++i) {
      const double apart_K = std::abs(carried[month].state[i] - fresh[month].state[i]);
      if (setup.empty.present[i]) left_K[month] = std::max(left_K[month], apart_K);
    }
  }
  return *std::max_element(left_K.begin(), left_K.end());
}

void add_notes(const weather::WeatherYear& year,
               const Setup& setup,
               double peak_liner_K,
               SeasonResult& result) {
  const Case& c = *setup.c;
  const bool rain_known =
      std::any_of(year.hours.begin(), year.hours.end(), [](const weather::WeatherHour& h) {
        return h.precipitation_m.has_value();
      });
  if (!rain_known && !c.spot.roofed) {
    result.notes.push_back("The weather file tells of no rain: no day is counted as lost to it.");
  }
  for (const oven::Layer& layer : c.oven.box.wall) {
    if (peak_liner_K <= layer.material.service_limit_K || &layer != &c.oven.box.wall.front())
      continue;
    result.notes.push_back(
        "The liner reaches " + std::to_string(std::lround(peak_liner_K - base::kZeroCelsius_K)) +
        " C (" + std::to_string(std::lround((peak_liner_K - base::kZeroCelsius_K) * 1.8 + 32.0)) +
        " F); " + layer.material.name + " next to it is good to " +
        std::to_string(std::lround(layer.material.service_limit_K - base::kZeroCelsius_K)) +
        " C only.");
  }
  double unplaced = 0.0;
  for (const sky::SkyDay& day : *setup.sky_year) unplaced += day.unplaced_beam_Jm2;
  if (unplaced > 3.6e6) {
    result.notes.push_back("The weather file holds " +
                           std::to_string(std::lround(unplaced / 3.6e6)) +
                           " kWh/m2 of beam at times when the sun is down; it was left out.");
  }
}
/// The empty oven's temperatures.
void trace_week(const WeekRun& week, const Setup& setup, SeasonResult& result) {
  for (std::size_t i = 0; i < week.days(); ++i) {
    const std::size_t day = static_cast<std::size_t>(week.first_day()) + i;
    trace_oven(week.empty(i),
               setup.empty.present[heat::kNodeTray],
               std::span(result.hours).subspan(day * 24, 24),
               result.day[day]);
  }
}
/// Stretches of days times tasks: what is shared out.
int pieces_of(const Case& c) {
  constexpr int kStretches = (kDays + kDaysSideBySide - 1) / kDaysSideBySide;
  return kStretches * static_cast<int>(c.tasks.size());
}

/// All days as they are, but for causes. @return the hottest that the empty oven's liner was
double cook_year(const Setup& setup,
                 const SeasonOptions& options,
                 Progress& progress,
                 SeasonResult& result,
                 std::span<DayAudit> audits) {
  const auto tasks = static_cast<int>(setup.c->tasks.size());
  std::vector<WeekRun> weeks;
  for (int first = 0; first < kDays; first += kDaysSideBySide)
    weeks.emplace_back(setup, first, std::min(kDaysSideBySide, kDays - first), options);
  parallel(static_cast<int>(weeks.size()), setup.threads, [&](int w) {
    WeekRun& week = weeks[static_cast<std::size_t>(w)];
    week.run_empty();
    if (!options.days_only) trace_week(week, setup, result);
  });
  const bool tells = options.meanwhile && !options.days_only;
  parallel(1 + pieces_of(*setup.c), setup.threads, [&](int job) {
    if (job == 0) {
      if (tells) options.meanwhile(result);
      return;
    }
    const int i = job - 1;
    weeks[static_cast<std::size_t>(i / tasks)].cook(static_cast<std::size_t>(i % tasks));
    progress.add(1);
  });
  double peak_liner_K = 0.0;
  for (const WeekRun& week : weeks) {
    for (std::size_t i = 0; i < week.days(); ++i) {
      const std::size_t day = static_cast<std::size_t>(week.first_day()) + i;
      for (std::size_t t = 0; t < setup.c->tasks.size(); ++t)
        result.days[t * kDays + day] = week.result(t, i);
      audits[day] = week.audit(i);
      peak_liner_K = std::max(peak_liner_K, week.empty(i).peak_liner_K);
    }
  }
  return peak_liner_K;
}
}  // namespace

SeasonResult run_season(const Case& c,
                        const weather::WeatherYear& year,
                        const SeasonOptions& options) {
  Setup setup(c, thread_count(options.threads));
  make_setup(c, year, options, setup);
  SeasonResult result;
  tell_identity(c, year, setup, result);
  if (!options.days_only) tell_light_tables(setup, result);
  const std::size_t tasks = c.tasks.size();
  result.days.resize(tasks * kDays);
  if (!options.days_only) {
    result.hours = setup.year_days->hours;
    std::copy(setup.year_days->day.begin(), setup.year_days->day.end(), result.day.begin());
  }
  std::vector<DayAudit> audits(kDays);
  const int pieces = pieces_of(c);
  const int last_piece = options.causes ? pieces / 8 : 0;  // what the causes take, roughly
  Progress progress(pieces + last_piece, options.progress);
  const double peak_liner_K = cook_year(setup, options, progress, result, audits);
  if (options.causes) {
    CauseSearch(setup, options, 0, result.days, audits).run();
    progress.add(last_piece);
  }
  for (const DayAudit& audit : audits) add_audit(audit, result.audit);  // in the order of days
  if (options.days_only) return result;
  result.memory_K = overnight_memory_K(setup, options);
  add_notes(year, setup, peak_liner_K, result);
  return result;
}
}  // namespace ovendays::season
