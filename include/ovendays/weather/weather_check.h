// SPDX-License-Identifier: MIT
// What is wrong with a weather year, in words, with line numbers; and its monthly sums.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "ovendays/weather/weather_year.h"

namespace ovendays::weather {

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

/// Clock check: by how much the irradiance of the file lags (+) or leads (-) the computed sun [s].
struct ClockCheck {
  bool possible = false;       ///< enough clear hours to judge
  double shift_s = 0.0;        ///< to be ADDED to the stamps to bring them into step with the sun
  double uncertainty_s = 0.0;  ///< one standard deviation of the estimate
  bool off = false;            ///< beyond kClockTolerance_s and significant
};
inline constexpr double kClockTolerance_s = 600.0;

struct WeatherCheck {
  std::array<MonthSums, 13> months;  ///< 0..11 January..December, 12 the year
  ClockCheck clock;
  int closure_hours_tested = 0;  ///< sun up by more than 5 deg
  int closure_hours_failed = 0;  ///< |GHI - DHI - DNI cos z| above 15 W/m2 and 15 % of GHI
  double closure_energy_failed_kWhm2 = 0.0;  ///< sum of |difference| over those hours
  int night_hours_with_beam = 0;  ///< DNI or GHI above 5 W/m2 with the sun down all the hour
  double night_energy_kWhm2 = 0.0;
  int beyond_extraterrestrial_hours = 0;
  std::vector<WeatherNote>
      findings;  ///< in words, worst first, each with the line of its first case
  std::vector<std::string> missing;  ///< what the file lacks: "rain", "horizontal infrared", ...
};

WeatherCheck check_weather(const WeatherYear& year);

/// By how much irradiance and the computed sun are out of step. Uses beam hours: the shift that
/// makes GHI - DHI = DNI cos z fit best over the year, refined by the morning-evening symmetry of
/// the clearness index on clear days. Finds shifts of -12..12 h to about 5 minutes.
ClockCheck check_clock(const WeatherYear& year);

/// @throws base::InputError where the clock is off and the case did not state a clock_shift.
void require_sound_clock(const WeatherYear& year, const ClockCheck& clock, bool shift_was_stated);
}  // namespace ovendays::weather
