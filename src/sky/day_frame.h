// SPDX-License-Identifier: MIT
// One local day of a weather year: its date, its air, and when the sun is up. Times inside a frame
// are seconds of that date's local standard time and may run below 0 or above 86400.
#pragma once

#include <vector>

#include "ovendays/base/calendar.h"
#include "ovendays/sun/sun.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::sky {

inline constexpr long kDaysPerYear = 365;
inline constexpr long kHoursPerYear = 8760;

/// The hour at an index that may run beyond the year's ends (the year is taken as a ring).
const weather::WeatherHour& wrapped_hour(const weather::WeatherYear& year, long hour);

/// By how much the intervals start after the full hour [s]; one figure for the whole year, negative
/// where the first interval starts on 31 December.
double interval_shift_s(const weather::WeatherYear& year);

/// A time the sun is up [s].
struct Stretch {
  double from_s;
  double to_s;
};

struct DayFrame {
  base::Date date;         ///< month and day of the index, year of its noon record
  sun::RefractionAir air;  ///< means of the day
  sun::DayLight light;
  /// In order, apart by a minute or more; own light and that of the neighbouring dates.
  std::vector<Stretch> lit;

  [[nodiscard]] sun::SunDirection sun_at(double t_s, const sun::Place& place) const;
};

/// @param day index, may run beyond the year's ends
DayFrame make_day_frame(const weather::WeatherYear& year, long day);
}  // namespace ovendays::sky
