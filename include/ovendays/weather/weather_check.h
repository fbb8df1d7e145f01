// SPDX-License-Identifier: MIT
// Quality checks of a weather year: its clock against the computed sun, closure of the three
// irradiances (GHI = DHI + DNI cos z), physical limits, and monthly sums. Findings are worded for
// the user. All functions are thread-safe.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "ovendays/weather/weather_year.h"

namespace ovendays::weather {

/// Sums and means over the hours whose date is in a month. The 24:00 row of a TMY3 file belongs to
/// the day that ends, as in published sums.
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

/// The time shift between the irradiance of a file and the computed sun.
struct ClockCheck {
  bool possible = false;  ///< the file has enough sunshine to judge
  bool by_closure =
      false;  ///< shift_s was found by closure; otherwise from the shape of clear days
  /// [s] To be ADDED to the time stamps to bring them into step with the sun. Negative if the
  /// irradiance comes too late by the stamps.
  double shift_s = 0.0;
  double uncertainty_s = 0.0;  ///< [s] one standard deviation of the estimate
  double shape_shift_s = 0.0;  ///< [s] the shift from the shape of clear days alone, less precise
  bool off = false;            ///< |shift_s| > kClockTolerance_s and > 3 uncertainty_s
};
/// Clock shifts up to this are accepted [s].
inline constexpr double kClockTolerance_s = 600.0;

/// The result of check_weather().
struct WeatherCheck {
  std::array<MonthSums, 13> months;  ///< 0..11 are January to December, 12 is the year
  ClockCheck clock;
  int closure_hours_tested = 0;  ///< hours whose sun is more than 5 deg high
  int closure_hours_failed = 0;  ///< |GHI - DHI - DNI cos z| above 15 W/m2 and above 15 % of GHI
  double closure_energy_failed_kWhm2 = 0.0;  ///< sum of |GHI - DHI - DNI cos z| over those hours
  int night_hours_with_beam = 0;  ///< DNI or GHI above 5 W/m2 with the disc down for the whole hour
  double night_energy_kWhm2 = 0.0;  ///< GHI of those hours
  /// Hours with GHI or DHI above 1.03 times the extraterrestrial horizontal irradiance plus 10
  /// W/m2, or with DNI above the extraterrestrial normal irradiance. Only hours whose sun is more
  /// than 5 deg high count; below, the mean of an hour and the sun of its middle differ too much.
  int beyond_extraterrestrial_hours = 0;
  /// Findings in words, worst first, each with the line of its first occurrence (0 where no line
  /// applies). Besides the above they cover a clock error, a time zone far from the longitude, dew
  /// point above dry bulb, diffuse above global, excessive rain, pressure that contradicts the
  /// elevation, values that do not change, and filled gaps.
  std::vector<WeatherNote> findings;
  /// What the file lacks: "horizontal infrared", "rain in 8011 hours", "gusts", "elevation", ...
  std::vector<std::string> missing;
};

/// Runs all checks. Takes about 0.1 s.
WeatherCheck check_weather(const WeatherYear& year);

/// Checks the clock alone. Takes some milliseconds, and finds shifts of -12..12 h to about 5
/// minutes.
///
/// Closure is used if the three irradiances close to 12 %: (GHI - DHI)/DNI is cos z whatever the
/// time stamps say, so the shift that minimises sum (GHI - DHI - DNI cos z(t + shift))^2 over the
/// hours with beam is the clock error. Otherwise the centre of each day's irradiance is compared
/// with solar noon on the clearest 30 % of days, since a clear day is symmetric about noon. Both
/// methods are our own; there is no source.
ClockCheck check_clock(const WeatherYear& year);

/// Rejects a file whose clock is off, unless the case states a clock shift.
/// @throws base::InputError that names the shift needed
void require_sound_clock(const WeatherYear& year, const ClockCheck& clock, bool shift_was_stated);
}  // namespace ovendays::weather
