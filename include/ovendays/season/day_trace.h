// SPDX-License-Identifier: MIT
// One day minute by minute: the light at the oven, the empty oven, and one task cooked in it. It
// uses the forcing, the heat model and the integrator of a season, so it agrees with the season.
// Times are seconds of the day, local standard time; angles as everywhere, azimuth from north.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/season/season.h"
#include "ovendays/task/cook.h"

namespace ovendays::season {

inline constexpr int kMinutes = 24 * 60;

/// The cook to be traced.
struct DayQuestion {
  int day_index = 0;     ///< 0..364
  std::size_t task = 0;  ///< index into the tasks of the case
  /// Loading time; without it, the one that the season reports for that day.
  std::optional<double> load_s = std::nullopt;
};

/// One whole minute of the day. Values of the cook are NaN before loading and after its end.
struct MinuteTrace {
  double time_s = 0.0;
  double sun_zenith_rad = 0.0, sun_azimuth_rad = 0.0;  ///< apparent; below the horizon at night
  double visible_share = 1.0;             ///< of the sun, over the oven's mouth; 1 where it is down
  double beam_mouth_Wm2 = 0.0;            ///< on the glass after obstructions, circumsolar included
  double open_beam_mouth_Wm2 = 0.0;       ///< the same beam without obstructions
  double diffuse_mouth_Wm2 = 0.0;         ///< on the glass: sky, ground and what reflects
  double ambient_K = 0.0, wind_ms = 0.0;  ///< at the oven
  double empty_air_K = 0.0;               ///< air of the empty oven, all day
  double air_K = 0.0, liner_K = 0.0;      ///< of the loaded oven
  double vessel_K = 0.0, core_K = 0.0;    ///< of the load
};

/// The traced day. Times are seconds of the day.
struct DayTrace {
  base::Date date;  ///< its year is that of the weather's record
  std::string site_name, spot_name, oven_name, task_name, vessel_name;
  sun::Place place;
  sun::DayLight light;
  double target_K = 0.0;        ///< of the core, as used
  double asked_target_K = 0.0;  ///< as the case has it: higher where water boils below it
  double boiling_K = 373.15;
  double hold_s = 0.0;               ///< time needed at or above the target
  bool unbroken = false;             ///< ... in one go
  std::optional<double> oven_air_K;  ///< temperature that the oven's air needs as well ...
  double oven_air_s = 0.0;           ///< ... for this long in all
  double finish_by_s = 0.0;
  std::optional<double> overdone_after_s;  ///< as of task::Task
  std::string rule;           ///< key of the task's danger rule; empty where none applies
  double rule_limit_s = 0.0;  ///< longest time the rule allows in its danger zone
  DayTask season;             ///< what a season finds for this task on this day
  double load_s = 0.0;        ///< loading time of the traced cook
  bool as_season = false;     ///< the traced cook is the one that `season` reports
  task::CookResult cook;
  double end_s = 0.0;              ///< when the cook ends: done, hopeless or too late
  std::optional<double> target_s;  ///< when the core first reaches the target
  std::vector<task::Aim> aims;
  std::vector<MinuteTrace> minutes;  ///< kMinutes + 1, 0 h and 24 h included
};

/// @param question task and day within range; load_s, where given, from 0 h to before finish_by
/// @param options threads, accuracy; `progress` is not called
/// @throws base::RunError where the integration fails, or no loading time lies before finish_by
/// Thread-safe: yes.
DayTrace trace_one_day(const Case& c,
                       const weather::WeatherYear& year,
                       const DayQuestion& question,
                       const SeasonOptions& options);
}  // namespace ovendays::season
