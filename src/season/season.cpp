// SPDX-License-Identifier: MIT
#include "ovendays/season/season.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>
#include <vector>

#include "block_schedule.h"
#include "cause_search.h"
#include "dust.h"
#include "ovendays/base/calendar.h"
#include "ovendays/base/constants.h"
#include "tilt_notes.h"

namespace ovendays::season {
namespace {

void fill_identity(const Case& c,
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

void fill_light_tables(const Setup& setup, SeasonResult& result) {
  for (const LoadAtSpot& load : setup.forcing.loads) result.tables.push_back(load.optics->table);
  result.mask_january = setup.forcing.masks[setup.forcing.mask_of_month[0]];
  result.mask_july = setup.forcing.masks[setup.forcing.mask_of_month[6]];
}

/// Says on how many short days it was the oven's air that fell short of its rule, not the core.
void add_air_notes(const Case& c, SeasonResult& result) {
  for (std::size_t t = 0; t < c.tasks.size(); ++t) {
    const task::Task& task = c.tasks[t];
    if (!task.oven_air_K) continue;
    int too_short = 0;
    int by_air = 0;
    for (int d = 0; d < kDays; ++d) {
      const DayTask& day = result.at(t, d);
      if (day.outcome != Outcome::kShort) continue;
      ++too_short;
      by_air += day.air_short_s > 0.0F && day.shortfall_K <= 0.0F ? 1 : 0;
    }
    if (by_air == 0) continue;
    result.notes.push_back(
        task.name + ": on " + std::to_string(by_air) + " of " + std::to_string(too_short) +
        " short days the core got hot enough, but the oven's air never held " +
        in_both_units(*task.oven_air_K) + " for " +
        std::to_string(std::lround(task.oven_air_s / base::kSecondsPerMinute)) +
        " min. That rule is common practice, without a source: food bakes in cooler air too, only "
        "more slowly.");
  }
}

/// Says on how many days food would be overdone if it stayed in until it is wanted.
void add_overdone_notes(const Case& c, SeasonResult& result) {
  for (std::size_t t = 0; t < c.tasks.size(); ++t) {
    const task::Task& task = c.tasks[t];
    if (!task.overdone_after_s) continue;
    int cooked = 0;
    int overdone = 0;
    for (int d = 0; d < kDays; ++d) {
      const DayTask& day = result.at(t, d);
      if (day.outcome != Outcome::kCooked) continue;
      ++cooked;
      overdone += static_cast<double>(day.margin_s) > *task.overdone_after_s ? 1 : 0;
    }
    if (overdone == 0) continue;
    result.notes.push_back(
        task.name + ": on " + std::to_string(overdone) + " of " + std::to_string(cooked) +
        " days it would be overdone if, loaded at the quickest time, it stayed in until " +
        base::clock_text(task.finish_by_s) + ", more than " +
        std::to_string(std::lround(*task.overdone_after_s / base::kSecondsPerMinute)) +
        " min after it is done. Take it out in time, or load it later.");
  }
}

void add_notes(const weather::WeatherYear& year,
               const Setup& setup,
               std::span<const double> peak_face_K,
               bool causes_known,
               SeasonResult& result) {
  const Case& c = *setup.c;
  const bool rain_known =
      std::any_of(year.hours.begin(), year.hours.end(), [](const weather::WeatherHour& h) {
        return h.precipitation_m.has_value();
      });
  if (!rain_known && !c.spot.roofed) {
    result.notes.push_back(
        "The weather file has no rain data, so no day is counted as lost to rain.");
  }
  for (std::string& note : dust_notes(c.routine, setup.forcing.dust, rain_known))
    result.notes.push_back(std::move(note));
  for (std::string& note : service_limit_notes(setup.layer_faces, peak_face_K))
    result.notes.push_back(std::move(note));
  add_air_notes(c, result);
  add_overdone_notes(c, result);
  for (std::string& note : tilt_notes(setup, result, causes_known))
    result.notes.push_back(std::move(note));
  double unplaced = 0.0;
  for (const sky::SkyDay& day : *setup.sky_year) unplaced += day.unplaced_beam_Jm2;
  // A little is normal around sunrise and sunset; warn from 1 kWh/m2 a year.
  if (unplaced > 3.6e6) {
    result.notes.push_back("The weather file holds " +
                           std::to_string(std::lround(unplaced / 3.6e6)) +
                           " kWh/m2 of beam at times when the sun is down; it was left out.");
  }
}
}  // namespace

SeasonResult run_season(const Case& c,
                        const weather::WeatherYear& year,
                        const SeasonOptions& options) {
  Setup setup(c, thread_count(options.threads));
  make_setup(c, year, options, setup);
  SeasonResult result;
  fill_identity(c, year, setup, result);
  if (!options.days_only) fill_light_tables(setup, result);
  const int parts = kBlocks * static_cast<int>(c.tasks.size());
  const int causes_share = options.causes ? parts / 8 : 0;  // about an eighth of the time
  Progress progress(parts + causes_share, options.progress);
  BlockSchedule run(setup, options, progress, result);
  run.run();
  std::vector<AuditTotal> audits = run.audits();
  if (options.causes) {
    CauseSearch(setup, options, 0, run.midnights(), result.days, audits).run();
    progress.add(causes_share);
  }
  // Always in the order of days, so that rounding does not depend on the threads.
  for (const AuditTotal& audit : audits) result.audit += audit;
  if (options.days_only) return result;
  result.memory_K = run.memory_K();
  add_notes(year, setup, run.peak_face_K(), options.causes, result);
  return result;
}
}  // namespace ovendays::season
