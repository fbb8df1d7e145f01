// SPDX-License-Identifier: MIT
// How the cook works: when the oven is put out, loaded, turned, opened, and when it stays in.
#pragma once

#include <array>
#include <vector>

#include "ovendays/base/case_node.h"

namespace ovendays::task {

enum class ReAim { kEvery, kAtTimes, kOnce, kNever };

struct Routine {
  double set_out_s = 7.0 * 3600;  ///< the oven is put out (before that it sees no sun)
  double earliest_load_s = 8.0 * 3600;
  double latest_load_s = 16.0 * 3600;
  double load_every_s = 1800;  ///< candidate loading times
  bool preheat =
      true;  ///< the oven warms up empty before loading; else it is set out as it is loaded
  double home_from_s =
      0.0;  ///< somebody is home: loading, re-aiming and lid openings happen only then
  double home_until_s = 86400.0;
  std::array<bool, 7> weekdays{true,
                               true,
                               true,
                               true,
                               true,
                               true,
                               true};  ///< Monday first; a typical year has no weekdays of its own:
  int first_weekday = 0;               ///< weekday of 1 January, 0 is Monday
  ReAim re_aim = ReAim::kEvery;
  double re_aim_every_s = 1800;  ///< kEvery
  std::vector<double>
      re_aim_s;  ///< kAtTimes; kOnce has one: when it is pointed, at where the sun then stands
  double facing_rad = 3.141592653589793;  ///< kNever: azimuth the oven faces for good
  double fixed_tilt_rad =
      -1.0;  ///< box tilt kept for good; < 0: the cook picks the best notch at each re-aim
  std::vector<double> lid_open_after_s;  ///< lid openings after loading [s] (a look, a stir);
                                         ///< loading itself always opens it
  double lid_open_s = 30.0;              ///< how long each takes
  double flaps_wind_ms = 1e9;            ///< flaps are laid in above this wind at the oven
  double stay_in_wind_ms = 14.0;         ///< the oven stays in when any hour from set-out to latest
                                         ///< loading blows harder at the oven
  double stay_in_rain_m =
      0.0005;  ///< ... or when more rain than this falls that day on a spot without a roof
  bool operator==(const Routine&) const = default;
};

/// Reads [routine].
Routine read_routine(const base::CaseNode& node);
/// A commented [routine] block; parses without faults.
const char* example_routine_toml();

/// Candidate loading times of a day [s], ascending.
std::vector<double> loading_times(const Routine& routine);
/// True where the routine cooks on that day of the year (0..364).
bool cooks_on(const Routine& routine, int day_index);
}  // namespace ovendays::task
