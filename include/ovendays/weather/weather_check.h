// SPDX-License-Identifier: MIT
// What is wrong with a weather year, in words, with line numbers; and its monthly sums.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "ovendays/weather/weather_year.h"

namespace ovendays::weather {

/// Sums and means over the hours whose date is in the month (a TMY3 24:00 row belongs to the day
/// that ends).
struct MonthSums {
  int hours = 0;
  double ghi_kWhm2 = 0.0;
  double dni_kWhm2 = 0.0;
  double dhi_kWhm2 = 0.0;
  double dry_bulb_mean_K = 0.0;
  double dry_bulb_min_K = 0.0;
  double dry_bulb_max_K = 0.0;
  double wind_mean_ms = 0.0;
};

/// By how much the irradiance of a file and the computed sun are out of step.
struct ClockCheck {
  bool possible = false;       ///< enough sun in the file to judge
  bool by_closure = false;     ///< shift_s is from GHI - DHI = DNI cos z; else from the day's shape
  double shift_s = 0.0;        ///< [s] to be ADDED to the stamps to bring them into step with the
                               ///< sun: negative where the irradiance comes late by the stamps
  double uncertainty_s = 0.0;  ///< [s] one standard deviation of the estimate
  double shape_shift_s = 0.0;  ///< [s] the same from the middle of clear days alone; coarser
  bool off = false;            ///< |shift_s| > kClockTolerance_s and > 3 uncertainty_s
};
inline constexpr double kClockTolerance_s = 600.0;

struct WeatherCheck {
  std::array<MonthSums, 13> months;  ///< 0..11 January..December, 12 the year
  ClockCheck clock;
  int closure_hours_tested = 0;  ///< sun up by more than 5 deg at the interval's own instant
  int closure_hours_failed = 0;  ///< |GHI - DHI - DNI cos z| above 15 W/m2 and 15 % of GHI
  double closure_energy_failed_kWhm2 = 0.0;  ///< sum of |difference| over those hours
  int night_hours_with_beam = 0;  ///< DNI or GHI above 5 W/m2 with the sun's disc down all the hour
  double night_energy_kWhm2 = 0.0;  ///< GHI of those hours
  /// Sun up by more than 5 deg (lower down, an hour's mean and its mid-hour sun differ too much to
  /// say) and GHI or DHI above 1.03 times the extraterrestrial plus 10 W/m2, or DNI above it.
  int beyond_extraterrestrial_hours = 0;
  /// In words, worst first, each with the line of its first case (0 where no line applies): the
  /// above, a clock that is off, a zone far from the longitude, dew point above dry bulb, diffuse
  /// above global, pressure against elevation, values that never change, filled gaps.
  std::vector<WeatherNote> findings;
  /// What the file lacks: "horizontal infrared", "rain in 8011 hours", "gusts", "elevation", ...
  std::vector<std::string> missing;
};

/// The whole check; of the order of 0.1 s. Thread-safe: yes.
WeatherCheck check_weather(const WeatherYear& year);

/// The clock alone; some milliseconds. Finds shifts of -12..12 h to about 5 minutes.
/// By closure where the three irradiances close to 12 %: (GHI - DHI)/DNI is cos z whatever the
/// stamps say, so the shift of least sum (GHI - DHI - DNI cos z(t + shift))^2 over the beam hours
/// is sought over the whole day and refined. Otherwise from the middle of the day's irradiance on
/// the clearest 30 % of days (the morning-evening symmetry of a clear day). Both are our own; no
/// source. Thread-safe: yes.
ClockCheck check_clock(const WeatherYear& year);

/// @throws base::InputError where the clock is off and the case did not state a clock_shift.
void require_sound_clock(const WeatherYear& year, const ClockCheck& clock, bool shift_was_stated);
}  // namespace ovendays::weather
