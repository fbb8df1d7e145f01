// SPDX-License-Identifier: MIT
// How the cook works: when the oven is put out, loaded, turned, opened, and when it stays in.
#pragma once

#include <array>
#include <vector>

#include "ovendays/base/case_node.h"

namespace ovendays::task {

enum class ReAim { kEvery, kAtTimes, kOnce, kNever };

/// The cook's habits. Times are seconds of the day.
struct Routine {
  double set_out_s = 7.0 * 3600;  ///< the oven is put out; before that no sun reaches it
  double earliest_load_s = 8.0 * 3600;
  double latest_load_s = 16.0 * 3600;
  double load_every_s = 1800;  ///< interval between candidate loading times
  bool preheat = true;         ///< the oven warms up empty; else it is set out as it is loaded
  double home_from_s = 0.0;    ///< loading, re-aiming and lid openings need somebody at home
  double home_until_s = 86400.0;
  std::array<bool, 7> weekdays{true, true, true, true, true, true, true};  ///< Monday first
  int first_weekday = 0;  ///< of 1 January, 0 is Monday; a typical year has no weekdays of its own
  ReAim re_aim = ReAim::kEvery;
  double re_aim_every_s = 1800;  ///< kEvery
  /// How late each turn after setting out is done, to the aim planned for its own time.
  double re_aim_late_s = 0.0;
  std::vector<double>
      re_aim_s;  ///< kAtTimes; kOnce: the one time at which it is pointed at the sun
  double facing_rad = 3.141592653589793;  ///< kNever: azimuth that the oven always faces
  double fixed_tilt_rad = -1.0;  ///< box tilt that is never changed; < 0: best notch at each re-aim
  std::vector<double>
      lid_open_after_s;        ///< looks and stirs, after the loading, which also opens it
  double lid_open_s = 30.0;    ///< duration of each opening
  double flaps_wind_ms = 1e9;  ///< flaps are laid in above this wind at the oven
  /// The oven stays in if the wind at it exceeds this between set-out and latest loading ...
  double stay_in_wind_ms = 14.0;
  /// ... or if more rain than this falls on that day and the spot has no roof.
  double stay_in_rain_m = 0.0005;
  /// Glass and foil are washed on 1 January and so long after each washing. 0: dust is not counted
  /// apart from the oven's own cleanliness (oven::AsBuilt), which else is that right after washing.
  double wash_every_s = 0.0;
  /// Share that a day's dust takes of the light at one pass. Kimber et al. 2006 as in pvlib's
  /// documentation: 0.001 to 0.002 rural to urban, 0.003 in the desert; 0.0015 is pvlib's default.
  double dust_per_day = 0.0015;
  bool operator==(const Routine&) const = default;
};

/// Reads [routine].
Routine read_routine(const base::CaseNode& node);
/// The default routine as TOML, with comments.
const char* example_routine_toml();

/// Candidate loading times of a day [s], ascending.
std::vector<double> loading_times(const Routine& routine);
/// True if somebody cooks on that day of the year (0..364).
bool cooks_on(const Routine& routine, int day_index);
}  // namespace ovendays::task
