// SPDX-License-Identifier: MIT
#include "ovendays/season/season.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>
#include <vector>

#include "block_schedule.h"
#include "cause_search.h"

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

void add_notes(const weather::WeatherYear& year,
               const Setup& setup,
               std::span<const double> peak_face_K,
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
  for (std::string& note : service_limit_notes(setup.layer_faces, peak_face_K))
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
  add_notes(year, setup, run.peak_face_K(), result);
  return result;
}
}  // namespace ovendays::season
