// SPDX-License-Identifier: MIT
// The aiming card of one day, for use beside the oven: when to turn it, in which direction and into
// which notch; when the sun reaches the spot and leaves it; and the length of a peg's shadow at
// each turn, as a check. The aims are task::day_aims of the day, as in a season whose cook is
// never late (Routine::re_aim_late_s). Times are seconds of the day, local standard time; azimuth
// clockwise from true north.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/season/case.h"
#include "ovendays/task/aim.h"

namespace ovendays::season {

/// One turn of the oven.
struct AimRow {
  double time_s = 0.0;  ///< of the first row: when the oven is set out
  task::Aim aim;
  double sun_azimuth_rad = 0.0;    ///< at time_s
  double sun_elevation_rad = 0.0;  ///< apparent, at time_s; below 0 before sunrise
  double visible_share = 0.0;      ///< of the sun, over the mouth, at time_s; 0 when it is down
  /// Length of an upright peg's shadow on level ground over the peg's height, 1 / tan(elevation);
  /// nullopt where the sun stands below kLeastShadow_rad. The shadow points away from the sun.
  std::optional<double> shadow;
};
/// Below this elevation a shadow is too long and too blurred to be measured.
inline constexpr double kLeastShadow_rad = 0.0872664625997165;  // 5 deg

/// A period with the sun on more than half of the mouth.
struct SunSpell {
  double from_s = 0.0;
  double to_s = 0.0;
};

/// Notches that some tasks cannot use, lest a vessel spill, slide or touch the glass.
struct NotchesShut {
  std::vector<int> notches;  ///< indices into AimDesign::notch_tilt_rad, ascending
  std::vector<std::string> task_names;
};

struct AimCard {
  base::Date date;  ///< with the year of the weather record
  std::string site_name, spot_name, oven_name;
  sun::Place place;
  sun::DayLight light;
  std::optional<double> declination_rad;  ///< magnetic declination, east positive
  std::string task_name;                  ///< whose notches the card keeps to; empty: of any task
  std::vector<NotchesShut> shut;          ///< of the tasks on the card
  bool turns = true;                      ///< false: the facing is fixed and only the notch changes
  std::vector<AimRow> rows;      ///< aims in force while the sun is up; empty if it never is
  std::vector<SunSpell> spells;  ///< to the minute, ascending
};

/// @param day_index 0..364
/// @param task index into the tasks of the case; without it the card uses every notch that
/// some task can use
/// Thread-safe: yes.
AimCard make_aim_card(const Case& c,
                      const weather::WeatherYear& year,
                      int day_index,
                      std::optional<std::size_t> task = std::nullopt);

/// The bearing that a magnetic compass shows [rad], 0..2 pi. @param declination_rad east positive
double magnetic_bearing_rad(double true_rad, double declination_rad);
}  // namespace ovendays::season
